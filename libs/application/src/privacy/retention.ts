/** What of what is personal has had its time, and why the rest stays. Pure: the dry run and the run decide by this, so they cannot differ. */
import type { RetentionValues } from '../calibration/retention-table.js';
import { HOUSEHOLD_KINDS, INCIDENT_KINDS, type HouseholdFacts, type HouseholdKind, type RetentionIncidentFacts, type IncidentKind, type RetentionKind } from '../ports/retention-store.js';

const DAY_MS = 24 * 3_600_000;

/** In the order in which they are said; each but the last holds back everything. */
export const STAY_REASONS = ['legal-hold', 'things-held', 'incident-open', 'question-open', 'matter-open', 'claim-open', 'import-under-way', 'not-yet-due'] as const;
export type StayReason = (typeof STAY_REASONS)[number];

export interface Going<K extends RetentionKind = RetentionKind> {
  kind: K;
  count: number;
}

export interface Staying<K extends RetentionKind = RetentionKind> extends Going<K> {
  reasons: StayReason[];
  /** When its time is over, as things stand; null while it has not begun. */
  dueAtMs: number | null;
}

export interface RetentionVerdict<K extends RetentionKind = RetentionKind> {
  /** Since when the days count; null while they do not. */
  countsFromMs: number | null;
  goes: Going<K>[];
  stays: Staying<K>[];
}

const DAYS = {
  contacts: 'contactsDays', photographs: 'photographsDays', voices: 'voicesDays', words: 'wordsDays', messages: 'messagesDays', signatures: 'signaturesDays', 'import-rows': 'importRowsDays', records: 'recordsDays',
  'refused-rows': 'importRowsDays', 'staff-notes': 'staffNotesDays',
} as const satisfies Record<RetentionKind, keyof RetentionValues>;

/** How long a kind is kept, in days. */
export function daysOf(kind: RetentionKind, policy: RetentionValues): number {
  return policy[DAYS[kind]];
}

/** What goes of one household at the moment, and what stays for which reasons. Kinds of which nothing is there are left out. */
export function householdVerdict(facts: HouseholdFacts, incident: Pick<RetentionIncidentFacts, 'closedAtMs' | 'importsUnderWay'>, policy: RetentionValues, nowMs: number): RetentionVerdict<HouseholdKind> {
  const byClosing = policy.countFromClosing === 1 || facts.items === 0;
  // The later of the two: a thing that came to light after the closing counts as well.
  const countsFromMs = byClosing ? later(incident.closedAtMs, facts.lastEventAtMs) : facts.held > 0 ? null : facts.lastEventAtMs;
  const blocks: StayReason[] = [
    ...(facts.onHold ? ['legal-hold' as const] : []), ...(facts.held > 0 ? ['things-held' as const] : []), ...(byClosing && incident.closedAtMs === null ? ['incident-open' as const] : []),
    ...(facts.openQuestions > 0 ? ['question-open' as const] : []), ...(facts.openMatters > 0 ? ['matter-open' as const] : []), ...(facts.openClaims > 0 ? ['claim-open' as const] : []), ...(incident.importsUnderWay > 0 ? ['import-under-way' as const] : []),
  ];
  return verdict(HOUSEHOLD_KINDS, facts.there, { countsFromMs, blocks, policy, nowMs });
}

/** What goes of what belongs to no single household. It may be about any of them, so it stays while one of them is held back by law or by its things. */
export function incidentVerdict(facts: RetentionIncidentFacts, policy: RetentionValues, nowMs: number): RetentionVerdict<IncidentKind> {
  const blocks: StayReason[] = [
    ...(facts.onHold > 0 ? ['legal-hold' as const] : []), ...(facts.held > 0 ? ['things-held' as const] : []), ...(facts.closedAtMs === null ? ['incident-open' as const] : []),
    ...(facts.importsUnderWay > 0 ? ['import-under-way' as const] : []),
  ];
  return verdict(INCIDENT_KINDS, facts.there, { countsFromMs: facts.closedAtMs, blocks, policy, nowMs });
}

interface Ground {
  countsFromMs: number | null;
  blocks: readonly StayReason[];
  policy: RetentionValues;
  nowMs: number;
}

function verdict<K extends RetentionKind>(kinds: readonly K[], there: Readonly<Record<K, number>>, { countsFromMs, blocks, policy, nowMs }: Ground): RetentionVerdict<K> {
  const made: RetentionVerdict<K> = { countsFromMs, goes: [], stays: [] };
  for (const kind of kinds) {
    const count = there[kind];
    if (count === 0) continue;
    const dueAtMs = countsFromMs === null ? null : countsFromMs + daysOf(kind, policy) * DAY_MS;
    const reasons: StayReason[] = [...blocks, ...(dueAtMs === null || dueAtMs > nowMs ? ['not-yet-due' as const] : [])];
    if (reasons.length === 0) made.goes.push({ kind, count });
    else made.stays.push({ kind, count, reasons, dueAtMs });
  }
  // With its key everything of a household goes, whatever its own time; the table keeps it from being otherwise.
  if (!made.goes.some(({ kind }) => kind === 'records')) return made;
  return { countsFromMs, goes: kinds.filter((kind) => there[kind] > 0).map((kind) => ({ kind, count: there[kind] })), stays: [] };
}

function later(a: number | null, b: number | null): number | null {
  return a === null ? null : Math.max(a, b ?? a);
}

export interface RetentionTotals {
  households: number;
  /** Households of which something goes, and those of which nothing is left then. */
  touched: number;
  erased: number;
  going: Partial<Record<RetentionKind, number>>;
  staying: Partial<Record<RetentionKind, number>>;
  /** Households (and once what belongs to none) that something holds back, by reason. */
  heldBack: Partial<Record<StayReason, number>>;
}

export const NO_TOTALS: RetentionTotals = Object.freeze({ households: 0, touched: 0, erased: 0, going: {}, staying: {}, heldBack: {} });

/** Totals with one more household, or with what belongs to none. */
export function added(totals: RetentionTotals, { goes, stays }: RetentionVerdict, household: boolean): RetentionTotals {
  const reasons = new Set(stays.flatMap((staying) => staying.reasons));
  return {
    households: totals.households + (household ? 1 : 0), touched: totals.touched + (household && goes.length > 0 ? 1 : 0), erased: totals.erased + (goes.some(({ kind }) => kind === 'records') ? 1 : 0),
    going: sums(totals.going, goes), staying: sums(totals.staying, stays), heldBack: sums(totals.heldBack, [...reasons].map((kind) => ({ kind, count: 1 }))),
  };
}

/** Counts with others added. */
export function sums<K extends string>(counts: Partial<Record<K, number>>, more: readonly { kind: K; count: number }[]): Partial<Record<K, number>> {
  const made = { ...counts };
  for (const { kind, count } of more) made[kind] = (made[kind] ?? 0) + count;
  return made;
}
