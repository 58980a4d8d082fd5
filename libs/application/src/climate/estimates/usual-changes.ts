/** What is tried in a room when nobody says what: one more machine, a fan, windows, fewer things, a fan with one more machine. Our own choice. */
import { RATING_POINTS, type Dehumidifier, type SimulatedRoom, type WhatIf } from '#climate';

export const USUAL_CHANGES = ['one-more-machine', 'fan', 'open-windows', 'close-windows', 'fewer-things', 'fan-and-machine'] as const;
export type UsualChange = (typeof USUAL_CHANGES)[number];

/** An ordinary portable machine, for rooms that have none. */
const ORDINARY_MACHINE: Dehumidifier = { kind: 'refrigerant', ratedLitresPerDay: 20, ...RATING_POINTS['aham-dh-1'] };
const FAN_M_PER_S = 1;
const OPEN_PER_H = 4;
const SHUT_PER_H = 0.3;
/** From here on the windows count as open. */
const OPEN_FROM_PER_H = 2;
/** From here on somebody moves the air already. */
const MOVED_FROM_M_PER_S = 0.3;

/** The usual changes for a room with these goods. */
export function usualChanges(room: SimulatedRoom, counts: readonly number[]): WhatIf[] {
  const machine = room.dehumidifiers.toSorted((a, b) => b.ratedLitresPerDay - a.ratedLitresPerDay)[0] ?? ORDINARY_MACHINE;
  const fewer = counts.map((count, group) => ({ kind: 'take-off' as const, group, count: Math.floor(count / 4) })).filter(({ count }) => count > 0);
  const windows = room.airChangesPerH >= OPEN_FROM_PER_H
    ? { id: 'close-windows', changes: [{ kind: 'close-windows' as const, airChangesPerH: SHUT_PER_H }] }
    : { id: 'open-windows', changes: [{ kind: 'open-windows' as const, airChangesPerH: OPEN_PER_H }] };
  const fan = { kind: 'fan' as const, airSpeedMPerS: FAN_M_PER_S };
  const still = (room.airSpeedMPerS ?? 0) < MOVED_FROM_M_PER_S;
  return [
    { id: 'one-more-machine', changes: [{ kind: 'add-dehumidifier', machine }] },
    ...(still ? [{ id: 'fan', changes: [fan] }] : []),
    windows,
    ...(fewer.length === 0 ? [] : [{ id: 'fewer-things', changes: fewer }]),
    ...(still ? [{ id: 'fan-and-machine', changes: [fan, { kind: 'add-dehumidifier' as const, machine }] }] : []),
  ];
}
