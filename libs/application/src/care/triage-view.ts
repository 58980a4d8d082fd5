import type { Question } from '#care';
import type { AssessmentRecord, OverrideRecord, TriageRecord } from '../ports/assessment-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Triaged } from './retriage.js';

/** An item with its triage, as people read it. */
export interface TriageView {
  item: ItemRecord;
  triage: TriageRecord;
  assessment: AssessmentRecord;
  /** A lead's choice that still stands. */
  override: OverrideRecord | null;
  /** Null in the answer of a command: the questions cost some thirty times the triage and are worked out when it is read. */
  askNext: Question[] | null;
}

/** What a command that triaged answers. */
export function viewOf(triaged: Triaged, override: OverrideRecord | null): TriageView {
  const { item, triage, assessment } = triaged;
  return { item, triage, assessment, override, askNext: null };
}
