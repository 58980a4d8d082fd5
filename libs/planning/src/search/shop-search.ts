/**
 * Search for a good plan of a shop: tabu search from several random plans, then from plans between two good ones.
 * After the idea of B. Peng, Z. Lu and T. C. E. Cheng, "A tabu search/path relinking algorithm to solve the job shop
 * scheduling problem", Computers & Operations Research 53, 2015, and M. A. Gonzalez, C. R. Vela and R. Varela, "Scatter
 * search with path relinking for the flexible job shop scheduling problem", European Journal of Operational Research
 * 245, 2015 (both from memory). The numbers are our own calibration.
 */
import { Rounds, type SearchBudget } from './budget.js';
import { Dice } from './dice.js';
import type { CompiledShop } from './shop.js';
import { differences, planBetween, randomPlan, type ShopOrder } from './shop-breeding.js';
import { type KeptPlan, ShopGraph } from './shop-graph.js';
import { TabuSearch } from './shop-tabu.js';

/** The best plan found. */
export interface ShopPlan {
  /** Start and machine of each operation, those of a job one after the other. */
  start: Int32Array;
  machine: Int32Array;
  /** Weighted tardiness or makespan. */
  value: number;
  /** Steps spent, each a move of one operation. */
  rounds: number;
}

/** Steps without a better plan after which a tabu search ends: with several goals, and with one. */
const PATIENCE = { goals: 700, oneGoal: 1_000 };
/** The same under bent weights, and the least part of a weight that is left; the most is as far above 1. */
const BENT_PATIENCE = 200;
const LEAST_BEND = 0.2;
const MEMBERS = 10;
/** Two plans with fewer differences than this part of the number of operations count as one. */
const ALIKE = 0.1;
/** Children in a row that found no place among the members, after which all begins anew. */
const STALE = 30;
/** Above this many operations a step takes long enough to look at the clock more often. */
const MANY = 500;

/**
 * Looks for a plan of small value; whatever the budget, the plan is complete and keeps all rules.
 * @param enough the search ends when it has reached this value, as it does at the shop's own bound
 */
export function searchShop(shop: CompiledShop, seed: number, budget: SearchBudget, enough = 0): ShopPlan {
  return new ShopSearch(shop, seed, new Rounds(budget, shop.count > MANY ? 8 : undefined), enough).run();
}

class ShopSearch {
  private readonly dice: Dice;
  private readonly graph: ShopGraph;
  private readonly tabu: TabuSearch;
  private readonly enough: number;
  private best: KeptPlan;
  /** The budget ended under bent weights: a longer search may never meet this plan, and must not be the worse for it. */
  private cutShort = false;

  constructor(private readonly shop: CompiledShop, seed: number, private readonly rounds: Rounds, enough: number) {
    this.dice = new Dice(seed);
    this.graph = new ShopGraph(shop);
    this.tabu = new TabuSearch(this.graph, this.dice);
    this.enough = Math.max(enough, shop.bound);
    this.load(randomPlan(shop, this.dice));
    this.best = this.graph.keep();
  }

  run(): ShopPlan {
    const { graph, best: first } = this;
    for (let plan: ShopOrder = first; this.goesOn(); plan = randomPlan(this.shop, this.dice)) this.evolve(plan);
    this.load(this.best);
    return {
      start: graph.duration.map((duration, x) => graph.end[x]! - duration), machine: graph.machine.slice(),
      value: this.best.value, rounds: this.rounds.spent,
    };
  }

  private goesOn(): boolean {
    return this.best.value > this.enough && !this.tabu.outOfBudget;
  }

  /** Fills the members with improved random plans and mates them until no child finds a place any more. */
  private evolve(first: ShopOrder): void {
    const { shop, dice } = this;
    const members = [this.improved(first)];
    while (members.length < MEMBERS && this.goesOn()) members.push(this.improved(randomPlan(shop, dice)));
    for (let stale = 0; stale < STALE && this.goesOn(); stale += 1) {
      const father = dice.below(MEMBERS);
      const mother = (father + 1 + dice.below(MEMBERS - 1)) % MEMBERS;
      if (this.enter(members, this.improved(planBetween(members[father]!, members[mother]!, dice)))) stale = 0;
    }
  }

  private improved(from: ShopOrder): KeptPlan {
    const { rounds, tabu, shop } = this;
    this.load(from);
    if (shop.goals > 1) this.bend();
    const plan = tabu.run(shop.goals > 1 ? PATIENCE.goals : PATIENCE.oneGoal, rounds, this.enough);
    if (plan.value < this.best.value && !this.cutShort) this.best = plan;
    return plan;
  }

  /**
   * A short search under weights drawn anew, which lets other jobs be late than those that the true weights would
   * pick at once. Disturbed data as a way out of deep valleys: R. H. Storer, S. D. Wu and R. Vaccari, "New search
   * spaces for sequencing problems with application to job shop scheduling", Management Science 38, 1992 (from memory).
   */
  private bend(): void {
    const { graph, shop, dice } = this;
    for (let goal = 0; goal < shop.goals; goal += 1) graph.weight[goal] = shop.weight[goal]! * (LEAST_BEND + 2 * (1 - LEAST_BEND) * dice.unit());
    graph.count();
    const bent = this.tabu.run(BENT_PATIENCE, this.rounds, 0);
    graph.weight.set(shop.weight);
    this.cutShort = this.tabu.outOfBudget;
    this.load(bent);
  }

  /** A child takes the place of the member it is like, or else of the worst one, when it is better. */
  private enter(members: KeptPlan[], child: KeptPlan): boolean {
    let replaced = members.findIndex((member) => differences(this.shop, member, child) < ALIKE * this.shop.count);
    if (replaced < 0) replaced = members.reduce((worst, { value }, i) => (value > members[worst]!.value ? i : worst), 0);
    if (child.value >= members[replaced]!.value) return false;
    members[replaced] = child;
    return true;
  }

  private load({ order, choice }: ShopOrder): void {
    this.graph.load(order, choice);
  }
}
