import type { DispositionOption, Disposition, StepKind, Statement, WetState } from '#care';
import type { Keeper, Stage } from '#custody';
import type { PlanStepKind } from '#planning';
import type { PlannedRide } from './plan-store.js';

/** A place by its code and name. */
export interface NamedPlace {
  kind: 'station' | 'drying-place' | 'freezer' | 'vehicle';
  id: string;
  code: string;
  name: string;
}

/** One piece of work with what the crew needs to know; the route is that of the latest triage. */
export interface WorkRow {
  itemId: string;
  version: number;
  tagCode: string;
  description: string;
  familyWords: string;
  count: number;
  sizeClass: string;
  /** Of the whole lot. */
  dryMassG: number;
  /** As last assessed. */
  wetState: WetState;
  stage: Stage;
  keeper: Keeper;
  /** Code and name of the place or courier that keeps it; null for others. */
  keeperCode: string | null;
  keeperName: string | null;
  startByMs: number | null;
  /** Safe already: no moment to start presses any more. */
  stabilised: boolean;
  waitingForOwner: boolean;
  step: StepKind;
  disposition: Disposition;
  /** Null for work that is not from the plan. */
  startsAtMs: number | null;
  endsAtMs: number | null;
  /** Planned together with others of the same name, such as in one bath; null for alone and for work that is not from the plan. */
  batchId: string | null;
  /** How many things that are, this one included. */
  together: number;
  crew: { personId: string; name: string }[];
  /** Where the step itself puts it, or where the step after it is planned. */
  goesTo: NamedPlace | null;
  option: DispositionOption | null;
  never: Statement[];
  bathGroup: string | null;
}

/** An item that a plan sends to a specialist, and that is still here. */
export interface ReferralRow extends Pick<WorkRow, 'itemId' | 'version' | 'tagCode' | 'description' | 'count' | 'stage' | 'keeper' | 'keeperCode' | 'keeperName' | 'startByMs' | 'stabilised' | 'never'> {
  householdId: string;
  specialist: { id: string; code: string; name: string; field: string };
  /** When the plan has it on the bench, and until when. */
  fromMs: number;
  untilMs: number;
  /** Planned before it and not done yet, in their order. */
  stepsAhead: PlanStepKind[];
  option: DispositionOption;
  /** What triage says about sending it away. */
  advice: Statement[];
}

/** An item that a plan has carried to another site, and that still waits on its own. */
export interface CarryRow extends Pick<WorkRow, 'itemId' | 'version' | 'tagCode' | 'description' | 'count' | 'sizeClass' | 'dryMassG' | 'wetState' | 'keeper' | 'keeperCode' | 'keeperName' | 'startByMs' | 'never'> {
  rideId: string;
  ride: PlannedRide;
  /** What the vehicle takes; null where nobody says any more. */
  maxLoadKg: number | null;
  leavesAtMs: number;
  arrivesAtMs: number;
  /** What is to be done with it before it goes; null when it is ready. */
  firstStep: StepKind | null;
}

/** An item that hangs or lies on a drying place. */
export interface DryingRow {
  itemId: string;
  version: number;
  tagCode: string;
  description: string;
  count: number;
  sizeClass: string;
  place: NamedPlace;
  roomCode: string;
  airTempC: number;
  relativeHumidityPct: number;
  dryingSinceMs: number;
  /** Blotted before it was hung, as recorded. */
  blotted: boolean;
  /** By the newest reckoning of its room, made since it came there: the band in which it should be dry; null for none. */
  reckoned: { dryEarliestMs: number | null; dryLatestMs: number | null } | null;
}
