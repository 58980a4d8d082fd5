/**
 * On what a state rests, as a hash: a checkpoint is gone on from only while everything that it was reckoned from still stands as
 * it did. So it does not matter who changed the past, or how.
 */
import { createHash } from 'node:crypto';
import type { CalibrationValues } from '#climate';
import type { AlarmValues } from '../alarms/calibration.js';
import { factorOnly, speedFor, type SpeedFactor } from './fits.js';
import type { HungItem, OutdoorAir, RoomFacts } from './inputs.js';
import { WATCH_RESTS_ON } from './machine-watch.js';

/** Raise it when the reckoning itself changes, so that no old state is gone on from. */
const RECKONING = 3;

/** The rows of readings up to a moment, as the database adds them up: how many, and the exclusive or of their hashes. */
export interface ReadingsDigest {
  count: number;
  xor: bigint;
}

export const NO_READINGS: ReadingsDigest = { count: 0, xor: 0n };

/** The digest with further rows. */
export function digestWith(digest: ReadingsDigest, rows: readonly { digest: bigint }[]): ReadingsDigest {
  return rows.reduce((sum, row) => ({ count: sum.count + 1, xor: sum.xor ^ row.digest }), digest);
}

/** What a basis is taken of. */
export interface BasisInput {
  facts: RoomFacts;
  observed: readonly OutdoorAir[];
  /** Readings of the room, and of the places where its things were before, up to the moment; null for no such places. */
  room: ReadingsDigest;
  elsewhere: ReadingsDigest | null;
  /** Factors that weighings have fitted. */
  speeds: readonly SpeedFactor[];
  atMs: number;
  values: CalibrationValues;
  alarms: AlarmValues;
}

/** What was so up to a moment: air in the room, elsewhere and outside, and every fact that had effect by then. */
export function basisOf({ facts, observed, room, elsewhere, speeds, atMs, values, alarms }: BasisInput): string {
  const { volumeM3, airChangesPerH } = facts.room;
  const stays = facts.stays.filter(({ fromMs }) => fromMs <= atMs).map((stay) => [stay.itemId, stay.seq, stay.placeId, stay.arrangement, stay.fromMs, stay.toMs !== null && stay.toMs <= atMs ? stay.toMs : null, stay.splitFromId]);
  const hung = new Set(stays.map(([itemId]) => itemId));
  const items = new Map(facts.items.map((item) => [item.id, item]));
  // Only factors that something hung by: what is weighed later of others leaves this past as it was.
  const used = new Set(facts.stays.filter(({ fromMs }) => fromMs <= atMs).flatMap(({ itemId, arrangement }) => speedFor(speeds, items.get(itemId), arrangement) ?? []));
  return createHash('sha256').update(JSON.stringify([
    RECKONING, Object.entries(values).sort(([a], [b]) => (a < b ? -1 : 1)), WATCH_RESTS_ON.map((key) => alarms[key]), volumeM3, airChangesPerH,
    room.count, String(room.xor), elsewhere?.count ?? 0, String(elsewhere?.xor ?? 0n), observed.filter((air) => air.atMs <= atMs),
    facts.machines.map((machine) => [machine.id, machine.ratedLPerDay, machine.ratedTempC, machine.ratedRelativeHumidityPct, machine.changes.filter((change) => change.atMs <= atMs)]),
    speeds.filter((speed) => used.has(speed)).map(factorOnly), stays, facts.items.filter(({ id }) => hung.has(id)).map((item) => factsOf(item, atMs)),
  ])).digest('base64url');
}

/** Where the things that had been hung by a moment had been before: whose readings their clocks rest on. */
export function placesBefore({ stays, items }: RoomFacts, atMs: number): string[] {
  const hung = new Set(stays.filter(({ fromMs }) => fromMs <= atMs).map(({ itemId }) => itemId));
  return [...new Set(items.filter(({ id }) => hung.has(id)).flatMap(({ earlier }) => earlier.flatMap(({ fromMs, placeId }) => (fromMs <= atMs && placeId !== null ? [placeId] : []))))].sort();
}

function factsOf(item: HungItem, atMs: number): unknown[] {
  const by = <T extends { atMs: number }>(list: readonly T[]): T[] => list.filter((one) => one.atMs <= atMs);
  return [
    item.id, item.count, item.sizeClass, item.dryMassG, item.materialClass, item.fibre, item.water, item.soil, item.wettedAtMs,
    by(item.weighings), by(item.wetSteps), by(item.looks), item.earlier.filter(({ fromMs }) => fromMs <= atMs), by(item.left),
  ];
}
