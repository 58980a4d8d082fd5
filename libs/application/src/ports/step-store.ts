import type { StepKind, SuitabilityReason } from '#care';

export type StepOutcome = 'done' | 'failed' | 'dye-moved' | 'mould-found' | 'owner-must-decide';

export interface StepResultRecord {
  id: string;
  incidentId: string;
  itemId: string;
  step: StepKind;
  outcome: StepOutcome;
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
  stepResultId: string;
  itemId: string;
  people: UnsuitedPerson[];
  /** The lead who answers for it; null for what was found at a table, which nobody has to answer for. */
  override: { personId: string; reason: string } | null;
  recordedAtMs: number;
}

/** The same with the step and how it ended. */
export type UnsuitedStepView = UnsuitedStepRecord & Pick<StepResultRecord, 'step' | 'outcome'>;

/** A stretch in which somebody worked on a step. */
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
  consentId: string;
  reason: string;
  sentAtMs: number;
  returnedAtMs: number | null;
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
