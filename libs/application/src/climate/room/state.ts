/** A room brought forward through what was measured: what a checkpoint keeps. Plain JSON. */
import type { ClockReading, ClockState, RoomCourseState } from '#climate';
import type { SpeedFactor } from './fits.js';
import type { MoistureBasis } from './goods.js';
import type { MachineWatch } from './machine-watch.js';

/** What the room remembers of a thing that hangs, beside its water. */
export interface HangingState {
  /** Since when it has hung in this room without leaving it. */
  hungAtMs: number;
  /** On what its water at hanging rests; `weighed` also after a weighing on the rack. */
  moistureBasis: MoistureBasis;
  /** When its water was last known: at hanging, or at the last weighing. */
  knownAtMs: number;
  arrangement: 'rack' | 'line' | 'screen' | 'table';
  /** null where mould cannot live on it. */
  clock: ClockState | null;
}

export interface RoomState {
  format: 1;
  /** The moment of the last reading that was taken in. */
  atMs: number;
  course: RoomCourseState;
  hanging: Record<string, HangingState>;
  reading: ClockReading;
  watch: MachineWatch;
  /** What it was reckoned with, for what is hung later on; absent for no fitted factor. */
  speeds?: readonly SpeedFactor[];
}

/** A thing as it left the room. */
export interface LeftItem {
  itemId: string;
  hungAtMs: number;
  takenAtMs: number;
  targetX: number;
  knownAtMs: number;
  moistureX: number;
  /** By the slow side for thick and closed goods. */
  slowX: number;
  moistureBasis: MoistureBasis;
  clock: ClockState | null;
}

/** Thick and closed goods have a second group of nothing that dries at the slow end of their band: their clocks go by it. */
const SLOW = '~slow';
export const slowIdOf = (itemId: string): string => itemId + SLOW;
export const isSlowId = (groupId: string): boolean => groupId.endsWith(SLOW);

/** Moisture of every thing that hangs, by the thin-goods model and by the slow end of its band. */
export function moistures(course: RoomCourseState): Map<string, { x: number; slowX: number }> {
  const x = new Map(course.groups.map((group) => [group.id, group.moistureX]));
  const things = course.groups.filter(({ id }) => !isSlowId(id));
  return new Map(things.map(({ id, moistureX }) => [id, { x: moistureX, slowX: x.get(slowIdOf(id)) ?? moistureX }]));
}
