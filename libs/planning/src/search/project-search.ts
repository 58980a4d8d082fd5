/**
 * Search for short plans of a project by two populations that feed each other: the children of plans built from the
 * left are built from the right, and the other way round, so that each pass is a justification and a new generation
 * at once. After D. Debels and M. Vanhoucke, "A bi-population based genetic algorithm for the resource-constrained
 * project scheduling problem", ICCSA 2005, LNCS 3483, and, for several modes, V. Van Peteghem and M. Vanhoucke, "A
 * genetic algorithm for the preemptive and non-preemptive multi-mode resource-constrained project scheduling
 * problem", European Journal of Operational Research 201, 2010 (both from memory). Sizes and chances are our own
 * calibration on PSPLIB.
 */
import { Rounds, type SearchBudget } from './budget.js';
import { Dice } from './dice.js';
import { type CompiledProject, criticalPath, latestFinishes, shortestModes } from './project.js';
import { SerialScheduler } from './serial-schedule.js';
import { StockBalance } from './stock-balance.js';

/** Plans on each side: many activities, fewer, several modes. */
const SIZES = { large: 40, small: 22, modes: 15 };
const [SMALL, LARGE] = [50, 100];
/** Largest shift of a first plan's latest finishes, in critical paths. */
const SHIFT = 0.15;
/** Chance in 100 of one exchange of priorities, less the number of activities: large projects need none. */
const MUTATION = 70;
/** Chance in 100 that an activity may change its mode while it is placed. */
const MODE_CHOICE = 30;

/** The shortest plan found. */
export interface ProjectPlan {
  start: Int32Array;
  /** Mode by activity, as numbered through in `CompiledProject`. */
  modes: Int32Array;
  makespan: number;
  /** What the modes use beyond the stocks; above 0 no plan within them was found. */
  excess: number;
  /** Passes made: each gives every activity a start once. */
  rounds: number;
}

interface Member {
  /** Time from the side that the next pass builds from: what is smaller is placed first. */
  key: Int32Array;
  modes: Int32Array;
  value: number;
}

/**
 * Looks for a plan of small makespan. A round of the budget is one pass, counted as the literature counts schedules:
 * every activity gets a start once. Ends early when the makespan is the critical path, which nothing can beat.
 * @param enough a makespan at which to end, when a better bound than the critical path is known
 */
export function searchProject(project: CompiledProject, seed: number, budget: SearchBudget, enough = 0): ProjectPlan {
  return new BiPopulation(project, seed, new Rounds(budget, 1), enough).run();
}

class BiPopulation {
  private readonly scheduler: SerialScheduler;
  private readonly balance: StockBalance;
  private readonly dice: Dice;
  private readonly key: Int32Array;
  private readonly free: Uint8Array | null;
  private readonly small: boolean;
  private readonly critical: number;
  private readonly floor: number;
  private best: ProjectPlan;
  private bestValue = Number.POSITIVE_INFINITY;

  constructor(private readonly project: CompiledProject, seed: number, private readonly rounds: Rounds, enough: number) {
    const { count } = project;
    this.scheduler = new SerialScheduler(project);
    this.balance = new StockBalance(project);
    this.dice = new Dice(seed);
    this.key = new Int32Array(count);
    this.free = project.duration.length > count ? new Uint8Array(count) : null;
    this.small = count < SMALL;
    const modes = shortestModes(project);
    this.critical = criticalPath(project, modes);
    this.floor = Math.max(enough, this.critical);
    this.best = { start: new Int32Array(count), modes, makespan: Number.POSITIVE_INFINITY, excess: 0, rounds: 0 };
  }

  run(): ProjectPlan {
    this.evolve();
    return { ...this.best, rounds: this.rounds.spent };
  }

  private evolve(): void {
    let from = this.firstPlans();
    let to: Member[] = [];
    for (let side = 1; ; side = 1 - side) {
      for (let i = 0; i < from.length; i += 1) {
        if (!this.next()) return;
        const child = this.build(side, this.cross(from[i]!, this.tournament(from)));
        // A worse child takes the place too: without that the two populations soon hold one plan many times.
        if (to[i] === undefined || child.value <= to[i]!.value || to[i] !== bestOf(to)) to[i] = child;
      }
      [from, to] = [to, from];
    }
  }

  /** Whether a round is left and there is something left to win. */
  private next(): boolean {
    return (this.best.makespan > this.floor || this.best.excess > 0) && this.rounds.next();
  }

  /** Plans by latest finish with a random shift, the first one without. */
  private firstPlans(): Member[] {
    const { project, key, dice } = this;
    const shortest = shortestModes(project);
    const late = latestFinishes(project, shortest);
    const plans: Member[] = [];
    for (const size = this.size(); plans.length < size && this.next();) {
      const shift = plans.length === 0 ? 0 : SHIFT * this.critical;
      for (let j = 0; j < project.count; j += 1) key[j] = Math.round(100 * (late[j]! + shift * (dice.unit() + dice.unit() - 1)));
      const modes = this.free === null ? shortest : shortest.map((mode, j) => (dice.below(2) === 0 ? mode : this.anyMode(j)));
      plans.push(this.build(0, modes));
    }
    return plans;
  }

  private size(): number {
    if (this.free !== null) return SIZES.modes;
    return this.project.count < LARGE ? SIZES.small : SIZES.large;
  }

  private anyMode(j: number): number {
    const { firstMode } = this.project;
    return this.dice.between(firstMode[j]!, firstMode[j + 1]! - 1);
  }

  /** The better of two random plans. */
  private tournament(from: readonly Member[]): Member {
    const a = from[this.dice.below(from.length)]!;
    const b = from[this.dice.below(from.length)]!;
    return a.value <= b.value ? a : b;
  }

  /**
   * Writes the child's priorities to `key` and answers its modes: the father's order, but the activities of one
   * window of its time in the mother's order and modes.
   */
  private cross(father: Member, mother: Member): Int32Array {
    const { project, key, dice } = this;
    const span = Math.max(...father.key) + 1;
    const length = Math.floor(span * (0.25 + dice.unit() * 0.5));
    const from = dice.below(span - length + 1);
    const apart = 2 * project.horizon;
    const modes = this.free === null ? father.modes : father.modes.slice();
    let differing = 0;
    for (let j = 0; j < project.count; j += 1) {
      const [own, other] = [father.key[j]!, mother.key[j]!];
      if (own !== other) differing += 1;
      const inside = own >= from && own <= from + length;
      key[j] = inside ? other : own < from ? own - apart : own + apart;
      if (inside) modes[j] = mother.modes[j]!;
    }
    this.mutate(modes, differing);
    return modes;
  }

  /** Exchanges priorities at random, many when the parents are nearly the same; draws some modes anew. */
  private mutate(modes: Int32Array, differing: number): void {
    const { key, dice } = this;
    const { count } = this.project;
    const alike = differing < count * (this.small ? 0.3 : 0.2);
    const exchanges = alike ? Math.max(2, Math.floor(count / 10)) : dice.below(100) < MUTATION - count ? 1 : 0;
    for (let i = 0; i < exchanges; i += 1) {
      const [a, b] = [dice.below(count), dice.below(count)];
      [key[a], key[b]] = [key[b]!, key[a]!];
    }
    if (this.free === null) return;
    const draws = alike ? 4 : dice.below(5) === 0 ? 1 : 0;
    for (let i = 0; i < draws; i += 1) {
      const j = dice.below(count);
      modes[j] = this.anyMode(j);
    }
    this.balance.repair(modes, dice);
  }

  /** One pass with the priorities in `key`; keeps the plan when it is the best so far. */
  private build(side: number, modes: Int32Array): Member {
    const { scheduler, project, free, dice } = this;
    if (free !== null) for (let j = 0; j < project.count; j += 1) free[j] = dice.below(100) < MODE_CHOICE ? 1 : 0;
    const makespan = side === 0 ? scheduler.forward(this.key, modes, free) : scheduler.backward(this.key, modes, free);
    const first = side === 0 ? 0 : project.horizon - makespan;
    const key = side === 0 ? scheduler.finish.map((finish) => makespan - finish) : scheduler.start.map((start) => start - first);
    this.balance.load(modes);
    const excess = free === null ? 0 : this.balance.excess();
    const value = makespan + excess * project.horizon;
    if (value < this.bestValue) {
      this.bestValue = value;
      this.best = { start: scheduler.start.map((start) => start - first), modes: modes.slice(), makespan, excess, rounds: 0 };
    }
    return { key, modes, value };
  }
}

function bestOf(members: readonly Member[]): Member {
  return members.reduce((best, member) => (member.value < best.value ? member : best));
}
