/** A room brought forward through what was measured: what a checkpoint keeps. Plain JSON. */
import type { ClockReading, ClockState, CourseGroup, RoomCourseState } from '#climate';
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
  water: ThingWater;
  moistureBasis: MoistureBasis;
  clock: ClockState | null;
}

/**
 * Every thing has two more groups of nothing beside its own: one that is as heavy or light and as wet as it may be, and of thick and
 * closed goods as slow, and one at the other end. Between them lies the truth as far as it is known; clocks go by the slow one.
 */
const SLOW = '~slow';
const FAST = '~fast';
export const slowIdOf = (itemId: string): string => itemId + SLOW;
export const fastIdOf = (itemId: string): string => itemId + FAST;
export const isEndId = (groupId: string): boolean => groupId.endsWith(SLOW) || groupId.endsWith(FAST);
/** The thing that a group is one of. */
export const thingIdOf = (groupId: string): string => (isEndId(groupId) ? groupId.slice(0, groupId.lastIndexOf('~')) : groupId);

/** Moisture of a thing, kg water per kg dry. */
export interface ThingWater {
  /** By the thin-goods model and what its class weighs dry. */
  x: number;
  /** At the slow and at the fast end of its band. */
  slowX: number;
  fastX: number;
  /** The most and the least water that is left to go, in parts of what its class weighs dry and above the same target: the ends weigh something else. */
  mostX: number;
  leastX: number;
}

/** The water of every thing that hangs. */
export function moistures({ groups }: Pick<RoomCourseState, 'groups'>): Map<string, ThingWater> {
  const byId = new Map(groups.map((group) => [group.id, group]));
  return new Map(groups.filter(({ id }) => !isEndId(id)).map((own) => {
    const [slow, fast] = [byId.get(slowIdOf(own.id)) ?? own, byId.get(fastIdOf(own.id)) ?? own];
    const x = own.moistureX;
    const asOwn = (end: CourseGroup): number => own.targetX + ((end.moistureX - own.targetX) * end.dryMassKg) / own.dryMassKg;
    // In air that wets them again the slow end stays behind.
    const [ends, asOwns] = [[x, slow.moistureX, fast.moistureX], [x, asOwn(slow), asOwn(fast)]];
    return [own.id, { x, slowX: Math.max(...ends), fastX: Math.min(...ends), mostX: Math.max(...asOwns), leastX: Math.min(...asOwns) }];
  }));
}

/** Between which moments a thing is dry; null where not both ends, or neither, have come so far. */
export interface DryMoments {
  earliestMs: number | null;
  latestMs: number | null;
}

/**
 * Of every thing that hangs. Both ends count for either moment: air that wets things again makes them alike, and then the lighter
 * dries first, whichever end it began at.
 */
export function dryMoments({ groups }: Pick<RoomCourseState, 'groups'>): Map<string, DryMoments> {
  const moments = new Map<string, { earliest: number; latest: number }>();
  for (const { id, dryAtMs } of groups) {
    const thing = thingIdOf(id);
    const ms = dryAtMs ?? Infinity;
    const { earliest, latest } = moments.get(thing) ?? { earliest: Infinity, latest: -Infinity };
    moments.set(thing, { earliest: Math.min(earliest, ms), latest: Math.max(latest, ms) });
  }
  const known = (ms: number): number | null => (ms === Infinity ? null : ms);
  return new Map([...moments].map(([id, { earliest, latest }]) => [id, { earliestMs: known(earliest), latestMs: known(latest) }]));
}
