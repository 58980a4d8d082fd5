/**
 * The planning problem and the plan, as plain data. Time is in whole slots of `slotMinutes` from `originMs`;
 * an interval is [from, to). Integers everywhere, so that a plan is bit-identical on every machine.
 */
import type { Closeness, Disposition, Restriction, Skill, StepKind, Zone } from '#care';

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
export interface PlanDryingPlace {
  id: string;
  roomId: string;
  areaDm2: number;
  open: Interval[];
  /** How things are together there; `side-by-side` when left out. */
  closeness?: Extract<Closeness, 'tiers' | 'side-by-side'>;
}
export interface PlanFreezer { id: string; siteId: string; volumeCl: number; open: Interval[] }
/**
 * Things that are alike in what may lie with them. Where one of them is, nothing of a company that is listed for the closeness of that
 * place comes while it is there; a company may list itself. It holds both ways, whichever of the two lists the other.
 */
export interface PlanCompany { id: string; notWith: Partial<Record<Exclude<Closeness, 'pressed'>, string[]>> }
/** A courier or a specialist: so many units (pieces in the van, pieces on the bench) at a time, on no site of its own. */
export interface PlanService { id: string; kind: 'courier' | 'specialist'; capacity: number; open: Interval[] }

/** What is done with an item: a step of care, or the way from one site to another. */
export type PlanStepKind = StepKind | 'carry';

/** Water that a drying thing gives the air from `fromSlot` of its drying on, until the next entry; slots ascend, loads never rise. */
export interface FallingLoad { fromSlot: number; loadGPerSlot: number }

/**
 * A step that several small things may share: one station unit, one crew, one start and one end. Things share it when they are
 * of the same `group`, at the same station, for the same step and time, with the same crew; together at most `mostUnits`.
 */
export interface PlanBatch { group: string; units: number; mostUnits: number }

export interface PlanStep {
  step: PlanStepKind;
  zone: Zone;
  /** At least 1; 0 only for a step that needs neither station nor people nor a drying place, such as being put into a freezer in passing. */
  durationSlots: number;
  /** Where it is done; the item's own site when left out. A `carry` before it takes the item there. */
  siteId?: string;
  /** Done without a station of this problem (carrying, thawing on a shelf); one is needed when left out. Drying never needs one. */
  noStation?: boolean;
  /** Stations that a lead has ruled out for it. */
  barredStationIds?: string[];
  /** May not begin later than this slot: a courier leaves, a station is given up. No such limit when left out. */
  notAfterSlot?: number;
  /** Couriers and specialists it takes, for its whole duration. */
  services?: { serviceId: string; units: number }[];
  /** Shared with others of its group; done alone when left out. */
  batch?: PlanBatch;
  /** What may lie with it while it dries or lies frozen, by a company of the problem; anything when left out. */
  company?: string;
  crew: number;
  skill: Skill | null;
  barredRestrictions: Restriction[];
  /** Everybody in it wears a respirator that must have been fitted; nobody when left out. */
  needsFit?: boolean;
  /** Too hot for people before this slot; never when left out. */
  coolFromSlot?: number;
  /** Drying needs a place for the whole duration and loads the room's air: `loadGPerSlot` from its start on, less from each entry of `falling` on. */
  drying: { areaDm2: number; loadGPerSlot: number; falling?: FallingLoad[] } | null;
  /**
   * Freezing takes volume from the end of the step until the next step of the route begins (the thaw), at least `leastSlots`
   * (1 when left out); until the horizon when it is the last. The clock stands still while it lies frozen.
   */
  freezer: { volumeCl: number; leastSlots?: number } | null;
  /** Stabilised at the `start` of drying, at the `end` of freezing or wet holding. */
  stabilises: 'start' | 'end' | null;
}

/** One care route. In time: stabilised at or before the item's deadline, which moves by the slots it has lain frozen before that. */
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
  /** A coordinator wants it offered before all others that are not. */
  first?: boolean;
  /** A coordinator wants it done just so: it is placed like this before all others, or listed with `pin` as its blocker. */
  pinned?: PlanAssignment[];
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
  /** As for a drying step, counted from the start of the interval. */
  falling?: FallingLoad[];
  freezerId: string | null;
  volumeCl: number;
  /** As for a step; two that have begun are together whatever their companies say. */
  company?: string;
  /** Couriers and specialists that it takes; none when left out. */
  services?: { serviceId: string; units: number }[];
  interval: Interval;
}

/** What an item was to do by the plan that people are working to; slots are those of the new problem and may be negative. */
export interface PreviousStep {
  itemId: string; disposition: Disposition; step: PlanStepKind; stationId: string | null; dryingPlaceId: string | null; personIds: string[]; freezerId: string | null;
  /** The courier or specialist that it took, null for none; not known when left out, and then any will do. */
  serviceId?: string | null;
  startSlot: number; endSlot: number;
}

/** The plan that people are working to, and how firmly the new one keeps to it. */
export interface PreviousPlan {
  steps: PreviousStep[];
  /** Steps that were to begin before this slot stay as they are, unless what they need has gone. */
  holdBeforeSlot: number;
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
  services?: PlanService[];
  /** What must not lie together; no such rule when left out. */
  companies?: PlanCompany[];
  /** The plan in force; none when left out. */
  previous?: PreviousPlan;
  /**
   * What becomes of an item that cannot be in time. `list` (when left out): it is not planned and listed with what stands in
   * its way. `plan`: it is planned late where the horizon allows, after those that can be in time.
   */
  late?: 'list' | 'plan';
  /** Slots of lateness beyond which an item counts as no later; those of the horizon when left out. */
  tardinessCapSlots?: number;
}

export interface PlanAssignment {
  itemId: string;
  /** Index of the chosen route in the item's options. */
  option: number;
  /** Position of the step in the chosen option. */
  position: number;
  step: PlanStepKind;
  disposition: Disposition;
  /** Steps that are done together carry the same name; null when it is done alone. */
  batchId: string | null;
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
 * `heat`: too hot for people; `company`: there would be a drying place or a freezer, but with things there that it must not lie with.
 */
export interface Blocker {
  kind: 'station' | 'crew' | 'respirator-fit' | 'restriction' | 'heat' | 'drying-area' | 'room-air' | 'company' | 'freezer' | 'service' | 'pin' | 'time' | 'route';
  /** Step of the station or of the heat, skill (empty: all people), room, freezer or service id (for `company` that of the room or freezer); empty for `pin`, `time` and `route`. */
  what: string;
}

export interface UnplannedItem { itemId: string; weight: number; blockedBy: Blocker }

export interface Plan {
  seed: number;
  iterations: number;
  assignments: PlanAssignment[];
  unplanned: UnplannedItem[];
  objective: Objective;
}

/**
 * Whole numbers compared as a tuple, smaller is better, over the items that are not stabilised yet:
 * 0. weight that is not stabilised in time;
 * 1. weight times slots of lateness, each at most `tardinessCapSlots`; one that is not planned counts the cap;
 * 2. instability against the previous plan (what moved of it, soon counting more: `instability.ts`);
 * 3. weight times the moment of stabilisation, over those in the plan; each step down the item's order of routes counts like
 *    another `horizonSlots` of waiting, so that a preferred route is not given up for an earlier moment.
 */
export type Objective = readonly [lateWeight: number, tardiness: number, instability: number, completion: number];

export interface PlanViolation { rule: string; itemId: string | null; resourceId: string | null; slot: number | null; text: string }
