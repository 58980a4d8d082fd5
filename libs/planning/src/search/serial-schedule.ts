/**
 * Serial schedule generation: one activity after the other, each at its earliest (or latest) place. R. Kolisch,
 * "Serial and parallel resource-constrained project scheduling methods revisited", European Journal of Operational
 * Research 90, 1996 (from memory). A backward pass by decreasing finish and then a forward pass by increasing start
 * is the double justification of V. Valls, F. Ballestin and S. Quintanilla, "Justification and RCPSP: a technique
 * that pays", European Journal of Operational Research 165, 2005 (from memory): it never lengthens a plan.
 */
import type { CompiledProject } from './project.js';
import { StockBalance } from './stock-balance.js';
import { SlotProfile } from './slot-profile.js';

/** Makes plans of one project; its arrays are overwritten by every pass. */
export class SerialScheduler {
  readonly start: Int32Array;
  readonly finish: Int32Array;
  /** Passes made so far; each gives every activity a start once. */
  passes = 0;
  private readonly profile: SlotProfile;
  private readonly waiting: Int32Array;
  private readonly eligible: Int32Array;
  private readonly balance: StockBalance;

  constructor(private readonly project: CompiledProject) {
    this.profile = new SlotProfile(project.resources, project.horizon, project.capacity);
    this.start = new Int32Array(project.count);
    this.finish = new Int32Array(project.count);
    this.waiting = new Int32Array(project.count);
    this.eligible = new Int32Array(project.count);
    this.balance = new StockBalance(project);
  }

  /**
   * Places by increasing key as early as possible; answers the makespan. Equal keys: the lower activity first.
   * @param free activities that may change into a mode with an earlier end when no stock suffers; `modes` is changed
   */
  forward(key: ArrayLike<number>, modes: Int32Array, free: Uint8Array | null = null): number {
    const { project, profile, finish } = this;
    let makespan = 0;
    if (free !== null) this.balance.load(modes);
    this.pass(project.predecessors, project.successors, key, (j) => {
      let from = 0;
      for (const before of project.predecessors[j]!) if (finish[before]! > from) from = finish[before]!;
      if (free !== null && free[j] === 1) modes[j] = this.earliestMode(j, modes[j]!, from);
      const mode = modes[j]!;
      const end = profile.earliest(project.demand, mode * project.resources, project.duration[mode]!, from) + project.duration[mode]!;
      this.put(j, mode, end);
      if (end > makespan) makespan = end;
    });
    return makespan;
  }

  /** Places by increasing key as late as possible before the end of the horizon; answers the makespan. */
  backward(key: ArrayLike<number>, modes: Int32Array, free: Uint8Array | null = null): number {
    const { project, profile, start } = this;
    let first = project.horizon;
    if (free !== null) this.balance.load(modes);
    this.pass(project.successors, project.predecessors, key, (j) => {
      let until = project.horizon;
      for (const next of project.successors[j]!) if (start[next]! < until) until = start[next]!;
      if (free !== null && free[j] === 1) modes[j] = this.latestMode(j, modes[j]!, until);
      const mode = modes[j]!;
      const at = profile.latest(project.demand, mode * project.resources, project.duration[mode]!, until);
      this.put(j, mode, at + project.duration[mode]!);
      if (at < first) first = at;
    });
    return project.horizon - first;
  }

  private put(j: number, mode: number, end: number): void {
    const { project } = this;
    this.start[j] = end - project.duration[mode]!;
    this.finish[j] = end;
    this.profile.take(project.demand, mode * project.resources, this.start[j]!, end);
  }

  /** The mode that ends first from `from` on without more excess; the given one when there is none better. */
  private earliestMode(j: number, given: number, from: number): number {
    const { project, profile } = this;
    return this.bestMode(j, given, (mode) => -(profile.earliest(project.demand, mode * project.resources, project.duration[mode]!, from) + project.duration[mode]!));
  }

  /** The mode that starts last before `until`. */
  private latestMode(j: number, given: number, until: number): number {
    const { project, profile } = this;
    return this.bestMode(j, given, (mode) => profile.latest(project.demand, mode * project.resources, project.duration[mode]!, until));
  }

  private bestMode(j: number, given: number, worth: (mode: number) => number): number {
    const { balance, project } = this;
    let best = given;
    let most = worth(given);
    for (let mode = project.firstMode[j]!; mode < project.firstMode[j + 1]!; mode += 1) {
      if (mode === given || balance.excessAfter(given, mode) > balance.excess()) continue;
      const value = worth(mode);
      if (value > most) [best, most] = [mode, value];
    }
    if (best !== given) balance.change(given, best);
    return best;
  }

  private pass(before: readonly Int32Array[], after: readonly Int32Array[], key: ArrayLike<number>, place: (activity: number) => void): void {
    const { waiting, eligible } = this;
    const { count } = this.project;
    this.passes += 1;
    this.profile.clear();
    let ready = 0;
    for (let j = 0; j < count; j += 1) if ((waiting[j] = before[j]!.length) === 0) eligible[ready++] = j;
    while (ready > 0) {
      let best = 0;
      for (let i = 1; i < ready; i += 1) {
        const ahead = key[eligible[i]!]! - key[eligible[best]!]!;
        if (ahead < 0 || (ahead === 0 && eligible[i]! < eligible[best]!)) best = i;
      }
      const next = eligible[best]!;
      eligible[best] = eligible[--ready]!;
      place(next);
      for (const follower of after[next]!) if ((waiting[follower]! -= 1) === 0) eligible[ready++] = follower;
    }
  }
}
