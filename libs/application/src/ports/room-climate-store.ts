import type { Reporting } from '../climate/alarms/silence.js';
import type { HangingStay, InputPlaceReading, InputReading, OutdoorAir, RoomFacts } from '../climate/room/inputs.js';
import type { RoomForecast } from '../climate/room/forecast.js';
import type { ReadingsDigest } from '../climate/room/basis.js';
import type { ItemStanding, RoomStanding } from '../climate/room/standing.js';
import type { RoomState } from '../climate/room/state.js';
import type { ClockState } from '#climate';

/** What a row of the outbox about air is about. */
export interface ClimateSubject {
  kind: 'drying-room' | 'freezer';
  id: string;
  incidentId: string;
  open: boolean;
}

/** A checkpoint without its state. */
export interface CheckpointMark {
  atMs: number;
  basis: string;
}

/** One thing as it is stored: its standing, and the clock to be taken up where it goes next. */
export interface ItemClimateRow {
  standing: ItemStanding;
  clockState: ClockState | null;
}

/** Everything that one reckoning of a room stores. */
export interface RoomResult {
  asOfMs: number;
  basis: string;
  standing: RoomStanding;
  forecast: RoomForecast;
  /** Things that hang, and those that left since the checkpoint it went on from. */
  items: ItemClimateRow[];
  /** Every thing that ever hung there by the custody chain: what is stored of others goes. */
  everHung: string[];
  checkpoints: { mark: CheckpointMark; state: RoomState }[];
  /** Moments of older checkpoints that stay; all others go. */
  keep: number[];
}

/** A room by its newest reckoning. */
export interface RoomView {
  id: string;
  incidentId: string;
  siteId: string;
  code: string;
  name: string;
  humidityCapPct: number;
  /** null before the first reckoning. */
  standing: RoomStanding | null;
}

/** A thing by its newest reckoning, in the room where it hangs or hung last. */
export interface ItemClimateView {
  standing: ItemStanding;
  itemId: string;
  incidentId: string;
  tagCode: string;
  roomId: string;
  roomCode: string;
  roomName: string;
}

/** The drying places of a room as an answer about room for more needs them. */
export interface FreeArea {
  areaDm2: number;
  takenDm2: number;
  /** How most of what is free lets things hang or lie; a rack where there is no place. */
  arrangement: HangingStay['arrangement'];
}

/** What is reckoned of drying rooms, and what it is reckoned from. */
export interface RoomClimateStore {
  /** The room or freezer of an id; null for places that nothing is reckoned of, such as zones. */
  subject(id: string): Promise<ClimateSubject | null>;
  roomOfPlace(dryingPlaceId: string): Promise<string | null>;

  /** Raises the fencing epoch of the room and answers it. */
  takeEpoch(incidentId: string, roomId: string): Promise<number>;
  /** As `PlanStore.claimStoring`: false, and nothing changes, when the reckoning of a later epoch is stored. */
  claimStoring(roomId: string, epoch: number): Promise<boolean>;

  facts(roomId: string): Promise<RoomFacts | null>;
  /** Air outside of the site as observed, oldest first. */
  observed(incidentId: string, siteId: string): Promise<OutdoorAir[]>;
  /** Believed readings of a room with a humidity, by moment; after one of them, or all. */
  readings(roomId: string, afterMs: number | null): Promise<InputReading[]>;
  /** Rows of `readings` up to a moment. */
  digest(roomId: string, atMs: number): Promise<ReadingsDigest>;
  /** Believed readings of other places within a time. */
  elsewhere(placeIds: readonly string[], fromMs: number, toMs: number): Promise<InputPlaceReading[]>;
  /** Rows of `elsewhere` up to a moment. */
  digestElsewhere(placeIds: readonly string[], atMs: number): Promise<ReadingsDigest>;

  /** Newest first. */
  checkpoints(roomId: string): Promise<CheckpointMark[]>;
  checkpoint(roomId: string, atMs: number): Promise<RoomState | null>;
  save(incidentId: string, roomId: string, result: RoomResult): Promise<void>;

  room(roomId: string): Promise<RoomView | null>;
  forecast(roomId: string): Promise<RoomForecast | null>;
  /** The newest checkpoint that is kept: the room at its last reading that was taken in. */
  newestState(roomId: string): Promise<RoomState | null>;
  item(itemId: string): Promise<ItemClimateView | null>;
  /** Keyset page of what hangs in a room, by item. */
  itemPage(roomId: string, limit: number, afterItemId: string | null): Promise<ItemClimateView[]>;
  freeArea(roomId: string): Promise<FreeArea>;

  /** How a room or freezer is read: by what its sensors in service say of themselves, and by who sent the last day of believed readings. */
  reporting(kind: ClimateSubject['kind'], id: string): Promise<Reporting>;

  /** Locks the freezer and answers its latest readings, oldest first, and whether something lies in it. */
  lockFreezer(freezerId: string, readings: number): Promise<{ readings: { tempC: number; measuredAtMs: number }[]; inUse: boolean } | null>;
}
