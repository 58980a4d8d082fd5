import { changesBetween, type Message, type Question, type TriageChange } from '#care';
import type { AssessmentRecord, OverrideRecord, TriageRecord, TriageWithAssessment } from '../ports/assessment-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Triaged } from './retriage.js';

/** An item with its triage, as people read it. */
export interface TriageView {
  /** When it is read. */
  atMs: number;
  item: ItemRecord;
  triage: TriageRecord;
  assessment: AssessmentRecord;
  /** A lead's choice that still stands. */
  override: OverrideRecord | null;
  /** What it changed against the triage before it; null for the first. */
  change: TriageChange | null;
  /** What it did to the work so far, in words; in the answer of the command alone. */
  notes?: readonly Message[];
  /** Null in the answer of a command: the questions cost some thirty times the triage and are worked out when it is read. */
  askNext: Question[] | null;
}

/** What a command that triaged answers; `before` is the triage that it found. */
export function viewOf(triaged: Triaged, override: OverrideRecord | null, before: TriageWithAssessment | null): TriageView {
  const { item, triage, assessment } = triaged;
  return { atMs: triage.createdAtMs, item, triage, assessment, override, change: changeOf(before, triaged), askNext: null };
}

/** What one triage changed against the one before it; null where there is none. */
export function changeOf(before: TriageWithAssessment | null, after: TriageWithAssessment): TriageChange | null {
  return before === null ? null : changesBetween(told(before), told(after));
}

const told = ({ triage, assessment }: TriageWithAssessment) => ({ observed: assessment.observed, result: triage.result });
