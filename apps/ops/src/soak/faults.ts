import { setTimeout as pause } from 'node:timers/promises';
import type { Dice } from '../demo/dice.js';
import type { KeptProcess } from '../processes.js';
import type { FaultProxy } from './fault-proxy.js';
import type { SoakCluster } from './soak-cluster.js';

export const FAULT_KINDS = ['kill', 'stop', 'cut'] as const;
/** kill -9 of an API process, an immediate stop of the database server, a time in which connections are cut around commits. */
export type FaultKind = (typeof FAULT_KINDS)[number];

/** Relative shares: processes die more often than servers. */
const SHARES: Record<FaultKind, number> = { kill: 2, stop: 1, cut: 1 };
/** Between two faults, and how long cutting stays on, milliseconds. Our own calibration: about as much time for work as for recovery. */
const QUIET_MS = [400, 1_600] as const;
/** An API that lives says so in this time. */
const LIVE_MS = 1_000;
const CUTTING_MS = [300, 1_000] as const;

export interface FaultTargets {
  apis: readonly KeptProcess[];
  urls: readonly string[];
  cluster: SoakCluster;
  proxy: FaultProxy;
}

export type FaultCounts = Record<FaultKind, number>;

/** When a run ends: after this time, once there were so many of each kind of fault; but after the longest time in any case. Milliseconds. */
export interface RunLength {
  forMs: number;
  ofEachKind: number;
  longestMs: number;
  /** True once so much was done that faults can have shown. */
  enoughDone: () => boolean;
}

/** Strikes with faults until the run is over; answers how many there were. The first ones are one of each kind. */
export async function strikeUntilOver(length: RunLength, kinds: readonly FaultKind[], targets: FaultTargets, dice: Dice): Promise<FaultCounts> {
  const done: FaultCounts = { kill: 0, stop: 0, cut: 0 };
  const startedMs = performance.now();
  const first = dice.shuffled(kinds);
  for (;;) {
    await pause(dice.int(...QUIET_MS));
    const lacking = kinds.filter((kind) => done[kind] < length.ofEachKind);
    const sinceMs = performance.now() - startedMs;
    if (sinceMs >= length.longestMs || (sinceMs >= length.forMs && lacking.length === 0 && length.enoughDone())) return done;
    // When the time is over, only what is still lacking: on a busy machine a stop takes seconds.
    const choice = sinceMs >= length.forMs && lacking.length > 0 ? lacking : kinds;
    const kind = first.pop() ?? dice.pick(choice.flatMap((name) => Array.from({ length: SHARES[name] }, () => name)));
    if (await strike(kind, targets, dice)) done[kind] += 1;
  }
}

/** False when there was nothing to strike at: a process is just being started again. */
async function strike(kind: FaultKind, { apis, urls, cluster, proxy }: FaultTargets, dice: Dice): Promise<boolean> {
  // One is left, or there would be nobody to send commands to: on a busy machine a start takes seconds.
  if (kind === 'kill') return (await allAnswer(urls)) && dice.pick(apis).killHard();
  if (kind === 'stop') {
    await cluster.stopAtOnceAndStartAgain();
    return true;
  }
  const before = proxy.cuts;
  proxy.cutting = true;
  await pause(dice.int(...CUTTING_MS));
  proxy.cutting = false;
  return proxy.cuts > before;
}

async function allAnswer(urls: readonly string[]): Promise<boolean> {
  const answers = await Promise.all(urls.map((url) => fetch(`${url}/health/live`, { signal: AbortSignal.timeout(LIVE_MS) }).then((response) => response.ok, () => false)));
  return answers.every(Boolean);
}
