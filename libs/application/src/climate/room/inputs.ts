/** What a room's course is reckoned from, as it stands in the database. Times are epoch milliseconds. */
import type { Fibre, MaterialClass, Soil, WaterKind, WetState } from '#care';
import type { ClockState } from '#climate';

/** Air read in a room or elsewhere; `digest` is the database's hash of the row (64 bits, signed). */
export interface InputReading {
  atMs: number;
  airTempC: number;
  relativeHumidityPct: number | null;
  digest: bigint;
}

/** A reading of a zone or freezer where a thing was before it was hung. */
export interface InputPlaceReading extends Omit<InputReading, 'digest'> {
  placeId: string;
}

export interface OutdoorAir {
  atMs: number;
  airTempC: number;
  relativeHumidityPct: number;
}

export const MACHINE_STATES = ['running', 'tripped', 'off'] as const;
export type MachineState = (typeof MACHINE_STATES)[number];

export interface CourseMachine {
  id: string;
  code: string;
  name: string;
  ratedLPerDay: number;
  ratedTempC: number;
  ratedRelativeHumidityPct: number;
  /** Now. */
  state: MachineState;
  /** Changes on record, oldest first. Before the first it was as it was registered: running. */
  changes: { atMs: number; state: MachineState }[];
}

/** A time on one place of the room, by the custody chain. A thing that is moved within the room has one after the other. */
export interface HangingStay {
  itemId: string;
  seq: number;
  placeId: string;
  arrangement: 'rack' | 'line' | 'screen' | 'table';
  fromMs: number;
  /** null: it hangs there now. */
  toMs: number | null;
  /** The lot that it was taken out of where it hung. */
  splitFromId: string | null;
}

/** Where a thing was from a moment on, before it was hung here. */
export interface EarlierStay {
  fromMs: number;
  keeperKind: string;
  /** The place whose readings count: a zone, freezer or other drying room; null where nobody reads. */
  placeId: string | null;
}

/** A thing that hangs or hung here, with what its water and its clock depend on. */
export interface HungItem {
  id: string;
  tagCode: string;
  householdId: string;
  count: number;
  sizeClass: string;
  dryMassG: number;
  materialClass: MaterialClass;
  fibre: Fibre;
  water: WaterKind;
  soil: Soil;
  wettedAtMs: number;
  /** Accepted weighings, oldest first. */
  weighings: { atMs: number; massKg: number; resolutionKg: number }[];
  /** Moments of weighings that are kept and in doubt, oldest first. */
  doubtedMs: number[];
  /** When pieces were last taken out of it as a lot; null for never. What was weighed until then was more than it is now. */
  lotSplitMs: number | null;
  /** Steps that wet it or took water out of it, with their ends, oldest first. */
  wetSteps: { step: string; atMs: number }[];
  /** How wet somebody has found it by looking and touching, oldest first. */
  looks: { wetState: WetState; atMs: number }[];
  /** Where it was before, oldest first. */
  earlier: EarlierStay[];
  /** How it left other drying rooms, latest last. */
  left: { roomId: string; atMs: number; moistureX: number; mostX?: number; leastX?: number; clock: ClockState | null }[];
}

/** Everything but the readings. */
export interface RoomFacts {
  room: { id: string; incidentId: string; siteId: string; code: string; name: string; volumeM3: number; airChangesPerH: number; humidityCapPct: number };
  incidentOpen: boolean;
  machines: CourseMachine[];
  stays: HangingStay[];
  items: HungItem[];
}

/** The weather of the site. */
export interface RoomWeather {
  /** Observed, oldest first. */
  observed: OutdoorAir[];
  /** Forecast from the present on, oldest first; empty when nobody has one. */
  forecast: OutdoorAir[];
}
