import type { Assessment, ColourTest, Disposition, TriageOutcome } from '#care';

export interface AssessmentRecord {
  id: string;
  incidentId: string;
  itemId: string;
  observed: Assessment;
  origin: 'person' | 'step-result' | 'colour-test' | 'consent';
  assessedBy: string;
  assessedAtMs: number;
  recordedAtMs: number;
}

export interface TriageRecord {
  id: string;
  incidentId: string;
  itemId: string;
  assessmentId: string;
  /** Without the questions: they cost some thirty times the rest and are worked out when somebody reads. */
  result: TriageOutcome;
  createdAtMs: number;
}

export interface OverrideRecord {
  id: string;
  incidentId: string;
  itemId: string;
  disposition: Disposition;
  reason: string;
  decidedBy: string;
  decidedAtMs: number;
}

export interface AssessmentStore {
  insert(record: AssessmentRecord): Promise<void>;
  latest(itemId: string): Promise<AssessmentRecord | null>;
  insertColourTest(record: { id: string; incidentId: string; itemId: string; test: ColourTest; testedBy: string; testedAtMs: number; recordedAtMs: number }): Promise<void>;
  insertTriage(record: TriageRecord): Promise<void>;
  latestTriage(itemId: string): Promise<TriageRecord | null>;
  insertOverride(record: OverrideRecord): Promise<void>;
  latestOverride(itemId: string): Promise<OverrideRecord | null>;
}
