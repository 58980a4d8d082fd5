import type { CalibrationValues, ClockReading } from '#climate';
import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { climateCalibrationInForce } from '../calibration/in-force.js';
import { loadFitAir } from '../climate/load-room.js';
import { fitRoom, type RoomFits } from '../climate/room/fits.js';
import type { RoomFacts } from '../climate/room/inputs.js';
import type { Stores } from '../ports/work.js';

/** What the drying factors of a room are fitted from. */
export interface RoomFitParts {
  room: RoomFacts['room'];
  asOfMs: number;
  facts: Pick<RoomFacts, 'stays' | 'items'>;
  air: ClockReading[];
  calibration: CalibrationValues;
}

/** The fits of a room with the data behind them. */
export interface RoomFitsView extends RoomFits {
  room: RoomFacts['room'];
  asOfMs: number;
  tagOf: ReadonlyMap<string, string>;
}

/** Loads what `arrangementFitsOf` fits; that is done outside the transaction. */
export async function listArrangementFits(stores: Stores, call: UseCaseCall, input: { dryingRoomId: string }): Promise<RoomFitParts> {
  const facts = await stores.roomClimate.facts(input.dryingRoomId);
  if (facts === null) throw notFound('drying room');
  const { room, stays, items } = facts;
  const calibration = await climateCalibrationInForce(stores);
  const asOfMs = call.env.nowMs;
  return { room, asOfMs, facts: { stays, items }, air: await loadFitAir(stores, facts, asOfMs, calibration), calibration };
}

/** The factor of every material in every arrangement of the room that something was weighed in. */
export function arrangementFitsOf({ room, asOfMs, facts, air, calibration }: RoomFitParts): RoomFitsView {
  return { room, asOfMs, tagOf: new Map(facts.items.map(({ id, tagCode }) => [id, tagCode])), ...fitRoom(facts, air, asOfMs, calibration) };
}
