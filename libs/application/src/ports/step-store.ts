import type { StepKind, SuitabilityReason } from '#care';

/** How a reported step ended. */
export type StepOutcome = 'done' | 'failed' | 'dye-moved' | 'mould-found' | 'owner-must-decide';

/** What stands on record; that a thing got wet again after it was dried is found by looks alone. */
export type RecordedOutcome = StepOutcome | 'wetted-again';

export interface StepResultRecord {
  id: string;
  incidentId: string;
  itemId: string;
  step: StepKind;
  outcome: RecordedOutcome;
  /** What was done before it and counts as done no longer. */
  undoes: readonly StepKind[];
  stationId: string | null;
  personId: string | null;
  note: string;
  startedAtMs: number | null;
  finishedAtMs: number;
  recordedAtMs: number;
  /** People who did it together with `personId`; nobody when left out. */
  withPersonIds?: string[];
  /** A trolley, board or hoist carried the weight. */
  liftingAid?: boolean;
  /** Minutes of rest between its start and its end; none when left out. */
  restMinutes?: number;
}

/** Somebody who did a step that they should not do, and why not. */
export interface UnsuitedPerson {
  personId: string;
  reasons: SuitabilityReason[];
  instead: StepKind[];
}

/** A step done by somebody who should not do it, as it stays on record. */
export interface UnsuitedStepRecord {
  id: string;
  incidentId: string;
  itemId: string;
  step: StepKind;
  /** Null for a look that leaves no step result, such as a colour test that is not complete. */
  stepResultId: string | null;
  people: UnsuitedPerson[];
  /** The lead who answers for it; null for what was found at a table, which nobody has to answer for. */
  override: { personId: string; reason: string } | null;
  recordedAtMs: number;
}

/** The same with how it ended; null where it left no step result. */
export type UnsuitedStepView = UnsuitedStepRecord & { outcome: RecordedOutcome | null };

/** A stretch in which somebody worked on a step, its rests taken off at its end. */
export interface WorkedSpan {
  personId: string;
  fromMs: number;
  toMs: number;
}

export interface ReferralRecord {
  id: string;
  incidentId: string;
  itemId: string;
  specialistId: string;
  /** Null where nobody knows the owner: then a lead answers for it. */
  consentId: string | null;
  decidedBy: string | null;
  /** Who pays where nobody knows the owner; null: nobody, so nothing that costs is done. */
  payer: string | null;
  reason: string;
  sentAtMs: number;
  returnedAtMs: number | null;
  /** The approved offer by which it went out; null where there was none. */
  quoteId: string | null;
}

export interface StepStore {
  insert(result: StepResultRecord): Promise<void>;
  ofItem(itemId: string): Promise<StepResultRecord[]>;
  /** Stretches with a known beginning that reach into the time between `fromMs` and `toMs`, of these people. */
  workedSpans(incidentId: string, personIds: readonly string[], fromMs: number, toMs: number): Promise<WorkedSpan[]>;
  insertUnsuited(record: UnsuitedStepRecord): Promise<void>;
  /** In the order in which they were recorded; `afterId` is exclusive. */
  unsuitedPage(incidentId: string, limit: number, afterId: string | null): Promise<UnsuitedStepView[]>;
  insertReferral(referral: ReferralRecord): Promise<void>;
  openReferral(itemId: string): Promise<ReferralRecord | null>;
  closeReferral(referralId: string, returnedAtMs: number): Promise<void>;
}
