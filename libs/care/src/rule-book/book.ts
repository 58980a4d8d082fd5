/** A rule book that can be asked: the rules of a release in order, an index by material, and the choices a network has made. */
import type { CareCalibration } from '../calibration.js';
import { prepare } from '../conclusions.js';
import type { PreparedRule } from '../conclusions.js';
import { MATERIALS } from '../materials.js';
import type { MaterialClass } from '../types.js';
import { MATERIAL_CLASSES } from '../types.js';
import { rulesOf } from './all-rules.js';
import { BookChoiceError, choicesOf } from './choices.js';
import type { Choice, ChoiceId, ChoiceOption } from './choices.js';
import { NEWEST_RELEASE, RELEASES, type ReleaseName } from './releases.js';
import type { Rule } from './rule.js';

/** Version of the newest rules at the default of their choices; recorded with every result so that an old decision can be read by its own rules. */
export const RULE_BOOK_VERSION: string = NEWEST_RELEASE;

/** Chosen options by choice; what is left out stays at its default. */
export type Chosen = Readonly<Partial<Record<ChoiceId, string>>>;

/** One version of the rule book. */
export interface Book {
  /** The release, with the choices that differ from the default. */
  version: string;
  release: ReleaseName;
  rules: readonly Rule[];
  /** The option in force for every choice that the release has. */
  choices: Chosen;
  /** The rules that can apply to a thing handled as this class, in the order of the book. */
  candidates: (handledAs: MaterialClass) => readonly PreparedRule[];
  /** The calibration with the numbers of the chosen options in it. */
  calibrate: (calibration: CareCalibration) => CareCalibration;
}

function concerns(rule: Rule, materialClass: MaterialClass): boolean {
  if (rule.classes === undefined && rule.families === undefined) return true;
  return (rule.classes?.includes(materialClass) ?? false) || (rule.families?.includes(MATERIALS[materialClass].family) ?? false);
}

function indexOf(rules: readonly Rule[]): Map<MaterialClass, PreparedRule[]> {
  const prepared = prepare(rules);
  return new Map(MATERIAL_CLASSES.map((materialClass) => [materialClass, prepared.filter(({ rule }) => concerns(rule, materialClass))]));
}

/** Remembers the last calibration, because one triage after another asks for the same. */
function calibrator(options: readonly ChoiceOption[]): Book['calibrate'] {
  const patches = options.flatMap(({ numbers }) => (numbers === undefined ? [] : [numbers]));
  if (patches.length === 0) return (calibration) => calibration;
  const known = new WeakMap<CareCalibration, CareCalibration>();
  return (calibration) => {
    const patched = known.get(calibration) ?? patches.reduce<CareCalibration>((so, { clockHours, ...others }) => ({ ...so, ...others, clockHours: { ...so.clockHours, ...clockHours } }), calibration);
    known.set(calibration, patched);
    return patched;
  };
}

/** What a book is made of besides its rules. */
interface Making {
  release?: ReleaseName;
  choices?: Chosen;
  options?: readonly ChoiceOption[];
}

/**
 * A book of any rules, for tests and comparisons. A rule with neither `classes` nor `families` is asked of everything;
 * with either, only of what they name, so that the cost of a question does not grow with rules for other things.
 */
export function bookOf(rules: readonly Rule[], version: string, { release = NEWEST_RELEASE, choices = defaultsOf(release), options = [] }: Making = {}): Book {
  const index = indexOf(rules);
  return { version, release, rules, choices, candidates: (handledAs) => index.get(handledAs) ?? [], calibrate: calibrator(options) };
}

function defaultsOf(release: ReleaseName): Chosen {
  return Object.freeze(Object.fromEntries(choicesOf(release).map(({ id, default: option }) => [id, option])));
}

function optionOf(choice: Choice, wanted: string): ChoiceOption {
  const option = choice.options.find(({ id }) => id === wanted);
  if (option === undefined) throw new BookChoiceError('unknown-option', choice.id, wanted);
  if (choice.floor && wanted !== choice.default) throw new BookChoiceError('floor', choice.id, wanted);
  return option;
}

function applied(rules: readonly Rule[], option: ChoiceOption): readonly Rule[] {
  const { replace = {}, drop = [], add = [] }: NonNullable<ChoiceOption['rules']> = option.rules ?? {};
  const kept = rules.filter(({ id }) => !drop.includes(id)).map((rule) => (replace[rule.id] === undefined ? rule : { ...rule, ...replace[rule.id] }));
  return [...kept, ...add];
}

/**
 * The rule book of a release, the newest when none is named, with a network's choices. The version names every choice that
 * differs from the default.
 * @throws BookChoiceError for a choice or option that the release does not have, and for a safety floor.
 */
export function buildBook({ release = NEWEST_RELEASE, choices = {} }: { release?: ReleaseName; choices?: Chosen } = {}): Book {
  const all = choicesOf(release);
  const known = new Map<string, Choice>(all.map((choice) => [choice.id, choice]));
  for (const id of Object.keys(choices)) if (!known.has(id)) throw new BookChoiceError('unknown-choice', id, '');
  const switched = all.filter(({ id, default: option }) => choices[id] !== undefined && choices[id] !== option);
  const options = switched.map((choice) => optionOf(choice, choices[choice.id] ?? choice.default));
  if (switched.length === 0) return DEFAULT_BOOKS[release];
  const suffix = switched.map((choice, index) => [choice.id, options[index]?.id].join('=')).join(',');
  const rules = options.reduce(applied, rulesOf(release));
  return bookOf(rules, [release, suffix].join('+'), { release, choices: { ...defaultsOf(release), ...choices }, options });
}

/** The rule book of each release with every choice at its default. */
const DEFAULT_BOOKS = Object.fromEntries(RELEASES.map((release) => [release, bookOf(rulesOf(release), release, { release })])) as Readonly<Record<ReleaseName, Book>>;

/** The newest rule book with every choice at its default. */
export const DEFAULT_BOOK: Book = DEFAULT_BOOKS[NEWEST_RELEASE];
