/**
 * The planning problem and the plan, as plain data. Time is in whole slots of `slotMinutes` from `originMs`;
 * an interval is [from, to). Integers everywhere, so that a plan is bit-identical on every machine.
 */
import type { Disposition, Restriction, Skill, StepKind, Zone } from '#care';

export interface Interval { from: number; to: number }

export interface PlanStation { id: string; siteId: string; zone: Zone; steps: StepKind[]; capacity: number; open: Interval[] }
export interface PlanPerson {
  id: string;
  siteId: string;
  skills: Skill[];
  restrictions: Restriction[];
  /** Without what nobody should work any more: the end of a stretch that is too long. */
  shifts: Interval[];
  /** A step that asks for a fitted respirator may begin before this slot; no such step when left out. */
  fitUntilSlot?: number;
}
/** Water the room's air can take away, per slot, in grams; from the physics of the climate library. */
export interface PlanDryingRoom { id: string; siteId: string; removalGPerSlot: (Interval & { limit: number })[] }
export interface PlanDryingPlace { id: string; roomId: string; areaDm2: number; open: Interval[] }
export interface PlanFreezer { id: string; siteId: string; volumeCl: number; open: Interval[] }

export interface PlanStep {
  step: StepKind;
  zone: Zone;
  durationSlots: number;
  crew: number;
  skill: Skill | null;
  barredRestrictions: Restriction[];
  /** Everybody in it wears a respirator that must have been fitted; nobody when left out. */
  needsFit?: boolean;
  /** Too hot for people before this slot; never when left out. */
  coolFromSlot?: number;
  /** Drying needs a place for the whole duration and loads the room's air (averaged over the duration). */
  drying: { areaDm2: number; loadGPerSlot: number } | null;
  /** Freezing takes volume from the end of the step until the horizon. */
  freezer: { volumeCl: number } | null;
  /** Stabilised at the `start` of drying, at the `end` of freezing or wet holding. */
  stabilises: 'start' | 'end' | null;
}

export interface PlanOption {
  disposition: Disposition;
  steps: PlanStep[];
}

export interface PlanItem {
  id: string;
  siteId: string;
  releaseSlot: number;
  /** The last slot by which it must be stabilised. */
  deadlineSlot: number;
  /** Integer weight: significance, only copy, lot size. */
  weight: number;
  /** Already stabilised: the steps are still planned, but never late. */
  stabilised: boolean;
  /** Allowed care routes, best first. */
  options: PlanOption[];
}

/** A use that has already begun and cannot be moved: it takes its resources. */
export interface FixedUse {
  itemId: string;
  step: StepKind;
  stationId: string | null;
  personIds: string[];
  dryingPlaceId: string | null;
  areaDm2: number;
  loadGPerSlot: number;
  freezerId: string | null;
  volumeCl: number;
  interval: Interval;
}

export interface PlanProblem {
  originMs: number;
  slotMinutes: number;
  horizonSlots: number;
  stations: PlanStation[];
  people: PlanPerson[];
  rooms: PlanDryingRoom[];
  places: PlanDryingPlace[];
  freezers: PlanFreezer[];
  items: PlanItem[];
  fixed: FixedUse[];
}

export interface PlanAssignment {
  itemId: string;
  /** Position of the step in the chosen option. */
  position: number;
  step: StepKind;
  disposition: Disposition;
  stationId: string | null;
  personIds: string[];
  dryingPlaceId: string | null;
  freezerId: string | null;
  startSlot: number;
  endSlot: number;
}

/**
 * What stands in the way of an item that cannot be in time. `crew`: too few with the skill; `respirator-fit` and `restriction`:
 * there would be enough with the skill, but not with a valid fit, or without a declared restriction (or age) that keeps them from it;
 * `heat`: too hot for people.
 */
export interface Blocker {
  kind: 'station' | 'crew' | 'respirator-fit' | 'restriction' | 'heat' | 'drying-area' | 'room-air' | 'freezer' | 'time' | 'route';
  /** Step of the station or of the heat, skill (empty: all people), room or freezer id; empty for `time` and `route`. */
  what: string;
}

export interface UnplannedItem { itemId: string; weight: number; blockedBy: Blocker }

export interface Plan {
  seed: number;
  iterations: number;
  assignments: PlanAssignment[];
  unplanned: UnplannedItem[];
  /** Compared as a tuple, smaller is better: weight not stabilised in time, weighted start of stabilisation. */
  objective: [number, number];
}

export interface PlanViolation { rule: string; itemId: string | null; resourceId: string | null; slot: number | null; text: string }
