/** A project: activities with precedences, each in one of its modes, over resources of limited capacity. */

/** One way to carry out an activity. */
export interface ActivityMode {
  /** Slots, 0 or more, without interruption. */
  duration: number;
  /** Amount held of each renewable resource throughout. */
  demand: readonly number[];
  /** Amount used up of each stock (non-renewable resource). */
  stock: readonly number[];
}

/** Precedence means: a successor starts at or after the end. */
export interface Project {
  /** Capacity by renewable resource, constant over time. */
  capacity: readonly number[];
  /** What there is of each stock. */
  stock: readonly number[];
  /** Modes of each activity, at least one. */
  modes: readonly (readonly ActivityMode[])[];
  /** Successors of each activity; there is no circle. */
  successors: readonly (readonly number[])[];
}

/** The same as typed arrays; modes are numbered through, those of activity j from `firstMode[j]` to `firstMode[j + 1]`. */
export interface CompiledProject {
  count: number;
  resources: number;
  stocks: number;
  capacity: Int32Array;
  stock: Int32Array;
  firstMode: Int32Array;
  /** Place of each mode in its activity's list; modes that never fit are left out. */
  givenMode: Int32Array;
  duration: Int32Array;
  demand: Int32Array;
  stockUse: Int32Array;
  successors: readonly Int32Array[];
  predecessors: readonly Int32Array[];
  /** Every activity after all its predecessors. */
  order: Int32Array;
  /** Slots that are enough for any plan. */
  horizon: number;
}

/** @throws RangeError when an activity has no mode that fits by itself, or the precedences have a circle. */
export function compileProject(project: Project): CompiledProject {
  const count = project.modes.length;
  const firstMode = new Int32Array(count + 1);
  const usable = project.modes.map((modes) => modes.map((mode, given) => ({ ...mode, given })).filter((mode) => fits(mode, project)));
  usable.forEach((modes, j) => {
    if (modes.length === 0) throw new RangeError(`Activity ${j} has no mode that fits the capacities.`);
    firstMode[j + 1] = firstMode[j]! + modes.length;
  });
  const all = usable.flat();
  const predecessors: number[][] = Array.from({ length: count }, () => []);
  project.successors.forEach((list, j) => { for (const next of list) predecessors[next]!.push(j); });
  const successors = project.successors.map((list) => Int32Array.from(list));
  return {
    count, resources: project.capacity.length, stocks: project.stock.length,
    capacity: Int32Array.from(project.capacity), stock: Int32Array.from(project.stock),
    firstMode, givenMode: Int32Array.from(all, ({ given }) => given), duration: Int32Array.from(all, ({ duration }) => duration),
    demand: Int32Array.from(all.flatMap(({ demand }) => [...demand])), stockUse: Int32Array.from(all.flatMap(({ stock }) => [...stock])),
    successors, predecessors: predecessors.map((list) => Int32Array.from(list)),
    order: inOrder(successors, predecessors.map((list) => list.length)),
    horizon: usable.reduce((sum, modes) => sum + Math.max(...modes.map(({ duration }) => duration)), 0),
  };
}

function fits(mode: ActivityMode, { capacity, stock }: Project): boolean {
  return mode.demand.every((amount, r) => amount <= capacity[r]!) && mode.stock.every((amount, s) => amount <= stock[s]!);
}

function inOrder(successors: readonly Int32Array[], waiting: number[]): Int32Array {
  const order: number[] = [];
  waiting.forEach((count, j) => { if (count === 0) order.push(j); });
  for (let at = 0; at < order.length; at += 1) {
    for (const next of successors[order[at]!]!) if ((waiting[next]! -= 1) === 0) order.push(next);
  }
  if (order.length < waiting.length) throw new RangeError('The precedences have a circle.');
  return Int32Array.from(order);
}

/** Latest finish by activity that keeps the critical path of these durations, without resources. */
export function latestFinishes(project: CompiledProject, modes: Int32Array): Int32Array {
  const late = new Int32Array(project.count).fill(criticalPath(project, modes));
  for (let at = project.count - 1; at >= 0; at -= 1) {
    const j = project.order[at]!;
    for (const next of project.successors[j]!) late[j] = Math.min(late[j]!, late[next]! - project.duration[modes[next]!]!);
  }
  return late;
}

/** Length of the longest chain of activities with these modes: no plan with them is shorter. */
export function criticalPath(project: CompiledProject, modes: Int32Array): number {
  const finish = new Int32Array(project.count);
  let longest = 0;
  for (const j of project.order) {
    let start = 0;
    for (const before of project.predecessors[j]!) start = Math.max(start, finish[before]!);
    finish[j] = start + project.duration[modes[j]!]!;
    longest = Math.max(longest, finish[j]!);
  }
  return longest;
}

/** The mode of least duration of each activity, numbered through. */
export function shortestModes(project: CompiledProject): Int32Array {
  return Int32Array.from({ length: project.count }, (_, j) => {
    let best = project.firstMode[j]!;
    for (let mode = best + 1; mode < project.firstMode[j + 1]!; mode += 1) if (project.duration[mode]! < project.duration[best]!) best = mode;
    return best;
  });
}
