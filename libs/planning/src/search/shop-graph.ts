/**
 * A plan of a shop as a graph: each operation before the next of its job and the next on its machine, the longest
 * paths giving its earliest end and what must follow it. The disjunctive graph of B. Roy and B. Sussmann, 1964 (from
 * memory), with the choice of machines made; several goals as in R. Mati, S. Dauzere-Peres and C. Lahlou, "A general
 * approach for optimizing regular criteria in the job-shop scheduling problem", European Journal of Operational
 * Research 212, 2011 (from memory).
 */
import type { CompiledShop } from './shop.js';

/** Looked up once: in a test runner's sandbox each look-up of a global costs more than a step's arithmetic. */
const { max, min } = Math;

/** No path: so low that no sum of durations lifts it above 0. */
const NO_PATH = -(2 ** 30);

/** A plan to be kept: operations in an order that all links follow, and the choice of each. */
export interface KeptPlan { order: Int32Array; choice: Int32Array; value: number }

export class ShopGraph {
  /** Stands for no operation at the ends of machines and jobs. */
  readonly none: number;
  /** Operations in an order that follows all links, and the place of each in it. */
  readonly order: Int32Array;
  readonly place: Int32Array;
  readonly choice: Int32Array;
  readonly machine: Int32Array;
  readonly duration: Int32Array;
  /** Neighbours on the machine, or `none`. */
  readonly previous: Int32Array;
  readonly next: Int32Array;
  readonly firstOn: Int32Array;
  /** Earliest end by operation; 0 for `none`. */
  readonly end: Int32Array;
  /** Longest path from the start of an operation to each goal, row by operation; goals themselves stand after `none`. */
  readonly span: Int32Array;
  /** End by goal. */
  readonly goalEnd: Int32Array;
  value = 0;
  /** Weights by goal that the value is reckoned with: the shop's own unless a search bends them. */
  readonly weight: Float64Array;
  private readonly lastOn: Int32Array;
  private readonly follows: Uint8Array;
  private readonly moving: Int32Array;

  constructor(readonly shop: CompiledShop) {
    const { count, machines, goals } = shop;
    this.none = count;
    this.order = new Int32Array(count);
    this.place = new Int32Array(count + 1 + goals);
    this.choice = new Int32Array(count);
    this.machine = new Int32Array(count);
    this.duration = new Int32Array(count);
    this.previous = new Int32Array(count + 1);
    this.next = new Int32Array(count + 1);
    this.firstOn = new Int32Array(machines);
    this.lastOn = new Int32Array(machines);
    this.end = new Int32Array(count + 1);
    this.span = new Int32Array((count + 1 + goals) * goals).fill(NO_PATH);
    for (let goal = 0; goal < goals; goal += 1) this.span[(count + 1 + goal) * goals + goal] = 0;
    this.goalEnd = new Int32Array(goals);
    this.weight = shop.weight.slice();
    this.follows = new Uint8Array(count + 1 + goals);
    this.moving = new Int32Array(count);
    this.place.fill(count);
    this.place[count] = -1;
  }

  /** Takes over a plan: on each machine in the given order, which holds each operation once and follows the jobs. */
  load(order: ArrayLike<number>, choice: ArrayLike<number>): void {
    const { shop, none, previous, next, firstOn, lastOn, machine } = this;
    this.order.set(order);
    this.choice.set(choice);
    firstOn.fill(none);
    lastOn.fill(none);
    for (let i = 0; i < none; i += 1) {
      const x = order[i]!;
      const k = shop.choiceMachine[choice[x]!]!;
      machine[x] = k;
      this.duration[x] = shop.choiceDuration[choice[x]!]!;
      this.place[x] = i;
      previous[x] = lastOn[k]!;
      next[x] = none;
      if (lastOn[k] === none) firstOn[k] = x;
      else next[lastOn[k]!] = x;
      lastOn[k] = x;
    }
    this.measure(0, none - 1);
  }

  keep(): KeptPlan {
    return { order: this.order.slice(), choice: this.choice.slice(), value: this.value };
  }

  /** Takes an operation from its machine; until it is put back, its neighbours there are neighbours of each other. */
  unlink(x: number): void {
    const { none, previous, next, machine } = this;
    const [a, b] = [previous[x]!, next[x]!];
    if (a === none) this.firstOn[machine[x]!] = b;
    else next[a] = b;
    if (b === none) this.lastOn[machine[x]!] = a;
    else previous[b] = a;
  }

  /** Puts an operation onto the machine of a choice, after `a` or first; it has to have been taken away. */
  link(x: number, choice: number, a: number): void {
    const { none, previous, next } = this;
    const k = this.shop.choiceMachine[choice]!;
    const b = a === none ? this.firstOn[k]! : next[a]!;
    this.choice[x] = choice;
    this.machine[x] = k;
    this.duration[x] = this.shop.choiceDuration[choice]!;
    previous[x] = a;
    next[x] = b;
    if (a === none) this.firstOn[k] = x;
    else next[a] = x;
    if (b === none) this.lastOn[k] = x;
    else previous[b] = x;
  }

  /** Moves an operation and measures again. The place must not close a circle. */
  move(x: number, choice: number, a: number): void {
    this.unlink(x);
    this.link(x, choice, a);
    this.reorder(x);
  }

  /** Brings the order in line with the new links of x: what follows x and stands before what x follows moves behind it. */
  private reorder(x: number): void {
    const { shop, order, place, previous, next, follows, moving, none } = this;
    const [before, a, after, b] = [shop.before[x]!, previous[x]!, shop.after[x]!, next[x]!];
    const from = place[x]!;
    const low = min(from, place[after]!, b === none ? none : place[b]!);
    const high = max(from, place[before]!, place[a]!);
    let write = low;
    let held = 0;
    for (let i = low; i <= high; i += 1) {
      const y = order[i]!;
      if (y === x) continue;
      if (y === after || y === b || follows[shop.before[y]!] === 1 || follows[previous[y]!] === 1) {
        follows[y] = 1;
        moving[held] = y;
        held += 1;
      } else {
        order[write] = y;
        place[y] = write;
        write += 1;
      }
    }
    order[write] = x;
    place[x] = write;
    for (let i = 0; i < held; i += 1) {
      const y = moving[i]!;
      write += 1;
      order[write] = y;
      place[y] = write;
      follows[y] = 0;
    }
    this.measure(low, high);
  }

  /** Ends from this place on, spans from that place back, then the goals. */
  private measure(from: number, to: number): void {
    const { shop, order, duration, previous, next, end, span, none } = this;
    const { release, before, after, goals } = shop;
    for (let i = from; i < none; i += 1) {
      const x = order[i]!;
      end[x] = max(release[x]!, end[before[x]!]!, end[previous[x]!]!) + duration[x]!;
    }
    for (let i = to; i >= 0; i -= 1) {
      const x = order[i]!;
      const [row, one, other, p] = [x * goals, after[x]! * goals, next[x]! * goals, duration[x]!];
      for (let goal = 0; goal < goals; goal += 1) span[row + goal] = p + max(span[one + goal]!, span[other + goal]!);
    }
    this.count();
  }

  /** Reckons the value; to be called after a change of weights. */
  count(): void {
    const { shop, goalEnd, end, weight } = this;
    goalEnd.fill(0);
    for (let j = 0; j < shop.last.length; j += 1) {
      const goal = shop.goalOf[j]!;
      const done = end[shop.last[j]!]!;
      if (done > goalEnd[goal]!) goalEnd[goal] = done;
    }
    let value = 0;
    for (let goal = 0; goal < shop.goals; goal += 1) value += weight[goal]! * max(0, goalEnd[goal]! - shop.due[goal]!);
    this.value = value;
  }
}
