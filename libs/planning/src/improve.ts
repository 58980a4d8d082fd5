/**
 * Ruin and recreate over whole items with late acceptance. After the idea of slack induction by string removals
 * (Christiaens and Vanden Berghe, Transportation Science, 2020) as our planning study adapted it: a few planned
 * items around a rejected one's blocking resource are taken out and offered again with it in a random order.
 * The numbers below are our own calibration.
 */
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { type Compiled, type CompiledItem, rejectionKey, windowOf } from './compile.js';
import { type Diagnosis, Diagnostician } from './diagnose.js';
import type { Placement } from './place-item.js';
import { compareObjectives, type Objective, type PlanState } from './plan-state.js';
import { NONE, type PlacedStep } from './timetable.js';

const RUIN_MIN = 3;
const RUIN_MAX = 9;
const OFFERED_REJECTED = 24;
/** Measured: with the few thousand rounds a plan run can spend, 500 drifts away from the best plan and 4 stays near it. */
const ACCEPTANCE_LENGTH = 4;
/** One offer in this many is skipped, so that the same order does not always give the same plan. */
const BLINK = 100;

/**
 * Runs exactly `iterations` rounds on the urgent items and leaves the best plan seen in `state`. The first rounds
 * of a longer run are those of a shorter one, so more rounds never give a worse objective.
 */
export function improve(state: PlanState, hopeless: Uint8Array, seed: number, iterations: number): void {
  const search = new Search(state, hopeless, seed);
  for (let round = 0; round < iterations; round += 1) search.round(round);
  search.restoreBest();
}

class Search {
  private readonly compiled: Compiled;
  private readonly diagnostician: Diagnostician;
  private readonly rng;
  private readonly pool: CompiledItem[];
  private readonly history: Objective[];
  private best: (Placement | null)[];
  private bestObjective: Objective;

  constructor(private readonly state: PlanState, hopeless: Uint8Array, seed: number) {
    this.compiled = state.compiled;
    this.diagnostician = new Diagnostician(state.compiled.resources);
    this.rng = xoroshiro128plus(seed);
    this.pool = state.compiled.items.filter((item) => item.urgent && hopeless[item.index] === 0);
    this.best = [...state.placed];
    this.bestObjective = state.objective;
    this.history = Array.from({ length: ACCEPTANCE_LENGTH }, () => this.bestObjective);
  }

  round(round: number): void {
    if (this.pool.length === 0) return;
    const { state } = this;
    const before = state.objective;
    const rejected = this.walk(OFFERED_REJECTED + 1, (item) => state.placed[item.index] === null);
    const removed = this.ruin(rejected[0]).map((item) => state.remove(item.index));
    const inserted = this.recreate([...rejected, ...removed.map(({ item }) => this.compiled.items[item]!)]);
    const after = state.objective;
    const slot = round % ACCEPTANCE_LENGTH;
    if (compareObjectives(after, before) > 0 && compareObjectives(after, this.history[slot]!) > 0) {
      for (const item of inserted) state.remove(item.index);
      for (const placement of removed) state.put(placement);
    }
    if (compareObjectives(state.objective, this.history[slot]!) < 0) this.history[slot] = state.objective;
    if (compareObjectives(state.objective, this.bestObjective) < 0) {
      this.bestObjective = state.objective;
      this.best = [...state.placed];
    }
  }

  restoreBest(): void {
    const { state, best } = this;
    state.placed.forEach((placement, index) => { if (placement !== null && placement !== best[index]) state.remove(index); });
    best.forEach((placement, index) => { if (placement !== null && state.placed[index] === null) state.put(placement); });
  }

  /** Planned items around the obstacle of the seed, or around a random planned item when nothing is rejected. */
  private ruin(seed: CompiledItem | undefined): CompiledItem[] {
    const { state } = this;
    const want = uniformInt(this.rng, RUIN_MIN, RUIN_MAX);
    const planned = (item: CompiledItem): boolean => state.placed[item.index] !== null;
    if (seed === undefined) return this.walk(want, planned);
    const diagnosis = this.diagnostician.item(state.timetable, seed);
    const around = this.walk(want, (item) => planned(item) && this.inTheWay(state.placed[item.index]!, diagnosis, seed));
    return around.length > 0 ? around : this.walk(want, planned);
  }

  /** Offers the items in a random order around one of three keys; returns those that found a place. */
  private recreate(items: CompiledItem[]): CompiledItem[] {
    const kind = uniformInt(this.rng, 0, 2);
    const ranked = items.map((item) => ({ item, key: this.baseKey(item, kind) * uniformInt(this.rng, 600, 1400) }));
    ranked.sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : a.item.index - b.item.index));
    const inserted: CompiledItem[] = [];
    for (const { item } of ranked) {
      if (uniformInt(this.rng, 1, BLINK) === 1) continue;
      if (this.state.offer(item)) inserted.push(item);
    }
    return inserted;
  }

  private baseKey(item: CompiledItem, kind: number): number {
    if (item.weight === 0) return Number.POSITIVE_INFINITY;
    if (kind === 0) return rejectionKey(windowOf(item), item.share, item.weight);
    return kind === 1 ? item.share / item.weight : 1 / item.weight;
  }

  /** Up to `count` items of the pool that pass, from a random place on, in ring order. */
  private walk(count: number, passes: (item: CompiledItem) => boolean): CompiledItem[] {
    const { pool } = this;
    const found: CompiledItem[] = [];
    const offset = uniformInt(this.rng, 0, pool.length - 1);
    for (let i = 0; i < pool.length && found.length < count; i += 1) {
      const item = pool[(offset + i) % pool.length]!;
      if (passes(item)) found.push(item);
    }
    return found;
  }

  /** Whether a placement holds what the seed lacks while the seed could use it. */
  private inTheWay(placement: Placement, { blocker, step }: Diagnosis, seed: CompiledItem): boolean {
    if (step === null || this.compiled.items[placement.item]!.siteId !== seed.siteId) return false;
    const until = step.latest + step.duration;
    return placement.steps.some((placed) => {
      const end = placed.freezer === NONE ? placed.end : this.compiled.resources.horizon;
      if (placed.start >= until || end <= seed.release) return false;
      return holds(placed, blocker.kind, step);
    });
  }
}

function holds(placed: PlacedStep, kind: Diagnosis['blocker']['kind'], step: NonNullable<Diagnosis['step']>): boolean {
  switch (kind) {
    case 'station': return placed.station !== NONE && step.stations!.members.includes(placed.station);
    case 'crew':
    case 'respirator-fit':
    case 'restriction': return placed.people.some((person) => step.crewClass!.members.includes(person));
    case 'drying-area':
    case 'room-air': return placed.place !== NONE;
    case 'freezer': return placed.freezer !== NONE;
    case 'heat':
    case 'time':
    case 'route': return false;
  }
}
