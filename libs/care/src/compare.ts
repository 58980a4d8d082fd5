/** What changes between two triage results, and between two versions of the rule book. */
import type { CareCalibration } from './calibration.js';
import { DEFAULT_CALIBRATION } from './calibration.js';
import { REWORDED } from './rule-book/index.js';
import type { Book } from './rule-book/index.js';
import { triageOutcome } from './triage.js';
import type { TriageOutcome } from './triage.js';
import type { Assessment, Disposition, TriageContext } from './types.js';

/** What a lead would notice. */
export const COMPARED = ['urgency', 'startBy', 'binding', 'firstDisposition', 'dispositions', 'route', 'needs', 'ppe', 'never', 'cautions', 'referral', 'bathGroup', 'apartFrom', 'treatedAs'] as const;
export type Compared = (typeof COMPARED)[number];

/** One conclusion that is not what it was; lists in the order in which they are read. */
export interface Difference {
  what: Compared;
  before: readonly string[];
  after: readonly string[];
}

const texts = (statements: readonly { text: string }[]): string[] => statements.map(({ text }) => text);
const orNone = (value: string | null): string[] => (value === null ? [] : [value]);

const READ: Readonly<Record<Compared, (outcome: TriageOutcome) => string[]>> = {
  urgency: ({ urgency }) => [urgency],
  startBy: ({ startByMs }) => [new Date(startByMs).toISOString()],
  binding: ({ binding }) => orNone(binding),
  firstDisposition: ({ options }) => options.slice(0, 1).map(({ disposition }) => disposition),
  dispositions: ({ options }) => options.map(({ disposition }) => disposition),
  route: ({ options }) => (options[0]?.steps ?? []).map(({ step }) => step),
  needs: ({ options }) => [...new Set(options.flatMap(({ needs }) => needs))],
  ppe: ({ ppe }) => [...ppe],
  never: ({ never }) => texts(never),
  cautions: ({ cautions }) => texts(cautions),
  referral: ({ referral }) => texts(referral),
  bathGroup: ({ bathGroup }) => orNone(bathGroup),
  apartFrom: ({ apartFrom }) => apartFrom.map(({ place, text }) => [place, text].join(': ')),
  treatedAs: ({ treatedAs }) => [treatedAs],
};

/** Conclusions that are read as a set: their order says nothing. */
const SETS: ReadonlySet<Compared> = new Set<Compared>(['needs', 'ppe', 'never', 'cautions', 'referral', 'apartFrom']);

function sameReading(what: Compared, before: readonly string[], after: readonly string[]): boolean {
  const [a, b] = SETS.has(what) ? [before.toSorted(), after.toSorted()] : [before, after];
  return a.length === b.length && a.every((text, index) => text === b[index]);
}

/** What differs between two outcomes. */
export function differencesBetween(before: TriageOutcome, after: TriageOutcome): Difference[] {
  return COMPARED.map((what) => ({ what, before: READ[what](before), after: READ[what](after) })).filter((one) => !sameReading(one.what, one.before, one.after));
}

/** An assessment and what followed from it. */
export interface Told {
  observed: Assessment;
  result: TriageOutcome;
}

/** A rule that came or went, with the changed observations it looks at. */
export interface RuleChange {
  ruleId: string;
  because: string[];
}

/** What a new triage changed and what made it change. */
export interface TriageChange {
  differences: Difference[];
  /** Members of the assessment that are not what they were. */
  observations: (keyof Assessment)[];
  rulesGained: RuleChange[];
  rulesLost: RuleChange[];
  /** Nothing was observed anew: the hours, the air or the steps done made the change. */
  byTimeAlone: boolean;
  /** Other rules were in force; `null` when they were the same. */
  ruleBook: { before: string; after: string } | null;
}

/** Members in one order: what comes from a store may bring them in another, and that is no news. */
const plain = (value: unknown): string =>
  JSON.stringify(value, (_name, member: unknown) => (isPlainObject(member) ? Object.fromEntries(Object.entries(member).toSorted(([a], [b]) => (a < b ? -1 : 1))) : member)) ?? '';
const isPlainObject = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null && !Array.isArray(value);

function changedObservations(before: Assessment, after: Assessment): (keyof Assessment)[] {
  const members = [...new Set([...Object.keys(before), ...Object.keys(after)])] as (keyof Assessment)[];
  return members.filter((member) => plain(before[member]) !== plain(after[member]));
}

function cameNewly(from: TriageOutcome, to: TriageOutcome, changed: ReadonlySet<string>): RuleChange[] {
  const known = new Set(from.reasons.map(({ ruleId }) => ruleId));
  return to.reasons.filter(({ ruleId }) => !known.has(ruleId)).map(({ ruleId, because }) => ({ ruleId, because: because.filter((name) => changed.has(name)) }));
}

/** What changed between two triage results of one thing, and which observations and rules made it change. Pure. */
export function changesBetween(before: Told, after: Told): TriageChange {
  const observations = changedObservations(before.observed, after.observed);
  const changed = new Set<string>(observations);
  const [old, now] = [before.result, after.result];
  const differences = differencesBetween(old, now);
  return {
    differences,
    observations,
    rulesGained: cameNewly(old, now, changed),
    rulesLost: cameNewly(now, old, changed),
    byTimeAlone: differences.length > 0 && observations.length === 0 && old.ruleBookVersion === now.ruleBookVersion,
    ruleBook: old.ruleBookVersion === now.ruleBookVersion ? null : { before: old.ruleBookVersion, after: now.ruleBookVersion },
  };
}

/** How two books judge one assessment; `index` is its place in the list that was given. */
export interface BookDifference {
  index: number;
  differences: Difference[];
}

/** Two books compared over assessments: what differs for each, and how often. */
export interface BookComparison {
  versions: { before: string; after: string };
  compared: number;
  /** Assessments for which nothing differs are left out. */
  changed: BookDifference[];
  counts: Record<Compared, number>;
  /** Assessments that would start later, or take off a prohibition or protection: the ones to look at first. */
  laxer: number[];
  firstDispositions: { before: Disposition; after: Disposition; count: number }[];
}

function isLaxer({ differences }: BookDifference): boolean {
  return differences.some(({ what, before, after }) => {
    if (what === 'startBy') return (after[0] ?? '') > (before[0] ?? '');
    return (what === 'never' || what === 'ppe' || what === 'needs') && before.some((text) => !after.includes(text) && !after.includes(REWORDED[text] ?? text));
  });
}

function moves(changed: readonly BookDifference[]): BookComparison['firstDispositions'] {
  const byMove = new Map<string, BookComparison['firstDispositions'][number]>();
  for (const { differences } of changed) {
    const move = differences.find(({ what }) => what === 'firstDisposition');
    if (move === undefined) continue;
    const [before, after] = [move.before[0] as Disposition, move.after[0] as Disposition];
    const key = [before, after].join(' ');
    byMove.set(key, { before, after, count: (byMove.get(key)?.count ?? 0) + 1 });
  }
  return [...byMove.values()].sort((a, b) => b.count - a.count);
}

/** How two versions of the rule book judge the same assessments, before one is put in force. Pure. */
export function compareBooks(before: Book, after: Book, assessments: readonly Assessment[], context: TriageContext, calibration: CareCalibration = DEFAULT_CALIBRATION): BookComparison {
  const changed = assessments
    .map((assessment, index) => ({ index, differences: differencesBetween(triageOutcome(assessment, context, calibration, before), triageOutcome(assessment, context, calibration, after)) }))
    .filter(({ differences }) => differences.length > 0);
  const count = (what: Compared): number => changed.filter(({ differences }) => differences.some((one) => one.what === what)).length;
  return {
    versions: { before: before.version, after: after.version },
    compared: assessments.length,
    changed,
    counts: Object.fromEntries(COMPARED.map((what) => [what, count(what)])) as Record<Compared, number>,
    laxer: changed.filter(isLaxer).map(({ index }) => index),
    firstDispositions: moves(changed),
  };
}
