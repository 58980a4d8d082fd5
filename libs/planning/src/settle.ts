/** What is left to do after a search by prices, which has things wait for hours that are cheaper. */
import type { CompiledItem } from './compile.js';
import { inOrder } from './construct.js';
import { findForOption, type Placement } from './place-item.js';
import { compareObjectives, type PlanState } from './plan-state.js';

/** What waits for nothing any more is brought forward, what begins soonest first; what fits in then has its place too. Never makes the objective worse. */
export function settle(state: PlanState, items: readonly CompiledItem[]): void {
  const placed = items.flatMap((item) => (state.plan.has(item.index) ? [{ item, start: state.plan.get(item.index)!.steps[0]!.start }] : []));
  placed.sort((a, b) => a.start - b.start || a.item.index - b.item.index);
  for (const { item } of placed) bringForward(state, item);
  for (const item of inOrder(items.filter((one) => !state.plan.has(one.index)))) state.offer(item);
}

/** On the route that it has. */
function bringForward(state: PlanState, item: CompiledItem): void {
  const before = state.objective;
  const present = state.remove(item.index);
  const sooner = findForOption(state.timetable, item, present.option, present.tardiness === 0);
  if (sooner !== null) {
    state.put(sooner);
    // What follows the moment at which it is safe counts in no objective, but nobody should wait for that either.
    const order = compareObjectives(state.objective, before) || startsOf(sooner) - startsOf(present);
    if (order < 0) return;
    state.remove(item.index);
  }
  state.put(present);
}

function startsOf({ steps }: Placement): number {
  return steps.reduce((sum, { start }) => sum + start, 0);
}
