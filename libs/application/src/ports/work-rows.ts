import type { DispositionOption, Disposition, StepKind, Statement, WetState } from '#care';
import type { Keeper, Stage } from '#custody';

/** A place by its code and name. */
export interface NamedPlace {
  kind: 'station' | 'drying-place' | 'freezer';
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
