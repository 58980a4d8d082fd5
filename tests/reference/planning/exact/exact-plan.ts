/**
 * The best plan of a tiny incident, proved by exhaustive branch and bound over items: each is left out or done in one of all its
 * ways. A branch ends where even the best that each remaining item could still get alone is no better than the best plan known.
 * Items that are stabilised already count for nothing and are left out.
 */
import type { Plan, PlanAssignment, PlanItem, PlanProblem } from '#planning';
import { type Cost, Placements } from './placements.js';

export interface ExactPlan {
  /** Parts 0, 1 and 3 of the objective; with `parts: 1` only the first is least. */
  cost: Cost;
  assignments: PlanAssignment[];
  /** False when the search had to stop at the limit. */
  proved: boolean;
  nodes: number;
}

export interface ExactLimits {
  /** 1: only the weight late. 3: then tardiness and completion too. */
  parts: 1 | 3;
  /** Ways to do an item that may be looked at. */
  mostNodes: number;
}

/** Searches until the optimum is proved or the limit reached. */
export function exactPlan(problem: PlanProblem, limits: ExactLimits): ExactPlan {
  return new ExactSearch(problem, limits).run();
}

class ExactSearch {
  private readonly placements: Placements;
  private readonly items: PlanItem[];
  private readonly seen = new Map<string, Cost>();
  private best: Cost;
  private bestAssignments: PlanAssignment[] = [];
  private nodes = 0;

  constructor(problem: PlanProblem, private readonly limits: ExactLimits) {
    this.placements = new Placements(problem);
    this.items = problem.items.filter(({ stabilised }) => !stabilised).sort((a, b) => b.weight - a.weight);
    this.best = this.items.reduce<Cost>((sum, item) => plus(sum, this.placements.leftOut(item)), [0, 0, 0]);
  }

  run(): ExactPlan {
    this.from(0, [0, 0, 0], []);
    return { cost: this.best, assignments: this.bestAssignments, proved: this.nodes < this.limits.mostNodes, nodes: this.nodes };
  }

  /** True when the search has to stop. */
  private from(index: number, cost: Cost, done: readonly PlanAssignment[]): boolean {
    if (this.nodes >= this.limits.mostNodes) return true;
    if (index === this.items.length) {
      if (this.less(cost, this.best)) { this.best = cost; this.bestAssignments = [...done]; }
      return false;
    }
    const state = `${index}|${this.placements.state}`;
    const before = this.seen.get(state);
    if (before !== undefined && !this.less(cost, before)) return false;
    this.seen.set(state, cost);
    // What the others could get at best is the same for every way of this one only before it is placed.
    if (!this.promising(cost, index)) return false;
    const item = this.items[index]!;
    const rest = this.restOf(index + 1);
    const worth = (own: Cost): boolean => this.less(plus(plus(cost, own), rest), this.best);
    const stopped = this.placements.visit(item, worth, (own, assignments) => {
      this.nodes += 1;
      return worth(own) && this.from(index + 1, plus(cost, own), [...done, ...assignments]);
    });
    return stopped || this.from(index + 1, plus(cost, this.placements.leftOut(item)), done);
  }

  private promising(cost: Cost, index: number): boolean {
    return this.less(plus(cost, this.restOf(index)), this.best);
  }

  /** The least that the items from `index` on add, each as if it were the next and last. */
  private restOf(index: number): Cost {
    return this.items.slice(index).reduce<Cost>((sum, item) => plus(sum, this.alone(item)), [0, 0, 0]);
  }

  private alone(item: PlanItem): Cost {
    let least = this.placements.leftOut(item);
    this.placements.visit(item, (own) => this.less(own, least), (own) => {
      this.nodes += 1;
      if (this.less(own, least)) least = own;
      return this.limits.parts === 1 && least[0] === 0;
    });
    return least;
  }

  private less(a: Cost, b: Cost): boolean {
    for (let part = 0; part < this.limits.parts; part += 1) if (a[part] !== b[part]) return a[part]! < b[part]!;
    return false;
  }
}

function plus(a: Cost, b: Cost): Cost {
  return [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
}

/** The exact plan in the form that the validator reads; what it leaves out is listed without looking for a reason. */
export function asPlan(problem: PlanProblem, { cost, assignments }: ExactPlan): Plan {
  const planned = new Set(assignments.map(({ itemId }) => itemId));
  const out = problem.items.filter(({ id }) => !planned.has(id));
  return {
    seed: 0, iterations: 0, assignments, objective: [cost[0], cost[1], 0, cost[2]],
    unplanned: out.map(({ id, weight, pinned }) => ({ itemId: id, weight, blockedBy: { kind: pinned === undefined ? 'time' : 'pin', what: '' } })),
  };
}
