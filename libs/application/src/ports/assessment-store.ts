import type { Assessment, ColourTest, Disposition, TriageOutcome } from '#care';
import type { Stage } from '#custody';
import type { StepResultRecord } from './step-store.js';

export interface AssessmentRecord {
  id: string;
  incidentId: string;
  itemId: string;
  observed: Assessment;
  origin: 'person' | 'step-result' | 'colour-test' | 'consent';
  assessedBy: string;
  assessedAtMs: number;
  recordedAtMs: number;
  /** Why it says something else than an earlier look about what cannot change by itself; nothing given: it does not. */
  seenAgain?: string | null;
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
  /** What the rule book put first at that moment and by which version; null for what was decided before that was kept. */
  insteadOf: Disposition | null;
  ruleBookVersion: string | null;
  /** What the chosen way still lacked when it was chosen; null as above. */
  openNeeds: string[] | null;
}

/** A choice of a lead with what became of the thing. */
export interface OverrideView extends OverrideRecord {
  lead: { id: string; name: string };
  tagCode: string;
  stage: Stage;
  /** The way it follows now. */
  followed: Disposition | null;
  stabilisedAtMs: number | null;
  /** No later choice was made for the thing. */
  isLatest: boolean;
}

/** A thing as it was last seen, with what was done to it, to be judged again. */
export interface SeenThing {
  itemId: string;
  tagCode: string;
  stage: Stage;
  observed: Assessment;
  assessedAtMs: number;
  /** In the order in which they were recorded. */
  results: Pick<StepResultRecord, 'id' | 'step' | 'outcome' | 'undoes'>[];
}

/** A triage with the assessment that it rests on. */
export interface TriageWithAssessment {
  triage: TriageRecord;
  assessment: AssessmentRecord;
}

export interface ColourTestRecord {
  id: string;
  incidentId: string;
  itemId: string;
  test: ColourTest;
  testedBy: string;
  testedAtMs: number;
  recordedAtMs: number;
}

export interface AssessmentStore {
  insert(record: AssessmentRecord): Promise<void>;
  latest(itemId: string): Promise<AssessmentRecord | null>;
  insertColourTest(record: ColourTestRecord): Promise<void>;
  /** The readings of one item in the order in which they were recorded. */
  colourTests(itemId: string): Promise<ColourTestRecord[]>;
  insertTriage(record: TriageRecord): Promise<void>;
  latestTriage(itemId: string): Promise<TriageRecord | null>;
  insertOverride(record: OverrideRecord): Promise<void>;
  latestOverride(itemId: string): Promise<OverrideRecord | null>;
  /** The triage results of one thing, newest first; `before` is the last one of the page before. */
  history(itemId: string, limit: number, before: { createdAtMs: number; id: string } | null): Promise<TriageWithAssessment[]>;
  /** Choices of leads in an incident, newest first; `beforeId` is exclusive. */
  overridePage(incidentId: string, limit: number, beforeId: string | null): Promise<OverrideView[]>;
  /** The things of an incident as they were last seen, those seen last first, and how many things it has. */
  lastSeen(incidentId: string, limit: number): Promise<{ things: SeenThing[]; items: number }>;
  /** The same for some things, in no particular order; absent ids are absent from the answer. */
  lastSeenOf(itemIds: readonly string[]): Promise<SeenThing[]>;
}
