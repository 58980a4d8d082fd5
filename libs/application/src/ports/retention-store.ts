import type { RetentionValues } from '../calibration/retention-table.js';

/** What of a household can go by itself; `records` is all that is left, and ends with its key. */
export const HOUSEHOLD_KINDS = ['contacts', 'photographs', 'voices', 'words', 'messages', 'signatures', 'import-rows', 'records'] as const;
export type HouseholdKind = (typeof HOUSEHOLD_KINDS)[number];
/** What belongs to no single household: rows that became no thing, with the names of their files; and notes on alarms and containers. */
export const INCIDENT_KINDS = ['refused-rows', 'staff-notes'] as const;
export type IncidentKind = (typeof INCIDENT_KINDS)[number];
export type RetentionKind = HouseholdKind | IncidentKind;

/** What is there of a household, in numbers; nothing of it can be read from them. */
export interface HouseholdFacts {
  householdId: string;
  items: number;
  /** Things that have not left us. */
  held: number;
  /** When something happened last to one of its things; null when it never had one. */
  lastEventAtMs: number | null;
  onHold: boolean;
  openQuestions: number;
  openMatters: number;
  /** Claims of the household to something found that nobody has decided yet. */
  openClaims: number;
  there: Readonly<Record<HouseholdKind, number>>;
}

export interface RetentionIncidentFacts {
  /** Null while it is open. */
  closedAtMs: number | null;
  importsUnderWay: number;
  /** Households under a legal hold: what belongs to nobody may be about them. */
  onHold: number;
  /** Things of any household that have not left us. */
  held: number;
  there: Readonly<Record<IncidentKind, number>>;
}

export interface RetentionRunRecord {
  id: string;
  incidentId: string;
  /** `stopped`: given up on the way; what was done stays done, and a new run goes on. */
  state: 'running' | 'done' | 'stopped';
  /** The lead who decided it; null where the schedule of the network started it. */
  personId: string | null;
  principalId: string;
  asOfMs: number;
  policyRevision: number;
  policy: RetentionValues;
  afterHouseholdId: string | null;
  /** Households looked at, those of which something went, and those of which nothing is known any more. */
  lookedAt: number;
  touched: number;
  erased: number;
  gone: Partial<Record<RetentionKind, number>>;
  endedAtMs: number | null;
}

export interface RetentionStore {
  /** Every incident of the network, closed ones included. */
  incidents(): Promise<string[]>;
  /** Null when there is no such incident. */
  ofIncident(incidentId: string): Promise<RetentionIncidentFacts | null>;
  /** In the order of their ids, households that were erased included. */
  ofHouseholds(incidentId: string, limit: number, afterId: string | null): Promise<HouseholdFacts[]>;
  /** Null when there is no such household. Call it with the household locked. */
  ofHousehold(householdId: string): Promise<HouseholdFacts | null>;
  /** Blanks what is there of the kind; files and `records` are not its affair. */
  blank(householdId: string, kind: Exclude<HouseholdKind, 'photographs' | 'voices' | 'records'>): Promise<void>;
  /** Answers kept for repeated commands, as far as they were sealed for the household or repeat a signature. */
  blankAnswers(householdId: string): Promise<void>;
  blankOfIncident(incidentId: string, kind: IncidentKind): Promise<void>;
  insertRun(run: RetentionRunRecord): Promise<void>;
  findRun(runId: string): Promise<RetentionRunRecord | null>;
  lockRun(runId: string): Promise<RetentionRunRecord | null>;
  saveRun(run: RetentionRunRecord): Promise<void>;
  /** Newest first. */
  runs(incidentId: string, limit: number, beforeId: string | null): Promise<RetentionRunRecord[]>;
}
