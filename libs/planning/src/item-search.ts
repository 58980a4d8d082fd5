/**
 * Ruin and recreate over whole items with late acceptance. After the idea of slack induction by string removals
 * (Christiaens and Vanden Berghe, Transportation Science, 2020) as our planning study adapted it: a few planned
 * items around what stands in the way of a rejected one are taken out and offered again with it in a random order.
 * The numbers below are our own calibration.
 */
import type { Batch } from './batches.js';
import { type Compiled, type CompiledItem, type CompiledStep, lastInHorizon, lastInTime } from './compile.js';
import { offerKey } from './offer-keys.js';
import type { PackedPlan } from './packed-plan.js';
import { type Delay, ownCopy, type Placement } from './place-item.js';
import type { PriceGuide } from './price-guide.js';
import { compareObjectives, type PlanState } from './plan-state.js';
import { Dice } from './search/dice.js';
import { NONE } from './timetable.js';
import type { Objective } from './types.js';

const RUIN_MIN = 2;
/** Most items taken out in a round: more where they are few. */
const RUIN_MOST = { few: 8, many: 5 } as const;
/** Items from which on they are many. */
const MANY = 200;
/** Waiting items offered beside the one that a round tries to get in, and among how many that one is chosen. */
const OFFERED_WAITING = { few: 12, many: 4 } as const;
const SEED_DRAWS = { few: 5, many: 20 } as const;
/** Waiting items among which each of the others is chosen, where prices tell them apart. */
const DRAWS_BY_PRICE = 4;
/** One offer in this many takes no notice of prices. */
const UNPRICED = 10;
/** Blocks of equal price by which things may begin sooner than is cheapest: up to so many in a round, and in a plan made by prices. */
const AHEAD = { round: 6, plan: 4 } as const;
/** Among fewer than this many, one is chosen without regard to weight, so that no other is forgotten. */
const FEW_WAITING = 50;
/** Places looked at for each item that is to be taken out. */
const DRAWS_PER_ITEM = 4;
/**
 * How far back late acceptance looks: far among a few items, where it must climb out of good plans; hardly among thousands,
 * where it would drift away from what is far from settled. Measured.
 */
const ACCEPTANCE_MOST = 100;
const ACCEPTANCE_LEAST = 2;
const ACCEPTANCE_OF_ITEMS = 4_000;
/** One offer in this many is skipped, and one route in this many, so that the same order does not always give the same plan. */
const BLINK = 100;
const SKIP_ROUTE = 16;
/** One offer in this many is put off at one of its steps, by up to this many slots, so that others may go first. */
const DELAY = { few: 2, many: 5 } as const;
const MOST_DELAY = 200;
/** One ruin in this many takes frozen items out, so that others get their volume. */
const FREEZER_SWAP = 12;
/** Rounds without a better plan, moments aside, after which the search goes elsewhere; more where there are many items. */
const PATIENCE = 1_000;
const PATIENCE_PER_ITEM = 50;
/** The search; it works on `state` and knows the best plan it has seen. */
export class ItemSearch {
  readonly pool: CompiledItem[];
  bestObjective: Objective;
  /** The best plan; null as long as it is the one that the search began with and `changed` is empty. */
  private kept: PackedPlan | null = null;
  private readonly compiled: Compiled;
  private readonly dice: Dice;
  private readonly history: Objective[];
  private readonly held: Uint8Array;
  /** Items that may stand elsewhere than in the best plan. */
  private readonly changed = new Set<number>();
  readonly size: 'few' | 'many';
  private rounds = 0;
  private stale = 0;
  /** Items that the present round has taken out or offered, by the round's number. */
  private readonly touched: Int32Array;
  private stamp = 0;
  /** The prices that it goes by; null as long as there are none. */
  guide: PriceGuide | null = null;

  constructor(private readonly state: PlanState, { seed, held }: { seed: number; held: Uint8Array }) {
    this.compiled = state.compiled;
    this.held = held;
    this.dice = new Dice(seed);
    this.pool = state.compiled.items.filter((item) => item.urgent && held[item.index] === 0 && !state.isGivenUp(item));
    this.size = this.pool.length < MANY ? 'few' : 'many';
    this.bestObjective = state.objective;
    this.history = Array.from({ length: acceptanceLength(this.pool.length) }, () => this.bestObjective);
    this.touched = new Int32Array(state.compiled.items.length);
  }

  /** Nothing is left that could be moved. */
  get isDone(): boolean {
    return this.pool.length === 0;
  }

  /** Placements of the best plan. */
  get best(): readonly (Placement | null)[] {
    return (this.kept ?? this.state.plan).all();
  }

  round(): void {
    const { state } = this;
    this.kept ??= state.plan.copy();
    const before = state.objective;
    this.stamp += 1;
    const seed = this.drawSeed();
    const removed = this.ruin(seed);
    const offered = [...removed.map(({ item }) => this.compiled.items[item]!), ...this.moreWaiting(seed, removed)];
    const inserted = this.recreate(offered);
    const after = state.objective;
    const slot = this.rounds % this.history.length;
    this.rounds += 1;
    if (worse(after, before) && worse(after, this.history[slot]!)) {
      for (const item of inserted) state.remove(item.index);
      for (const placement of removed) state.put(placement);
    } else {
      for (const item of offered) this.changed.add(item.index);
    }
    if (compareObjectives(state.objective, this.history[slot]!) < 0) this.history[slot] = state.objective;
    if (compareObjectives(state.objective, this.bestObjective) < 0) this.keepBest();
    this.stale += 1;
    if (this.stale >= Math.max(PATIENCE, PATIENCE_PER_ITEM * this.pool.length)) this.beginElsewhere();
  }

  /** Far from the best plan, as nothing better was found near it for long. */
  private beginElsewhere(): void {
    const { dice, state, pool } = this;
    this.restoreBest();
    const removed = pool.filter((item) => state.plan.has(item.index) && dice.below(2) === 0);
    for (const item of removed) state.remove(item.index);
    this.recreate(pool.filter((item) => !state.plan.has(item.index)));
    for (const { index } of pool) this.changed.add(index);
    this.history.fill(state.objective);
    this.stale = 0;
  }

  /**
   * Goes by prices from now on. Where nobody works to a plan yet, one is also made in their order, and the search goes on from it if it
   * is better.
   */
  follow(guide: PriceGuide): void {
    const { compiled: { items, planLate }, pool, state } = this;
    this.guide = guide;
    if (planLate || items.some(({ dropCost }) => dropCost > 0)) return;
    this.kept ??= state.plan.copy();
    for (const { index } of pool) {
      if (state.plan.has(index)) state.remove(index);
      this.changed.add(index);
    }
    for (const item of guide.inOrder(pool)) state.offer(item, NONE, null, guide.hint(item, AHEAD.plan * guide.blockSlots));
    if (compareObjectives(state.objective, this.bestObjective) < 0) this.keepBest();
    else this.restoreBest();
    this.history.fill(this.bestObjective);
  }

  restoreBest(): void {
    const { state, kept: best, changed } = this;
    if (best === null) return;
    for (const index of changed) if (state.plan.has(index) && !state.plan.agrees(best, index)) state.remove(index);
    for (const index of changed) if (best.has(index) && !state.plan.has(index)) state.put(best.get(index)!);
    changed.clear();
  }

  /** Goes on from a better plan that was found elsewhere; does nothing with another. */
  adopt({ objective, placed }: { objective: Objective; placed: readonly (Placement | null)[] }): void {
    if (compareObjectives(objective, this.bestObjective) >= 0) return;
    const { state, compiled: { items } } = this;
    this.kept ??= state.plan.copy();
    for (const { index } of items) if (state.plan.has(index)) state.remove(index);
    const batches = new Map<Batch, Batch>();
    for (const placement of placed) if (placement !== null) state.put(ownCopy(placement, batches));
    for (const { index } of items) this.changed.add(index);
    this.history.fill(state.objective);
    this.keepBest();
  }

  private keepBest(): void {
    const { changed, state } = this;
    if (worse(this.bestObjective, state.objective)) this.stale = 0;
    this.bestObjective = state.objective;
    for (const index of changed) this.kept!.take(state.plan, index);
    changed.clear();
  }

  /** One of the items that wait; none when nothing waits. */
  private drawSeed(): CompiledItem | null {
    const { state: { waiting } } = this;
    return waiting.size === 0 ? null : this.drawWaiting(waiting.size < FEW_WAITING ? 1 : SEED_DRAWS[this.size]);
  }

  /** Of so many waiting items drawn at random the heaviest for what it takes, or for what it costs where there are prices. */
  private drawWaiting(draws: number): CompiledItem {
    const { dice, guide, state: { waiting }, compiled: { items } } = this;
    let best = items[waiting.at(dice.below(waiting.size))]!;
    for (let draw = 1; draw < draws; draw += 1) {
      const other = items[waiting.at(dice.below(waiting.size))]!;
      if (guide === null ? other.weight * best.share > best.weight * other.share : guide.dearness[other.index]! < guide.dearness[best.index]!) best = other;
    }
    return best;
  }

  /** Takes out planned items around what the seed waits for, or around a random planned item when nothing waits. */
  private ruin(seed: CompiledItem | null): Placement[] {
    const { dice, state } = this;
    const removed: Placement[] = [];
    const take = (index: number): void => {
      if (index === NONE || !state.plan.has(index) || !this.isFreeToMove(index)) return;
      this.touched[index] = this.stamp;
      removed.push(state.remove(index));
    };
    const want = dice.between(RUIN_MIN, RUIN_MOST[this.size]);
    // A seed with a late place gives it up first.
    if (seed !== null) take(seed.index);
    const around = seed ?? this.pool[dice.below(this.pool.length)]!;
    const obstacle = this.obstacleOf(around);
    for (let draw = 0; draw < want * DRAWS_PER_ITEM && removed.length < want; draw += 1) {
      if (obstacle !== null) take(state.neighbours.draw(dice, obstacle.step, obstacle.from, obstacle.to));
      else take(this.pool[dice.below(this.pool.length)]!.index);
    }
    if (removed.length === 0) for (let draw = 0; draw < want; draw += 1) take(this.pool[dice.below(this.pool.length)]!.index);
    return removed;
  }

  /** A step of the item that it must wait for, or any of its steps, with the slots in which others are in its way. */
  private obstacleOf(item: CompiledItem): { step: CompiledStep; from: number; to: number } | null {
    const { dice } = this;
    if (item.options.length === 0) return null;
    const route = item.options[dice.below(item.options.length)]!;
    const { steps } = route;
    const frozenAt = steps.findIndex(({ freezers }) => freezers !== null);
    if (frozenAt >= 0 && dice.below(FREEZER_SWAP) === 0) return { step: steps[frozenAt]!, from: 0, to: lastInHorizon(route, frozenAt) };
    let worst: { step: CompiledStep; from: number; to: number; wait: number } | null = null;
    let from = item.release;
    for (const [position, step] of steps.entries()) {
      const last = lastInHorizon(route, position);
      if (from > last) break;
      const start = this.state.timetable.fit(step, from, last);
      const wait = (start === NONE ? last + 1 : start) - from;
      if (worst === null || wait > worst.wait) worst = { step, from: from - step.duration, to: Math.max(from, Math.min(start === NONE ? last : start, lastInTime(route, position))), wait };
      if (start === NONE) break;
      from = start + step.duration;
    }
    if (worst !== null && worst.wait > 0 && dice.below(4) > 0) return worst;
    const anyAt = dice.below(steps.length);
    const any = steps[anyAt]!;
    return { step: any, from: item.release - any.duration, to: Math.max(item.release, Math.min(lastInHorizon(route, anyAt), item.deadline + any.duration)) };
  }

  /** The seed and other waiting items, drawn at random; what has a late place is taken out for it. */
  private moreWaiting(seed: CompiledItem | null, removed: Placement[]): CompiledItem[] {
    const { state, compiled } = this;
    const more: CompiledItem[] = [];
    const add = (index: number): void => {
      if (!this.isFreeToMove(index)) return;
      this.touched[index] = this.stamp;
      more.push(compiled.items[index]!);
      if (state.plan.has(index)) removed.push(state.remove(index));
    };
    if (seed !== null) add(seed.index);
    const draws = this.guide === null ? 1 : DRAWS_BY_PRICE;
    for (let i = 0; i < OFFERED_WAITING[this.size] && state.waiting.size > 0; i += 1) add(this.drawWaiting(draws).index);
    return more;
  }

  private isFreeToMove(index: number): boolean {
    return this.held[index] === 0 && this.touched[index] !== this.stamp && this.compiled.items[index]!.urgent && !this.state.isGivenUp(this.compiled.items[index]!);
  }

  /** Offers the items in a random order around one of some keys; returns those that found a place. */
  private recreate(items: CompiledItem[]): CompiledItem[] {
    const { dice, guide, state } = this;
    const keyOf = offerKey(dice, guide !== null);
    const ranked = items.map((item) => ({ item, key: keyOf(item) * dice.between(600, 1400) }));
    ranked.sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : a.item.index - b.item.index));
    const inserted: CompiledItem[] = [];
    const passedOver: CompiledItem[] = [];
    // What will be late anyway may be worth a place before what has time to spare.
    const lateInTurn = this.compiled.planLate && dice.below(2) === 0;
    for (const { item } of ranked) {
      const skip = item.options.length > 1 && dice.below(SKIP_ROUTE) === 0 ? dice.below(item.options.length) : NONE;
      const delay = dice.below(DELAY[this.size]) === 0 ? this.delayOf(item) : null;
      const hint = guide === null || dice.below(UNPRICED) === 0 ? null : guide.hint(item, dice.below(AHEAD.round * guide.blockSlots));
      const placed = dice.below(BLINK) !== 0 && (state.offer(item, skip, delay, hint) || (lateInTurn && state.offerLate(item)));
      (placed ? inserted : passedOver).push(item);
    }
    if (this.compiled.planLate) for (const item of passedOver) if (state.offerLate(item)) inserted.push(item);
    return inserted;
  }

  /** A wait before one of the item's steps, up to what it has to spare. */
  private delayOf({ options, release }: CompiledItem): Delay {
    const { dice } = this;
    const route = options[0]!;
    return { position: dice.below(route.steps.length), slots: dice.below(Math.max(1, Math.min(MOST_DELAY, lastInTime(route, 0) - release + 1))) };
  }
}

function acceptanceLength(items: number): number {
  return Math.max(ACCEPTANCE_LEAST, Math.min(ACCEPTANCE_MOST, Math.round(ACCEPTANCE_OF_ITEMS / Math.max(1, items))));
}

/** Whether a plan is no step to go on from in place of another: moments of stabilisation alone do not count. */
function worse(a: Objective, b: Objective): boolean {
  return (a[0] - b[0] || a[1] - b[1] || a[2] - b[2]) > 0;
}
