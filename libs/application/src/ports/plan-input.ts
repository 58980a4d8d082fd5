import type { CareStep, Companion, Disposition, MaterialClass, MouldState, Restriction, Skill, StepKind, WetState, Zone } from '#care';
import type { DryingLaw, Material } from '#climate';
import type { Keeper, Stage } from '#custody';
import type { PlanStepKind } from '#planning';
import type { FittedSpeed } from '../climate/room/fits.js';
import type { ItemStanding } from '../climate/room/standing.js';

/** A span of time in epoch milliseconds, [from, to). */
export interface Span {
  fromMs: number;
  toMs: number;
}

export interface InputStation {
  id: string;
  siteId: string;
  zone: Zone;
  steps: StepKind[];
  capacity: number;
  /** Empty: nobody stated hours, so it is open whenever a crew is there. */
  openings: Span[];
}

export interface InputPerson {
  id: string;
  siteId: string;
  skills: Skill[];
  restrictions: Restriction[];
  /** Last day, `2027-04-30`, on which medical fitness and fit test are valid; null for none on record. */
  respiratorFitUntil: string | null;
  shifts: Span[];
}

/** Room air as last measured, with the machines that run. */
export interface InputRoom {
  id: string;
  siteId: string;
  name: string;
  volumeM3: number;
  airChangesPerH: number;
  humidityCapPct: number;
  airTempC: number;
  relativeHumidityPct: number;
  running: { ratedLPerDay: number; ratedTempC: number; ratedRelativeHumidityPct: number }[];
  /** Factors that weighings have fitted, by the newest reckoning; none when left out. */
  speeds?: readonly FittedSpeed[];
  /** How things hang or lie on its places; not known when left out. */
  arrangements?: readonly FittedSpeed['arrangement'][];
}

export interface InputPlace {
  id: string;
  roomId: string;
  areaDm2: number;
  /** How things hang or lie there; beside each other when left out. */
  arrangement?: FittedSpeed['arrangement'];
}

export interface InputFreezer {
  id: string;
  siteId: string;
  name: string;
  volumeL: number;
  availableFromMs: number;
}

/** Somebody elsewhere of whom it is known what they can take. */
export interface InputSpecialist {
  id: string;
  code: string;
  name: string;
  /** Things on the bench at once, and hours that each takes there. */
  piecesAtOnce: number;
  hoursPerPiece: number;
  /** Empty for every material. */
  materialClasses: MaterialClass[];
  /** Empty: nobody stated hours, so a thing can come whenever there is room. */
  openings: Span[];
  /** What is there now, in the order in which it was sent; nothing when left out. */
  there?: { itemId: string; count: number; sinceMs: number }[];
}

/** A way of a vehicle from one site to another, in one direction. */
export interface InputRide {
  id: string;
  fromSiteId: string;
  toSiteId: string;
  /** From leaving to being there. */
  minutes: number;
}

/** A vehicle of which it is known what it carries and between which sites. */
export interface InputVehicle {
  id: string;
  code: string;
  name: string;
  maxLoadKg: number;
  /** In the order in which it makes them; at least one. */
  rides: InputRide[];
  /** Empty: nobody stated when it runs, so it does whenever people work. */
  runs: Span[];
}

/** One step of a care route, with what to wear but without the words for people. */
export type InputStep = Pick<CareStep, 'step' | 'zone' | 'minutesPerPiece' | 'crew' | 'skill' | 'barredRestrictions' | 'ppe' | 'stabilises'>;

export interface InputOption {
  disposition: Disposition;
  /** How many things are missing before it may be chosen. */
  needs: number;
  steps: InputStep[];
}

/** What a drying room reckons of a thing that hangs there, from its weighings and the air that was read. Moments in epoch milliseconds, null for not within the forecast. */
export type ReckonedDrying = Pick<ItemStanding, 'asOfMs' | 'moistureX' | 'targetX' | 'knownAtMs' | 'build' | 'dry' | 'dryLatestMs'> & {
  modelDryMs: number | null;
  law: DryingLaw | null;
};

/** A ride that an item is on, or is loaded for. */
export interface RidingNow {
  vehicleId: string;
  fromSiteId: string;
  toSiteId: string;
  /** Null while the vehicle is being loaded. */
  departedAtMs: number | null;
}

/** A live item with its latest triage; terminal and referred-out items are not part of the input. */
export interface InputItem {
  id: string;
  siteId: string;
  count: number;
  sizeClass: string;
  areaDm2: number;
  volumeL: number;
  dryMassG: number;
  planningWeight: number;
  keeper: Keeper;
  /** The ride that it is on; left out for what stands somewhere. */
  riding?: RidingNow;
  stage: Stage;
  stabilisedAtMs: number | null;
  /** The route it follows now. */
  disposition: Disposition | null;
  nextStep: StepKind | null;
  /** Time of the last custody event, and the person it names, if any. */
  keeperSinceMs: number;
  keeperPersonId: string | null;
  /** When handling must start, and every damage deadline, of the latest triage. Null and empty before any triage. */
  startByMs: number | null;
  deadlinesMs: number[];
  options: InputOption[];
  /** Mould and wetness as last assessed. */
  mould: MouldState;
  wetState: WetState;
  /** A lead's choice that still stands. */
  override: Disposition | null;
  /** Steps done in the present round of work, oldest first; one that was done twice stands twice. */
  doneSteps: StepKind[];
  /** What it is made of, as care judges it; not known when left out. */
  materialClass?: MaterialClass;
  /** What it is made of, as drying rooms reckon it; that of its size class when left out. */
  material?: Material;
  /** By the newest reckoning of the room where it hangs, made since it came there; absent or null for none. */
  reckoned?: ReckonedDrying | null;
  /** Things with the same key may share a bath, by the latest triage; absent or null for one that shares with nothing. */
  bathGroup?: string | null;
  /** What the rules about company ask of it, by its latest triage; absent for one of which nothing is known. */
  company?: Pick<Companion, 'materialClass' | 'apartFrom' | 'hazards'>;
}

/** A step of an item as a plan has it. */
export interface PlannedStep {
  position: number;
  step: PlanStepKind;
  disposition: Disposition;
  stationId: string | null;
  personIds: string[];
  dryingPlaceId: string | null;
  freezerId: string | null;
  /** The specialist it is with, or what carries it; null for the hall, and left out in plans from before this was kept. */
  serviceId?: string | null;
  startsAtMs: number;
  endsAtMs: number;
}

export const WISH_KINDS = ['pin', 'first', 'not-before', 'bar-station', 'bar-way'] as const;
export type WishKind = (typeof WISH_KINDS)[number];

/** What a person wants of the plan for one item; members beside `kind` are null where they are of another kind. */
export interface Wish {
  itemId: string;
  /**
   * `pin`: just as it was planned; `first`: before all that nobody has put first; `not-before`: nothing of it begins before a moment;
   * `bar-station`: not at this station, for one step or for all; `bar-way`: not on this way.
   */
  kind: WishKind;
  stationId: string | null;
  step: StepKind | null;
  disposition: Disposition | null;
  notBeforeMs: number | null;
  pinned: PlannedStep[] | null;
}

export type InputWish = Wish & { id: string };

/** Everything a planning problem is made from, as it stands in the database. */
export interface PlanInput {
  incidentId: string;
  /** IANA name of the zone in which the network counts its days. */
  timeZone: string;
  outdoorAirTempC: number | null;
  outdoorRelativeHumidityPct: number | null;
  siteNames: Record<string, string>;
  stations: InputStation[];
  people: InputPerson[];
  rooms: InputRoom[];
  places: InputPlace[];
  freezers: InputFreezer[];
  /** Those of whom it is known what they can take; none when left out. */
  specialists?: InputSpecialist[];
  /** Those whose load and rides are known; none when left out. */
  vehicles?: InputVehicle[];
  items: InputItem[];
  /** What people want of it and have not withdrawn. */
  wishes?: InputWish[];
  /** What the published plan holds; absent before the first. */
  published?: (PlannedStep & { itemId: string })[];
}
