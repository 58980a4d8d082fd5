import { setTimeout as pause } from 'node:timers/promises';
import type { z } from 'zod';
import type { PlanBody, PlanRunBody } from '#contracts';
import { ApiRefusal } from '../api-client.js';
import { PLAY } from '../calibration.js';
import type { Book } from './book.js';
import type { Tally } from './tally.js';

type PlanRun = z.output<typeof PlanRunBody>;

const LOOK_EVERY_MS = 150;

/** Asks for a new plan of each network and waits until both are in force, or the wait is over: then the old plan goes on. */
export async function planAnew(books: readonly Book[], reason: string, tally: Tally): Promise<void> {
  const startedMs = Date.now();
  await Promise.all(books.map((book) => planOne(book, reason, tally)));
  tally.waitedForPlansMs += Date.now() - startedMs;
}

/** The same for the networks whose plan is older than half an hour; what was found at the tables has renewed the others. */
export async function planIfOld(books: readonly Book[], nowMs: number, tally: Tally): Promise<void> {
  const made = await Promise.all(books.map((book) => madeAtMs(book)));
  const old = books.filter((_, index) => nowMs - (made[index] ?? 0) > PLAY.planIsFreshMinutes * 60_000);
  await planAnew(old, 'The hour is over.', tally);
}

/** When the plan in force was made; 0 while there is none. */
async function madeAtMs(book: Book): Promise<number> {
  try {
    return Date.parse((await book.api.get<z.output<typeof PlanBody>>(`/v1/incidents/${book.incidentId}/plan`)).madeAt);
  } catch (error) {
    if (error instanceof ApiRefusal && error.code === 'not_found') return 0;
    throw error;
  }
}

async function planOne(book: Book, reason: string, tally: Tally): Promise<void> {
  const { body: asked } = await book.api.post<PlanRun>(`/v1/incidents/${book.incidentId}/plan-runs`, { reason });
  const untilMs = Date.now() + PLAY.planWaitS * 1_000;
  let run = asked;
  while (run.state === 'queued' || run.state === 'running') {
    if (Date.now() > untilMs) return tally.count('plans not waited for');
    await pause(LOOK_EVERY_MS);
    run = await book.api.get<PlanRun>(`/v1/plan-runs/${run.id}`);
  }
  if (run.state === 'failed') throw new Error(`The plan failed: ${run.failure ?? 'no reason given'}`);
  tally.count('plans');
}
