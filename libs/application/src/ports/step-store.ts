import type { StepKind } from '#care';

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
  insertReferral(referral: ReferralRecord): Promise<void>;
  openReferral(itemId: string): Promise<ReferralRecord | null>;
  closeReferral(referralId: string, returnedAtMs: number): Promise<void>;
}
