/** A rule book that can be asked: rules in order, an index by material, and the choices a network has made. */
import type { CareCalibration } from '../calibration.js';
import { prepare } from '../conclusions.js';
import type { PreparedRule } from '../conclusions.js';
import { MATERIALS } from '../materials.js';
import type { MaterialClass } from '../types.js';
import { MATERIAL_CLASSES } from '../types.js';
import { BookChoiceError, CHOICES } from './choices.js';
import type { Choice, ChoiceId, ChoiceOption } from './choices.js';
import { ALL_RULES } from './all-rules.js';
import type { Rule } from './rule.js';

/** Version of the rules as they stand here; recorded with every result so that an old decision can be read by its own rules. */
export const RULE_BOOK_VERSION = '2026.2';

/** Chosen options by choice; what is left out stays at its default. */
export type Chosen = Readonly<Partial<Record<ChoiceId, string>>>;

/** One version of the rule book. */
export interface Book {
  /** Version of the rules, with the choices that differ from the default. */
  version: string;
  rules: readonly Rule[];
  /** The option in force for every choice. */
  choices: Readonly<Record<ChoiceId, string>>;
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

/**
 * A book of any rules, for tests and comparisons. A rule with neither `classes` nor `families` is asked of everything;
 * with either, only of what they name, so that the cost of a question does not grow with rules for other things.
 */
export function bookOf(rules: readonly Rule[], version: string, choices: Book['choices'] = DEFAULT_OPTIONS, options: readonly ChoiceOption[] = []): Book {
  const index = indexOf(rules);
  return { version, rules, choices, candidates: (handledAs) => index.get(handledAs) ?? [], calibrate: calibrator(options) };
}

const DEFAULT_OPTIONS: Book['choices'] = Object.freeze(Object.fromEntries(CHOICES.map(({ id, default: option }) => [id, option])) as Record<ChoiceId, string>);

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
 * The rule book with a network's choices. The version names every choice that differs from the default.
 * @throws BookChoiceError for a choice or option that does not exist, and for a safety floor.
 */
export function buildBook({ choices = {} }: { choices?: Chosen } = {}): Book {
  const known = new Map<string, Choice>(CHOICES.map((choice) => [choice.id, choice]));
  for (const id of Object.keys(choices)) if (!known.has(id)) throw new BookChoiceError('unknown-choice', id, '');
  const switched = CHOICES.filter(({ id, default: option }) => choices[id] !== undefined && choices[id] !== option);
  const options = switched.map((choice) => optionOf(choice, choices[choice.id] ?? choice.default));
  if (switched.length === 0) return DEFAULT_BOOK;
  const suffix = switched.map((choice, index) => [choice.id, options[index]?.id].join('=')).join(',');
  const rules = options.reduce(applied, ALL_RULES);
  return bookOf(rules, [RULE_BOOK_VERSION, suffix].join('+'), { ...DEFAULT_OPTIONS, ...choices }, options);
}

/** The rule book with every choice at its default. */
export const DEFAULT_BOOK: Book = bookOf(ALL_RULES, RULE_BOOK_VERSION);
