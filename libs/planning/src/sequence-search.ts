/**
 * Search step by step for small incidents. Ruin and recreate places items whole, so it never finds plans in which one item goes
 * first at one station and another at the next. Here a plan is a sequence of steps of all items, each placed at its earliest
 * fit in turn, with the route of each item, whether it is let be late, and when it is thawed. Small changes are accepted by
 * simulated annealing, in cycles that begin from the best plan. Permutations with repetition are the usual form for shops, and
 * annealing the usual way out of plans that no small change makes better (both from memory); the numbers are our own calibration.
 */
import type { Compiled, CompiledItem } from './compile.js';
import type { Placement } from './place-item.js';
import { compareObjectives } from './plan-state.js';
import type { Dice } from './search/dice.js';
import { AS_IT_COMES, type Sequence, SequencePlan } from './sequence-plan.js';
import { NONE, type PlacedStep } from './timetable.js';
import type { Objective } from './types.js';

/** Steps of all items together up to which the search is worth its time. */
export const MOST_SEQUENCE_STEPS = 400;
/** What a unit of weight that is late costs beside its lateness: that of this share of the horizon. */
const LATE_SHARE = 10;
/** What the moment of stabilisation costs against lateness: little where lateness is to be less, all where there is none in the plan. */
const MOMENT_COST = { late: 0, list: 1 };
/** Temperature at the beginning of a cycle, in things of mean weight that are late; what is left of it after each round and at the end. */
const HOTTEST = 1.4;
const COOLING = 0.998235;
const COLDEST = 1 / 200;
/** Of twenty changes, how many move items, then steps, then a thaw, then choose a route; the others let an item be late or not. */
const MOVE_ITEMS = 8;
const MOVE_STEPS = 14;
const MOVE_THAW = 17;
const CHANGE_ROUTE = 18;
const CHANGES = 20;
/** Items moved at most at once. */
const MOST_MOVED = 2;
/** One in this many changes of who may be late lets one more or one fewer be so; the others let one be late for another. */
const EXCHANGE_LATE = 2;
/** One moved item in this many goes by another route; one in this many thaws as it comes. */
const REROUTE = 4;
const THAW_ANEW = 2;

/** The search; `best` is the best plan it has seen. */
export class SequenceSearch {
  best: { objective: Objective; placed: (Placement | null)[] };
  private readonly plan: SequencePlan;
  /** Those that have several routes, and those that have one with a thaw. */
  private readonly choosing: number[];
  private readonly thawing: number[];
  private readonly lateCost: number;
  private readonly momentCost: number;
  private readonly hottest: number;
  private temperature: number;
  /** Where the search stands. */
  private genes: Sequence;
  private objective: Objective;
  private cost = 0;
  private placed: readonly (Placement | null)[] = [];
  private bestGenes: Sequence;
  /** Room to put turns aside. */
  private readonly others: Int32Array;

  /** @param items those that may be moved; all others of the problem must be without a place */
  constructor(private readonly compiled: Compiled, private readonly items: readonly CompiledItem[], private readonly dice: Dice, start: { objective: Objective; placed: readonly (Placement | null)[] }) {
    const { planLate, tardinessCap, resources: { horizon } } = compiled;
    this.plan = new SequencePlan(compiled, items);
    this.choosing = items.flatMap(({ options }, i) => (options.length > 1 ? [i] : []));
    this.thawing = items.flatMap(({ options }, i) => (options.some(({ freezeAt }) => freezeAt >= 0) ? [i] : []));
    this.lateCost = Math.ceil(horizon / LATE_SHARE);
    this.momentCost = planLate ? MOMENT_COST.late : MOMENT_COST.list;
    const meanWeight = items.reduce((sum, { weight }) => sum + weight, 0) / items.length;
    this.hottest = Math.max(1, HOTTEST * meanWeight * (this.lateCost + (planLate ? 0 : tardinessCap)));
    this.temperature = this.hottest;
    this.genes = this.read(start.placed);
    this.bestGenes = this.genes;
    this.others = new Int32Array(this.genes.order.length);
    this.objective = start.objective;
    this.best = { objective: start.objective, placed: [...start.placed] };
    this.beginAgain(this.genes);
  }

  /** One change, kept or not. */
  round(): void {
    const changed = this.change();
    const limit = this.cost + this.temperature * this.exponential();
    const objective = this.plan.decode(changed, limit, this.lateCost);
    if (objective !== null && this.costOf(objective) <= limit) this.take(changed, objective);
    this.temperature *= COOLING;
    if (this.temperature < this.hottest * COLDEST) {
      this.beginAgain(this.bestGenes);
      this.temperature = this.hottest;
    }
  }

  private take(genes: Sequence, objective: Objective): void {
    this.genes = genes;
    this.objective = objective;
    this.cost = this.costOf(objective);
    this.placed = this.plan.latest;
    this.keepIfBest();
  }

  private costOf([late, tardiness, , completion]: Objective): number {
    return this.lateCost * late + tardiness + this.momentCost * completion;
  }

  /** About exponential with mean 1: right at each halving and straight between them, so that it is the same on every machine. */
  private exponential(): number {
    const { dice } = this;
    return Math.LN2 * (Math.clz32(Math.floor(dice.unit() * 2 ** 32)) + dice.unit());
  }

  /** Goes on from a better plan that was found elsewhere. */
  adopt(placed: readonly (Placement | null)[]): void {
    this.beginAgain(this.read(placed));
  }

  private beginAgain(genes: Sequence): void {
    this.take(genes, this.plan.decode(genes, Number.POSITIVE_INFINITY, this.lateCost)!);
  }

  private keepIfBest(): void {
    if (compareObjectives(this.objective, this.best.objective) >= 0) return;
    this.best = { objective: this.objective, placed: this.plan.placements() };
    this.bestGenes = this.genes;
  }

  /** The genes of a plan: steps by start; what has no place comes last and may be late. */
  private read(placed: readonly (Placement | null)[]): Sequence {
    const entries = this.items.flatMap((item, i) => {
      const steps = placed[item.index]?.steps ?? [];
      const length = Math.max(...item.options.map((option) => option.steps.length));
      return Array.from({ length }, (_, k) => ({ i, at: steps[Math.max(0, k + steps.length - length)]?.start ?? this.compiled.resources.horizon, k }));
    });
    entries.sort((a, b) => a.at - b.at || a.i - b.i || a.k - b.k);
    return {
      order: Int32Array.from(entries, ({ i }) => i),
      option: Int32Array.from(this.items, ({ index }) => placed[index]?.option ?? 0),
      late: Uint8Array.from(this.items, ({ index }) => ((placed[index]?.tardiness ?? 0) > 0 ? 1 : 0)),
      thawFrom: Int32Array.from(this.items, (item) => {
        const placement = placed[item.index] ?? null;
        if (placement === null) return AS_IT_COMES;
        const { freezeAt } = item.options[placement.option]!;
        return freezeAt < 0 ? AS_IT_COMES : placement.steps[freezeAt]!.stayTo;
      }),
    };
  }

  private change(): Sequence {
    const { dice, genes, choosing, thawing } = this;
    const next = { order: genes.order.slice(), option: genes.option.slice(), late: genes.late.slice(), thawFrom: genes.thawFrom.slice() };
    const kind = dice.below(CHANGES);
    if (kind < MOVE_ITEMS) for (let count = 1 + dice.below(MOST_MOVED); count > 0; count -= 1) this.moveItem(next, this.drawItem());
    else if (kind < MOVE_STEPS) this.moveSteps(next.order);
    else if (kind < MOVE_THAW && thawing.length > 0) this.moveThaw(next, thawing[dice.below(thawing.length)]!);
    else if (kind < CHANGE_ROUTE && choosing.length > 0) this.chooseRoute(next, choosing[dice.below(choosing.length)]!);
    else if (this.compiled.planLate) this.changeLate(next);
    else this.moveSteps(next.order);
    return next;
  }

  private moveSteps(order: Int32Array): void {
    const { dice } = this;
    if (dice.below(2) === 0) moveStep(order, dice.below(order.length), dice.below(order.length));
    else swap(order, dice.below(order.length), dice.below(order.length));
  }

  private changeLate(next: Sequence): void {
    const { dice, items } = this;
    if (dice.below(EXCHANGE_LATE) > 0) return this.exchangeLate(next);
    const item = dice.below(items.length);
    next.late[item] = 1 - next.late[item]!;
  }

  /** One that is late may be so no longer, and another one is late for it: between two such plans lie only worse ones. */
  private exchangeLate({ late, order, thawFrom }: Sequence): void {
    const [spared, instead] = [this.drawWith(late, 1), this.drawWith(late, 0)];
    if (spared === NONE || instead === NONE) return;
    late[spared] = 0;
    late[instead] = 1;
    thawFrom[spared] = AS_IT_COMES;
    thawFrom[instead] = AS_IT_COMES;
    exchangeTurns(order, spared, instead);
  }

  /** An item whose mark is the one given, if there is any. */
  private drawWith(marks: Uint8Array, mark: number): number {
    let [chosen, seen] = [NONE, 0];
    marks.forEach((each, item) => {
      if (each === mark && this.dice.below(++seen) === 0) chosen = item;
    });
    return chosen;
  }

  private moveThaw({ thawFrom }: Sequence, item: number): void {
    thawFrom[item] = this.drawThaw(item);
  }

  /** An item to be moved: more often one that is late than another. */
  private drawItem(): number {
    const { dice, placed } = this;
    if (dice.below(2) === 0) {
      let [chosen, seen] = [NONE, 0];
      placed.forEach((placement, i) => {
        if ((placement === null || placement.tardiness > 0) && dice.below(++seen) === 0) chosen = i;
      });
      if (chosen !== NONE) return chosen;
    }
    return dice.below(this.items.length);
  }

  private chooseRoute({ option, thawFrom }: Sequence, item: number): void {
    option[item] = this.dice.below(this.items[item]!.options.length);
    thawFrom[item] = AS_IT_COMES;
  }

  /** When a frozen thing is thawed: as it comes, as late as its drying allows, just before its first step, or after some step of any. */
  private drawThaw(item: number): number {
    const { dice, placed, items } = this;
    const placement = placed[item] ?? null;
    const kind = dice.below(4);
    if (placement === null || kind === 0) return AS_IT_COMES;
    const { steps, option } = placement;
    const { freezeAt, stabilisingAt } = items[item]!.options[option]!;
    const thaw = steps[freezeAt + 1]?.step.duration ?? 0;
    if (freezeAt < 0 || freezeAt + 2 >= steps.length) return AS_IT_COMES;
    if (kind === 1) return latestThaw(steps, freezeAt + 1, Math.max(stabilisingAt, freezeAt + 2));
    if (kind === 2) return steps[freezeAt + 2]!.start - thaw;
    const other = (placed[dice.below(placed.length)] ?? placement).steps;
    return Math.max(AS_IT_COMES, other[dice.below(other.length)]!.end - thaw);
  }

  /** All steps of one item, together, to where another step stands; now and then on another route. */
  private moveItem(next: Sequence, item: number): void {
    const { dice } = this;
    const { order, thawFrom } = next;
    if (dice.below(THAW_ANEW) === 0) thawFrom[item] = AS_IT_COMES;
    if (this.items[item]!.options.length > 1 && dice.below(REROUTE) === 0) this.chooseRoute(next, item);
    const { others } = this;
    let count = 0;
    for (let turn = 0; turn < order.length; turn += 1) if (order[turn] !== item) others[count++] = order[turn]!;
    const at = dice.below(count + 1);
    const spread = dice.below(3);
    // Together, or with a few steps of others between them.
    for (let write = 0, read = 0, left = order.length - count; write < order.length; write += 1) {
      const isTurn = read >= count || (left > 0 && read >= at && (spread === 0 || (write - at) % (spread + 1) === 0));
      if (isTurn) left -= 1;
      order[write] = isTurn ? item : others[read++]!;
    }
  }
}

/** The thaw if it and the steps after it came as late as the last of them allows. */
function latestThaw(steps: readonly PlacedStep[], thaw: number, last: number): number {
  let start = steps[last]!.start;
  for (let position = last - 1; position >= thaw; position -= 1) start -= steps[position]!.step.duration;
  return Math.max(AS_IT_COMES, start);
}

function moveStep(order: Int32Array, from: number, to: number): void {
  const moved = order[from]!;
  if (from < to) order.copyWithin(from, from + 1, to + 1);
  else order.copyWithin(to + 1, to, from);
  order[to] = moved;
}

/** Each of two items takes the turns of the other; the one that has more keeps its last ones. */
function exchangeTurns(order: Int32Array, a: number, b: number): void {
  let [leftOfA, leftOfB] = [0, 0];
  for (const item of order) {
    if (item === a) leftOfA += 1;
    if (item === b) leftOfB += 1;
  }
  for (let turn = 0; turn < order.length; turn += 1) {
    if (order[turn] !== a && order[turn] !== b) continue;
    const takesA = leftOfB === 0 || (leftOfA > 0 && order[turn] === b);
    if (takesA) leftOfA -= 1;
    else leftOfB -= 1;
    order[turn] = takesA ? a : b;
  }
}

function swap(order: Int32Array, a: number, b: number): void {
  const kept = order[a]!;
  order[a] = order[b]!;
  order[b] = kept;
}
