import type { Assessment, Book, DamageKind, Disposition, MaterialClass, Restriction, StepKind, TriageOutcome, Urgency } from '#care';
import { DEFAULT_BOOK, DEFAULT_CALIBRATION, triageOutcome } from '#care';
import { contextAt, FLOOD_AT_MS, HOUR_MS, knownAssessment } from '../../../unit/care/assessment.support.js';

/** What a source asks for, in the terms of the engine; every entry of a list is a check of its own. */
export interface Expected {
  startByHours?: number;
  binding?: DamageKind | null;
  urgency?: Urgency;
  first?: Disposition;
  /** Ways that are open, best first. */
  open?: readonly Disposition[];
  /** Steps of ways that are open. */
  routes?: Readonly<Partial<Record<Disposition, readonly StepKind[]>>>;
  /** Sentences that must be said, wherever: prohibitions, cautions, referral, needs, storage, company to avoid. */
  says?: readonly string[];
  silentOn?: readonly string[];
  ppe?: readonly string[];
  /** People who may not be assigned to some step of an open way. */
  keepsOff?: readonly Restriction[];
  keepsOffStep?: Readonly<Partial<Record<StepKind, readonly Restriction[]>>>;
  /** Rules that must be named among the reasons: for rules that explain and conclude nothing else. */
  reasons?: readonly string[];
  bath?: 'alone' | 'shared';
  treatedAs?: MaterialClass;
  notColderThanC?: number;
}

/** One line of the table: what a source says of a thing, and what the engine must answer. */
export interface Row {
  /** Row of the care guidance: section and first words; left out for rows of other sections. */
  row?: string;
  /** Publication, practice, memory or our own judgement, as the guidance marks it. */
  source: string;
  what: string;
  observed: Partial<Assessment>;
  hours?: number;
  airTempC?: number;
  done?: readonly StepKind[];
  expect: Expected;
}

/** The outcome of a row by some book. */
export function outcomeOf(row: Row, book: Book = DEFAULT_BOOK): TriageOutcome {
  const context = contextAt(row.hours ?? 0, { airTempC: row.airTempC ?? 21, doneSteps: row.done });
  return triageOutcome(knownAssessment(row.observed), context, DEFAULT_CALIBRATION, book);
}

function spoken(outcome: TriageOutcome): Set<string> {
  const { never, cautions, referral, storage, apartFrom, options } = outcome;
  return new Set([...[never, cautions, referral, storage, apartFrom].flatMap((entries) => entries.map(({ text }) => text)), ...options.flatMap(({ needs }) => needs)]);
}

interface Fact {
  what: string;
  holds: (outcome: TriageOutcome) => boolean;
}

const fact = (what: string, holds: Fact['holds']): Fact => ({ what, holds });
const same = (a: readonly string[], b: readonly string[]): boolean => a.join(' ') === b.join(' ');
const stepsOf = (outcome: TriageOutcome, disposition: string): string[] => (outcome.options.find((option) => option.disposition === disposition)?.steps ?? []).map(({ step }) => step);

function singleFacts(expected: Expected): Fact[] {
  const { startByHours, binding, urgency, first, open, bath, treatedAs, notColderThanC } = expected;
  return [
    ...(startByHours === undefined ? [] : [fact(`starts ${startByHours} h after wetting`, (outcome) => (outcome.startByMs - FLOOD_AT_MS) / HOUR_MS === startByHours)]),
    ...(binding === undefined ? [] : [fact(`bound by ${binding}`, (outcome) => outcome.binding === binding)]),
    ...(urgency === undefined ? [] : [fact(urgency, (outcome) => outcome.urgency === urgency)]),
    ...(first === undefined ? [] : [fact(`${first} first`, (outcome) => outcome.options[0]?.disposition === first)]),
    ...(open === undefined ? [] : [fact(`open: ${open.join(', ')}`, (outcome) => same(outcome.options.map(({ disposition }) => disposition), open))]),
    ...(bath === undefined ? [] : [fact(`bath ${bath}`, (outcome) => (outcome.bathGroup === null) === (bath === 'alone'))]),
    ...(treatedAs === undefined ? [] : [fact(`treated as ${treatedAs}`, (outcome) => outcome.treatedAs === treatedAs)]),
    ...(notColderThanC === undefined ? [] : [fact(`no colder than ${notColderThanC} C`, (outcome) => outcome.freezer?.notColderThanC === notColderThanC)]),
  ];
}

/** Everything a row asks for, one by one. */
export function factsOf({ expect: expected }: Row): Fact[] {
  return [
    ...singleFacts(expected),
    ...Object.entries(expected.routes ?? {}).map(([disposition, steps]) => fact(`${disposition} goes ${steps.join(', ')}`, (outcome) => same(stepsOf(outcome, disposition), steps))),
    ...(expected.says ?? []).map((text) => fact(`says: ${text}`, (outcome) => spoken(outcome).has(text))),
    ...(expected.silentOn ?? []).map((text) => fact(`does not say: ${text}`, (outcome) => !spoken(outcome).has(text))),
    ...(expected.ppe ?? []).map((item) => fact(`wears ${item}`, (outcome) => outcome.ppe.includes(item))),
    ...(expected.keepsOff ?? []).map((restriction) => fact(`keeps off ${restriction}`, (outcome) => outcome.options.some(({ steps }) => steps.some(({ barredRestrictions }) => barredRestrictions.includes(restriction))))),
    ...Object.entries(expected.keepsOffStep ?? {}).flatMap(([kind, restrictions]) =>
      restrictions.map((restriction) => fact(`keeps off ${restriction} at ${kind}`, (outcome) => outcome.options.some(({ steps }) => steps.some(({ step, barredRestrictions }) => step === kind && barredRestrictions.includes(restriction))))),
    ),
    ...(expected.reasons ?? []).map((id) => fact(`gives the reason ${id}`, (outcome) => outcome.reasons.some(({ ruleId }) => ruleId === id))),
  ];
}

/** What a book gets wrong of a row; empty when it agrees with the source. */
export function failuresOf(row: Row, book: Book = DEFAULT_BOOK): string[] {
  const outcome = outcomeOf(row, book);
  return factsOf(row).filter(({ holds }) => !holds(outcome)).map(({ what }) => what);
}
