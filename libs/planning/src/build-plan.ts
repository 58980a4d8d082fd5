/**
 * The planner: pinned items, then the plan in force or the best of several first plans, improved by ruin and recreate, then
 * filled with what is safe already.
 */
import type { Plan, PlanProblem, UnplannedItem } from './types.js';
import { compile, type Compiled, type CompiledItem } from './compile.js';
import { bestFirstPlan, inOrder, offerAll, usualOrders } from './construct.js';
import { Diagnostician } from './diagnose.js';
import { improve } from './improve.js';
import { placeAsBefore, placeAsPinned } from './keep-plan.js';
import { PackedAnswer } from './packed-answer.js';
import { PlanState } from './plan-state.js';
import { PriceGuide } from './price-guide.js';
import { assertBudget, assertProblem } from './problem-check.js';
import type { SearchBudget } from './search/budget.js';

/**
 * How long to look. By `iterations`, rounds of improvement of 0 or more, the plan is bit-identical for equal problem and seed;
 * by `milliseconds` it is the plan of the rounds that it then reports.
 */
export type PlanBudget = SearchBudget & {
  /** Any whole number in [-2^31, 2^31). */
  seed: number;
  /** Orders of offering tried for the first plan; all of them when not given, or a few where there are thousands of items. */
  orders?: number;
  /** Told now and then how many rounds are done. */
  onProgress?: (rounds: number) => void;
};

/**
 * Builds a plan. An item that cannot be stabilised in time by any of its care routes is not planned late (unless the problem
 * says so): it is listed with the resource that stands in its way. Items already stabilised are planned after all others.
 * @throws MalformedPlanProblem when the problem or the budget is malformed; the error lists every fault.
 */
export function buildPlan(problem: PlanProblem, budget: PlanBudget): Plan {
  assertProblem(problem);
  assertBudget(budget);
  const { answer, ...told } = search(problem, budget);
  return { seed: budget.seed, iterations: told.rounds, assignments: answer.toAssignments(problem), unplanned: told.unplanned, objective: told.objective };
}

/** A function of its own, so that the compiled problem and all that the search needed are gone when the answer is written out. */
function search(problem: PlanProblem, budget: PlanBudget): { answer: PackedAnswer; rounds: number } & Pick<Plan, 'unplanned' | 'objective'> {
  const compiled = compile(problem);
  const diagnostician = new Diagnostician(compiled.resources);
  const held = new Uint8Array(compiled.items.length);
  const state = firstPlan(problem, compiled, new GivenUp(compiled, diagnostician), held, budget.orders ?? usualOrders(compiled.items.length));
  const rounds = improve(state, { seed: budget.seed, budget, held, price: (isOver) => PriceGuide.of(problem, compiled, isOver), onProgress: budget.onProgress });
  fillIn(problem, state, held);
  return { answer: new PackedAnswer(compiled, state.plan), rounds, unplanned: toUnplanned(problem, state, diagnostician), objective: [...state.objective] };
}

/** Marks in `held` what must stay where this puts it. */
function firstPlan(problem: PlanProblem, compiled: Compiled, givenUp: GivenUp, held: Uint8Array, orders: number): PlanState {
  const start = (used: PlanState | null): PlanState => {
    used?.reset();
    const state = used ?? new PlanState(compiled, givenUp.marks);
    placePinned(problem, state, held);
    return state;
  };
  if (problem.previous === undefined) {
    const state = bestFirstPlan(compiled, orders, start, held, (first) => givenUp.learn(first));
    for (const item of compiled.items) if (item.first && state.plan.has(item.index)) held[item.index] = 1;
    return state;
  }
  const state = start(null);
  repair(state, problem.previous.holdBeforeSlot, held);
  givenUp.learn(state);
  return state;
}

/**
 * Items that no plan of the problem can have in time, so that nobody looks for a place for them again and again. They are told
 * apart once a first plan stands: what has a place in it needs no proof. Where late ones are planned too, how late they are
 * counts, so only what has no route is given up.
 */
class GivenUp {
  readonly marks: Uint8Array;

  constructor(private readonly compiled: Compiled, private readonly diagnostician: Diagnostician) {
    this.marks = Uint8Array.from(compiled.items, ({ options }) => (options.length === 0 ? 1 : 0));
  }

  learn(state: PlanState): void {
    if (this.compiled.planLate) return;
    for (const item of this.compiled.items) {
      const isOpen = item.urgent && !state.plan.has(item.index) && this.marks[item.index] === 0;
      if (isOpen && this.diagnostician.isHopeless(item)) this.marks[item.index] = 1;
    }
    state.dropGivenUp();
  }
}

function placePinned(problem: PlanProblem, state: PlanState, held: Uint8Array): void {
  const byId = new Map(state.compiled.items.map((item) => [item.id, item]));
  const pinned = problem.items.filter(({ pinned: assignments }) => assignments !== undefined).map((item) => ({ item: byId.get(item.id)!, assignments: item.pinned! }));
  for (const { item, assignments } of pinned.sort((a, b) => a.item.index - b.item.index)) {
    held[item.index] = 1;
    const placement = placeAsPinned(state.timetable, state.compiled, item, assignments);
    const mayBe = placement !== null && (placement.tardiness === 0 || state.compiled.planLate);
    if (mayBe) state.put(placement);
  }
}

/**
 * Keeps the plan in force as far as it holds: first all that can stay just where it is, so that nothing that must move takes its
 * place; then what must move, what begins soonest first. What is wanted first comes after what begins too soon to be changed, and
 * before all else.
 */
function repair(state: PlanState, holdBefore: number, held: Uint8Array): void {
  const { compiled } = state;
  const known = compiled.items.filter((item) => item.previous.length > 0 && !state.plan.has(item.index) && held[item.index] === 0);
  known.sort((a, b) => a.previous[0]!.start - b.previous[0]!.start || a.index - b.index);
  const soon = known.filter((item) => item.previous[0]!.start < holdBefore);
  const later = known.filter((item) => item.urgent && item.previous[0]!.start >= holdBefore);
  const mustFollow = new Set(soon);
  keep(state, soon, held, true);
  offerFirst(state, compiled.items.filter((item) => item.first && item.urgent && !state.isGivenUp(item) && !mustFollow.has(item) && held[item.index] === 0), held);
  keep(state, later, null, true);
  keep(state, soon, held, false);
  keep(state, later, null, false);
  offerAll(state, inOrder(compiled.items.filter((item) => item.urgent && !state.isGivenUp(item) && held[item.index] === 0)));
}

/** Places items as they were, where they have no place yet; marks them in `held`, if given. */
function keep(state: PlanState, items: readonly CompiledItem[], held: Uint8Array | null, exactly: boolean): void {
  for (const item of items) {
    const placement = !state.plan.has(item.index) ? placeAsBefore(state.timetable, item, state.compiled.planLate, exactly) : null;
    if (placement === null) continue;
    state.put(placement);
    if (held !== null) held[item.index] = 1;
  }
}

function offerFirst(state: PlanState, first: readonly CompiledItem[], held: Uint8Array): void {
  offerAll(state, inOrder([...first]));
  for (const item of first) if (state.plan.has(item.index)) held[item.index] = 1;
}

/** What is safe already, where it was to be if that is still free; then, where asked for, what no plan can have in time. */
function fillIn(problem: PlanProblem, state: PlanState, held: Uint8Array): void {
  const { items, planLate } = state.compiled;
  const safe = items.filter((item) => !item.urgent && !state.plan.has(item.index) && held[item.index] === 0);
  if (problem.previous !== undefined) {
    for (const item of safe) {
      const placement = placeAsBefore(state.timetable, item, planLate);
      if (placement !== null) state.put(placement);
    }
  }
  for (const item of inOrder(safe)) if (!state.plan.has(item.index)) state.offer(item);
}

function toUnplanned(problem: PlanProblem, state: PlanState, diagnostician: Diagnostician): UnplannedItem[] {
  const pinned = new Set(problem.items.filter((item) => item.pinned !== undefined).map(({ id }) => id));
  const blockerOf = (item: CompiledItem): UnplannedItem['blockedBy'] => {
    if (pinned.has(item.id)) return { kind: 'pin', what: '' };
    const isHopeless = item.urgent && (state.isGivenUp(item) || diagnostician.isHopeless(item));
    return (isHopeless ? diagnostician.hopeless(item) : diagnostician.item(state.timetable, item)).blocker;
  };
  return state.compiled.items
    .filter((item) => !state.plan.has(item.index))
    .map((item) => ({ itemId: item.id, weight: item.weight, blockedBy: blockerOf(item) }));
}
