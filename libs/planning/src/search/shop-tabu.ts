/**
 * Tabu search over a shop's plan: each step takes the best move of a critical operation that does not turn back what
 * was lately turned. After the idea of E. Nowicki and C. Smutnicki, "A fast taboo search algorithm for the job shop
 * problem", Management Science 42, 1996, and E. D. Taillard, ORSA Journal on Computing 6, 1994 (both from memory).
 * Critical paths to each late goal: M. Singer and M. Pinedo, IIE Transactions 30, 1998 (from memory). The numbers are
 * our own calibration.
 */
import type { Rounds } from './budget.js';
import type { Dice } from './dice.js';
import type { KeptPlan, ShopGraph } from './shop-graph.js';
import { ShopMoves } from './shop-moves.js';

/** Entries of the memory of turned pairs; in larger shops pairs share entries, which only forbids a little more. */
const PAIRS_AT_MOST = 2 ** 21;

export class TabuSearch {
  private readonly moves: ShopMoves;
  private readonly pairUntil: Int32Array;
  private readonly machineUntil: Int32Array;
  private readonly critical: Int32Array;
  private readonly seen: Int32Array;
  /** Whether the budget ended a run. */
  outOfBudget = false;
  private step = 0;
  private tenure: number;
  /** Best allowed move of this step: operation, choice, and the operation it stands after. */
  private readonly found = { x: -1, choice: 0, a: 0, value: 0, through: 0, ties: 0 };
  private readonly forbidden = { x: -1, choice: 0, a: 0, count: 0 };

  constructor(private readonly graph: ShopGraph, private readonly dice: Dice) {
    const { count, machines, last } = graph.shop;
    this.moves = new ShopMoves(graph);
    this.pairUntil = new Int32Array(Math.max(1, Math.min(count * count, PAIRS_AT_MOST)));
    this.machineUntil = new Int32Array(count * machines);
    this.critical = new Int32Array(count);
    this.seen = new Int32Array(count);
    this.tenure = 10 + Math.floor(last.length / Math.max(1, machines));
  }

  /**
   * Goes on from the plan in the graph until so many steps in a row found nothing better; answers the best plan met.
   * @param enough ends at this value
   */
  run(patience: number, rounds: Rounds, enough: number): KeptPlan {
    const { graph } = this;
    let best = graph.keep();
    this.step += 1_000;
    for (let idle = 0; idle < patience && best.value > enough; idle += 1) {
      if (!rounds.next()) {
        this.outOfBudget = true;
        break;
      }
      this.step += 1;
      if (!this.advance(best.value)) break;
      if (graph.value >= best.value) continue;
      best = graph.keep();
      idle = 0;
    }
    return best;
  }

  /** One step; false when no operation can be moved at all. */
  private advance(best: number): boolean {
    const { found, forbidden, graph } = this;
    const count = this.findCritical();
    found.x = -1;
    found.ties = 0;
    forbidden.x = -1;
    forbidden.count = 0;
    for (let i = 0; i < count; i += 1) {
      const x = this.critical[i]!;
      this.moves.takeOut(x);
      this.lookAround(x, best);
      this.moves.putBack();
    }
    const { x, choice, a } = found.x >= 0 ? found : forbidden;
    if (x < 0) return false;
    this.remember(x, choice, a);
    graph.move(x, choice, a);
    return true;
  }

  /** One critical path, drawn at random, to each late goal; answers how many operations are on them. */
  private findCritical(): number {
    const { graph, critical, seen, step } = this;
    const { shop, goalEnd, end } = graph;
    let count = 0;
    for (let goal = 0; goal < shop.goals; goal += 1) {
      if (goalEnd[goal]! <= shop.due[goal]! || shop.weight[goal] === 0) continue;
      let x = this.lastOf(goal);
      while (x !== graph.none && seen[x] !== step) {
        seen[x] = step;
        critical[count] = x;
        count += 1;
        x = this.causeOf(x, end[x]! - graph.duration[x]!);
      }
    }
    return count;
  }

  private lastOf(goal: number): number {
    const { graph, dice } = this;
    const { last, goalOf } = graph.shop;
    let chosen = graph.none;
    let ties = 0;
    for (let j = 0; j < last.length; j += 1) {
      if (goalOf[j] !== goal || graph.end[last[j]!] !== graph.goalEnd[goal]) continue;
      ties += 1;
      if (ties === 1 || dice.below(ties) === 0) chosen = last[j]!;
    }
    return chosen;
  }

  /** The operation whose end lets x start then, or none when it is the release. */
  private causeOf(x: number, start: number): number {
    const { graph, dice } = this;
    const [before, previous] = [graph.shop.before[x]!, graph.previous[x]!];
    const byJob = before !== graph.none && graph.end[before] === start;
    const byMachine = previous !== graph.none && graph.end[previous] === start;
    if (byJob && byMachine) return dice.below(2) === 0 ? before : previous;
    return byJob ? before : byMachine ? previous : graph.none;
  }

  /** Weighs every place for x, which is taken out: outwards from its old one on its own machine, all along on others. */
  private lookAround(x: number, best: number): void {
    const { graph, moves } = this;
    const { shop, previous, next, none } = graph;
    const own = graph.choice[x]!;
    let barred = false;
    for (let b = previous[x]!; b !== none && moves.mayPrecede(b); b = previous[b]!) {
      barred ||= this.isBarred(x, b);
      this.offer(x, own, previous[b]!, b, barred, best);
    }
    barred = false;
    for (let a = next[x]!; a !== none && moves.mayFollow(a); a = next[a]!) {
      barred ||= this.isBarred(a, x);
      this.offer(x, own, a, next[a]!, barred, best);
    }
    for (let choice = shop.firstChoice[x]!; choice < shop.firstChoice[x + 1]!; choice += 1) {
      if (choice === own) continue;
      const k = shop.choiceMachine[choice]!;
      const closed = this.machineUntil[x * shop.machines + k]! > this.step;
      let a = none;
      let b = graph.firstOn[k]!;
      for (; b !== none && !moves.mayPrecede(b); b = next[b]!) a = b;
      while (moves.mayFollow(a)) {
        this.offer(x, choice, a, b, closed, best);
        if (b === none) break;
        a = b;
        b = next[b]!;
      }
    }
  }

  private offer(x: number, choice: number, a: number, b: number, barred: boolean, best: number): void {
    const { moves, found, forbidden, dice } = this;
    moves.weigh(this.graph.shop.choiceDuration[choice]!, a, b);
    const { value, through } = moves;
    if (barred && value >= best) {
      forbidden.count += 1;
      if (found.x < 0 && dice.below(forbidden.count) === 0) Object.assign(forbidden, { x, choice, a });
      return;
    }
    if (found.x >= 0 && (value > found.value || (value === found.value && through > found.through))) return;
    const tie = found.x >= 0 && value === found.value && through === found.through;
    found.ties = tie ? found.ties + 1 : 1;
    if (tie && dice.below(found.ties) !== 0) return;
    found.x = x;
    found.choice = choice;
    found.a = a;
    found.value = value;
    found.through = through;
  }

  private pair(x: number, y: number): number {
    return (x * this.graph.none + y) % this.pairUntil.length;
  }

  /** Whether x must not be put before y yet. */
  private isBarred(x: number, y: number): boolean {
    return this.pairUntil[this.pair(x, y)]! > this.step;
  }

  /** Bars the way back from a move that is about to be made. */
  private remember(x: number, choice: number, a: number): void {
    const { graph, dice } = this;
    const until = this.step + this.tenure + dice.below(this.tenure);
    if (choice !== graph.choice[x]) {
      this.machineUntil[x * graph.shop.machines + graph.machine[x]!] = until;
      return;
    }
    if (a !== graph.none && graph.place[a]! > graph.place[x]!) {
      for (let y = graph.next[x]!; ; y = graph.next[y]!) {
        this.pairUntil[this.pair(x, y)] = until;
        if (y === a) return;
      }
    }
    for (let y = graph.previous[x]!; y !== a; y = graph.previous[y]!) this.pairUntil[this.pair(y, x)] = until;
  }
}
