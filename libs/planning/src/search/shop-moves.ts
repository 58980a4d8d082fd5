/**
 * What a plan would be worth with one operation put elsewhere, on its machine or on another. With the operation taken
 * out, heads and tails of the rest are measured once; every place it could go back to is then valued exactly, because
 * a longest path either avoids the operation or is its head, its duration and its tail. After the idea of M.
 * Mastrolilli and L. M. Gambardella, "Effective neighbourhood functions for the flexible job shop problem", Journal of
 * Scheduling 3, 2000; insertions within a machine are those of E. Balas and A. Vazacopoulos, "Guided local search with
 * shifting bottleneck for job shop scheduling", Management Science 44, 1998 (both from memory).
 */
import type { ShopGraph } from './shop-graph.js';

/** Looked up once: in a test runner's sandbox each look-up of a global costs more than a step's arithmetic. */
const { max } = Math;

export class ShopMoves {
  /** What the plan is worth after the move that was weighed last; and its part from the paths through the operation. */
  value = 0;
  through = 0;
  /** Ends and spans as in the graph, without the operation that is out; its own are those of a gap of no length. */
  private readonly end: Int32Array;
  private readonly span: Int32Array;
  private readonly goalEnd: Int32Array;
  private x = 0;

  constructor(private readonly graph: ShopGraph) {
    this.end = new Int32Array(graph.end.length);
    this.span = new Int32Array(graph.span.length);
    this.goalEnd = new Int32Array(graph.goalEnd.length);
  }

  /** Takes an operation out; `putBack` has to follow before another. */
  takeOut(x: number): void {
    const { graph } = this;
    this.x = x;
    graph.unlink(x);
    this.measureEnds();
    this.measureSpans(this.firstPlace());
  }

  putBack(): void {
    const { graph, x } = this;
    graph.link(x, graph.choice[x]!, graph.previous[x]!);
  }

  /** Whether the operation may stand after `a`: `a` does not wait for the job's next operation. Sufficient, and nearly always necessary. */
  mayFollow(a: number): boolean {
    const { graph, end } = this;
    const after = graph.shop.after[this.x]!;
    return a === graph.none || graph.place[a]! < graph.place[after]! || (a !== after && end[a]! - graph.duration[a]! < end[after]!);
  }

  /** Whether the operation may stand before `b`: the job's operation before does not wait for `b`. */
  mayPrecede(b: number): boolean {
    const { graph, end } = this;
    const before = graph.shop.before[this.x]!;
    return b === graph.none || graph.place[b]! > graph.place[before]! || (b !== before && end[b]! > end[before]! - graph.duration[before]!);
  }

  /** Weighs the place between `a` and `b`, either of which may be none, for a duration there. */
  weigh(duration: number, a: number, b: number): void {
    const { end, span, goalEnd, graph, x } = this;
    const { goals, due } = graph.shop;
    const { weight } = graph;
    const done = max(end[x]!, end[a]!) + duration;
    const [own, other] = [x * goals, b * goals];
    let value = 0;
    let through = 0;
    for (let goal = 0; goal < goals; goal += 1) {
      const path = done + max(span[own + goal]!, span[other + goal]!) - due[goal]!;
      const late = max(path, goalEnd[goal]! - due[goal]!);
      if (late > 0) value += weight[goal]! * late;
      if (path > 0) through += weight[goal]! * path;
    }
    this.value = value;
    this.through = through;
  }

  private measureEnds(): void {
    const { graph, end, goalEnd, x } = this;
    const { shop, order, previous, duration, none } = graph;
    const { release, before, last, goalOf } = shop;
    end.set(graph.end);
    const from = graph.place[x]!;
    end[x] = max(release[x]!, end[before[x]!]!);
    for (let i = from + 1; i < none; i += 1) {
      const y = order[i]!;
      end[y] = max(release[y]!, end[before[y]!]!, end[previous[y]!]!) + duration[y]!;
    }
    goalEnd.fill(0);
    for (let j = 0; j < last.length; j += 1) {
      const goal = goalOf[j]!;
      const done = end[last[j]!]!;
      if (done > goalEnd[goal]!) goalEnd[goal] = done;
    }
  }

  /** Place in the order from which on spans are needed: that of the first operation before which this one may stand. */
  private firstPlace(): number {
    const { graph, x } = this;
    const { shop, place, previous, next, firstOn, none } = graph;
    let least = place[x]!;
    for (let choice = shop.firstChoice[x]!; choice < shop.firstChoice[x + 1]!; choice += 1) {
      let b: number;
      if (choice === graph.choice[x]) {
        b = next[x]!;
        for (let y = previous[x]!; y !== none && this.mayPrecede(y); y = previous[y]!) b = y;
      } else {
        b = firstOn[shop.choiceMachine[choice]!]!;
        while (b !== none && !this.mayPrecede(b)) b = next[b]!;
      }
      if (b !== none && place[b]! < least) least = place[b]!;
    }
    return least;
  }

  private measureSpans(least: number): void {
    const { graph, span, x } = this;
    const { shop, order, next, duration } = graph;
    const { goals, after } = shop;
    span.set(graph.span);
    span.copyWithin(x * goals, after[x]! * goals, (after[x]! + 1) * goals);
    for (let i = graph.place[x]! - 1; i >= least; i -= 1) {
      const y = order[i]!;
      const [row, one, other, p] = [y * goals, after[y]! * goals, next[y]! * goals, duration[y]!];
      for (let goal = 0; goal < goals; goal += 1) span[row + goal] = p + max(span[one + goal]!, span[other + goal]!);
    }
  }
}
