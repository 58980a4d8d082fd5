import { setTimeout as pause } from 'node:timers/promises';
import type { z } from 'zod';
import type { ItemClimateBody, RoomItemBody, RoomStateBody } from '#contracts';
import { eachOf } from '../api-client.js';
import { PLAY } from '../calibration.js';
import type { TrueWater } from '../world/true-room.js';
import type { Book } from './book.js';
import type { LoggedRoom } from './measuring.js';
import type { Scales } from './scales.js';

export type RoomState = z.output<typeof RoomStateBody>;
type RoomItem = z.output<typeof RoomItemBody>;

const LOOK_EVERY_MS = 200;
/** Longest wait for a room, in real seconds; it is reckoned some seconds after it changed, so that changes come in company. */
const WAIT_S = 25;

/** One thing by the program and in truth, at one moment. */
export interface Compared {
  roomId: string;
  build: RoomItem['standing']['build'];
  weighed: boolean;
  /** kg of water above what counts as dry. */
  trueKg: number;
  leftKg: number;
  leftAtMostKg: number;
  /** Truly, when it was hung. */
  hungKg: number;
  saidDry: boolean;
  /** kg water per kg dry above the target; negative when dryer. */
  trulyAboveX: number;
}

/** Waits until the program has reckoned the room with everything that was measured until now; answers it as it is when the wait is over. */
export async function untilReckoned(book: Book, { roomId }: LoggedRoom, atMs: number): Promise<RoomState> {
  const untilMs = Date.now() + WAIT_S * 1_000;
  for (;;) {
    const state = await book.api.get<RoomState>(`/v1/drying-rooms/${roomId}/climate`);
    if ((state.climate !== null && Date.parse(state.climate.asOf) >= atMs) || Date.now() > untilMs) return state;
    await pause(LOOK_EVERY_MS);
  }
}

/** Holds what the program says of each thing on the racks against the truth, once it knows of all that hangs there. Null when it does not in time. */
export async function compare(book: Book, room: LoggedRoom, hanging: ReadonlySet<string>, scales: Scales, atMs: number): Promise<Compared[] | null> {
  const untilMs = Date.now() + WAIT_S * 1_000;
  for (;;) {
    await untilReckoned(book, room, atMs);
    const items = await book.api.list<RoomItem>(`/v1/drying-rooms/${room.roomId}/items`);
    const isWhole = items.length === hanging.size && items.every(({ itemId, standing }) => hanging.has(itemId) && Date.parse(standing.asOf) >= atMs);
    if (isWhole) return items.flatMap((item) => truthOf(item, room).map((truth) => comparedOf(item, truth, room, scales)));
    if (Date.now() > untilMs) return null;
    await pause(LOOK_EVERY_MS);
  }
}

function truthOf({ itemId }: RoomItem, room: LoggedRoom): TrueWater[] {
  const truth = room.truth.waterOf(itemId);
  return truth === null ? [] : [truth];
}

/** The same for weighed things that were taken down, as they were then. */
export async function compareTaken(book: Book, room: LoggedRoom, scales: Scales): Promise<Compared[]> {
  const compared: Compared[] = [];
  await eachOf([...scales.takenDown], PLAY.parallel, async ([itemId, truth]) => {
    const { standing } = await book.api.get<z.output<typeof ItemClimateBody>>(`/v1/items/${itemId}/climate`);
    if (standing !== null && standing.takenAt !== null) compared.push(comparedOf({ itemId, standing }, truth, room, scales));
  });
  return compared;
}

function comparedOf({ itemId, standing }: Pick<RoomItem, 'itemId' | 'standing'>, truth: TrueWater, room: LoggedRoom, scales: Scales): Compared {
  const above = (x: number) => truth.dryKg * Math.max(0, x - truth.targetX);
  return {
    roomId: room.roomId, build: standing.build, weighed: scales.has(itemId), trueKg: above(truth.moistureX), hungKg: above(truth.hungX), leftKg: standing.water.leftKg, leftAtMostKg: standing.water.leftAtMostKg,
    saidDry: standing.isDry, trulyAboveX: truth.moistureX - truth.targetX,
  };
}
