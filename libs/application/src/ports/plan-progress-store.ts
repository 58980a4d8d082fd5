import type { Disposition, StepKind } from '#care';
import type { Keeper, Stage } from '#custody';
import type { RecordedOutcome } from './step-store.js';

/** A step as a plan had it. */
export interface ForeseenStep {
  itemId: string;
  step: StepKind;
  disposition: Disposition;
  startsAtMs: number;
  endsAtMs: number;
  /** When that plan was made. */
  madeAtMs: number;
}

/** A step that was reported. */
export interface ReportedStep {
  itemId: string;
  step: StepKind;
  outcome: RecordedOutcome;
  stationId: string | null;
  /** Null where nobody wrote it down. */
  startedAtMs: number | null;
  finishedAtMs: number;
}

/** A custody event with which work on an item begins: at a station, of drying, or of lying frozen. Mistakes that were corrected are none. */
export interface Beginning {
  itemId: string;
  kind: 'work-started' | 'drying-started' | 'frozen';
  placeId: string;
  atMs: number;
}

/** An item as it stands now. */
export interface ItemNow {
  id: string;
  tagCode: string;
  stage: Stage;
  keeper: Keeper;
  /** What it is in now began then. */
  sinceMs: number;
  disposition: Disposition | null;
  nextStep: StepKind | null;
  stabilisedAtMs: number | null;
}

/** A plan that was published and whose assignments are kept. */
export interface KeptRevision {
  id: string;
  number: number;
  createdAtMs: number;
  publishedAtMs: number;
}

/** What plans foresaw, and what came of it. */
export interface PlanProgressStore {
  /** Published plans with their detail, oldest first; the last is in force. */
  kept(incidentId: string): Promise<KeptRevision[]>;
  /** All steps of a revision, earliest first. */
  plannedBy(revisionId: string): Promise<ForeseenStep[]>;
  /** Steps of published plans whose beginning fell into the time between two moments while their plan was in force, earliest first. */
  dueWhileInForce(incidentId: string, fromMs: number, toMs: number): Promise<ForeseenStep[]>;
  /** What a revision said would be safe in time. */
  promised(revisionId: string): Promise<{ itemId: string; weight: number }[]>;
  /** Those that are gone are absent. */
  itemsNow(itemIds: readonly string[]): Promise<ItemNow[]>;
  /** What a station has in work. */
  inWorkAt(stationId: string): Promise<ItemNow[]>;
  /** Reports of steps that ended at a moment or later, in order of their end. */
  reported(itemIds: readonly string[], fromMs: number): Promise<ReportedStep[]>;
  /** The same for beginnings. */
  begun(itemIds: readonly string[], fromMs: number): Promise<Beginning[]>;
}
