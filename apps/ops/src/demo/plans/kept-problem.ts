import { mkdir, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { WhatIfLayout } from '#application';
import type { PlanProblem } from '#planning';
import type { NetworkKey } from '../world/types.js';

/** What there is to plan for one network at a moment of the played day, with what is needed to speak of it. All of it is invented. */
export interface KeptProblem {
  network: NetworkKey;
  atMs: number;
  timeZone: string;
  problem: PlanProblem;
  layout: WhatIfLayout;
  /** Tag and description by item id. */
  labels: [string, { tagCode: string; description: string }][];
  /** Grams that one more dehumidifier would take in a slot, by room id. */
  dehumidifierGPerSlot: [string, number][];
}

/** Where they are kept, in the state directory of the demo. */
export function problemFolder(stateDir: string): string {
  return join(stateDir, 'problems');
}

/** An empty folder for a new day. */
export async function clearProblems(folder: string): Promise<void> {
  await rm(folder, { recursive: true, force: true });
  await mkdir(folder, { recursive: true });
}

export async function writeProblem(folder: string, kept: KeptProblem): Promise<void> {
  await writeFile(join(folder, `${new Date(kept.atMs).toISOString().slice(0, 16).replaceAll(':', '')}-${kept.network}.json`), JSON.stringify(kept));
}

/** One moment of the day: what every network had to plan. */
export interface DayMoment { atMs: number; kept: KeptProblem[] }

/** All moments, in order. @throws Error when nothing was kept */
export async function readMoments(folder: string): Promise<DayMoment[]> {
  const files = await readdir(folder).catch(() => []);
  const moments = new Map<number, KeptProblem[]>();
  for (const file of files.sort()) {
    const kept = JSON.parse(await readFile(join(folder, file), 'utf8')) as KeptProblem;
    moments.set(kept.atMs, [...(moments.get(kept.atMs) ?? []), kept]);
  }
  if (moments.size === 0) throw new Error('No problems are kept. Play the day first: npm run demo -- --once --keep-problems');
  return [...moments].map(([atMs, kept]) => ({ atMs, kept }));
}

/** The busiest moment of the first day, the first one before it with half as much to do, and the last one of that day. */
export function threeMoments(moments: readonly DayMoment[]): DayMoment[] {
  const dayOne = moments.filter(({ atMs }) => dayOf(atMs) === dayOf(moments[0]?.atMs ?? 0));
  const busiest = dayOne.reduce((best, one) => (weightOf(one) > weightOf(best) ? one : best));
  const early = dayOne.find((one) => 2 * weightOf(one) >= weightOf(busiest)) ?? busiest;
  return [...new Set([early, busiest, dayOne.at(-1) ?? busiest])];
}

/** Weight that is not safe yet. */
export function weightOf({ kept }: DayMoment): number {
  return kept.reduce((sum, { problem }) => sum + urgentWeight(problem), 0);
}

export function urgentWeight({ items }: PlanProblem): number {
  return items.reduce((sum, { stabilised, weight }) => sum + (stabilised ? 0 : weight), 0);
}

function dayOf(ms: number): string {
  return new Date(ms).toISOString().slice(0, 10);
}
