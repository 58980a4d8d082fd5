/**
 * A plan that is worked off: time moves on, what has begun becomes a fixed use, what is done drops out of the routes, and the rest
 * is a planning problem again, with its slots counted from now and the plan in force to keep to. For problems like generated ones:
 * no services, no step that is tied to a slot, each kind of step once in a route.
 */
import type { StepKind } from '#care';
import type { FixedUse, Interval, Plan, PlanAssignment, PlanItem, PlanOption, PlanProblem, PlanStep, PreviousStep } from '#planning';

/** Steps that begin within so many minutes stay as they are. */
const HOLD_MINUTES = 60;

/** Work at a moment. */
export interface WorkState {
  /** What is still to be planned; its slot 0 is now. */
  problem: PlanProblem;
  /** Slots from the start of the work to now. */
  passedSlots: number;
  /** What is left of the plan in force, in slots and routes of `problem`. */
  plan: readonly PlanAssignment[];
  /** The rooms with all their machines running, and how many of each have failed. */
  dryRooms: PlanProblem['rooms'];
  failedMachines: Readonly<Record<string, number>>;
}

/** Before anything has begun. */
export function startWork(problem: PlanProblem): WorkState {
  return { problem, passedSlots: 0, plan: [], dryRooms: problem.rooms, failedMachines: {} };
}

/** From now on people work to this plan, which is one of `state.problem`. */
export function adoptPlan(state: WorkState, plan: Pick<Plan, 'assignments'>): WorkState {
  return { ...state, plan: plan.assignments };
}

/** The same work some slots later, one slot before the horizon at most; 0 slots only notes the plan in force. */
export function workOff(state: WorkState, slots: number): WorkState {
  const { problem } = state;
  const passed = Math.max(0, Math.min(slots, problem.horizonSlots - 1));
  const byItem = new Map<string, PlanAssignment[]>();
  for (const assignment of state.plan) byItem.set(assignment.itemId, [...(byItem.get(assignment.itemId) ?? []), assignment]);
  const begunBatches = new Set<string>();
  const after = problem.items.map((item) => itemAfter(item, (byItem.get(item.id) ?? []).sort((a, b) => a.position - b.position), passed, problem.horizonSlots, begunBatches));
  const items = after.flatMap(({ item }) => (item ? [item] : []));
  const plan = after.flatMap(({ item, ahead }) => (item ? ahead : [])).sort((a, b) => a.startSlot - b.startSlot);
  const rooms = later(problem.rooms, 'removalGPerSlot', passed);
  return {
    passedSlots: state.passedSlots + passed, plan, failedMachines: state.failedMachines, dryRooms: later(state.dryRooms, 'removalGPerSlot', passed),
    problem: {
      ...problem, originMs: problem.originMs + passed * problem.slotMinutes * 60_000, horizonSlots: problem.horizonSlots - passed, items, rooms,
      stations: later(problem.stations, 'open', passed), people: later(problem.people, 'shifts', passed), places: later(problem.places, 'open', passed), freezers: later(problem.freezers, 'open', passed),
      fixed: [...problem.fixed.map((use) => useLater(use, passed)), ...after.flatMap(({ uses }) => uses)].filter(({ interval }) => interval.to > 0),
      previous: { steps: plan.filter(({ endSlot, startSlot }) => endSlot > startSlot).map(previousStep), holdBeforeSlot: Math.round(HOLD_MINUTES / problem.slotMinutes) },
    },
  };
}

interface After { item: PlanItem | null; uses: FixedUse[]; ahead: PlanAssignment[] }

/** What has become of an item: the steps that began before now are done or under way. */
function itemAfter(item: PlanItem, assignments: readonly PlanAssignment[], passed: number, horizonSlots: number, begunBatches: Set<string>): After {
  const begun = begunOf(item, assignments, passed);
  const ahead = assignments.slice(begun.length);
  const last = begun.at(-1);
  const steps = item.options[assignments[0]?.option ?? 0]?.steps ?? [];
  if (last === undefined) {
    // Without a plan it stays where it is; in the freezer its clock stands.
    const stands = assignments.length === 0 && item.options[0] !== undefined && liesFrozen(item.options[0]);
    return { item: itemLater(item, passed, 0, stands ? passed : 0, item.options), uses: [], ahead: inTime(ahead, passed, (one) => one) };
  }
  const lastStep = steps[begun.length - 1]!;
  const uses = last.endSlot > passed ? [useOf(last, lastStep, passed, begunBatches)] : [];
  const rest = steps.slice(begun.length);
  const isFrozen = lastStep.freezer !== null;
  if (rest.length === 0) {
    if (isFrozen) uses.push(stayOf(last, lastStep, { from: last.endSlot - passed, to: horizonSlots - passed }));
    return { item: null, uses, ahead: [] };
  }
  const lain = isFrozen ? Math.max(0, passed - last.endSlot) : 0;
  const stood = lain + begun.reduce((sum, { endSlot }, k) => (k < begun.length - 1 && steps[k]!.freezer ? sum + begun[k + 1]!.startSlot - endSlot : sum), 0);
  const options: PlanOption[] = [
    { disposition: last.disposition, steps: isFrozen ? [lyingFrozen(lastStep, lain), ...rest] : rest },
    ...(isFrozen ? [] : otherWays(item, last.option, begun)),
  ];
  const next = itemLater({ ...item, stabilised: item.stabilised || steps.slice(0, begun.length).some(({ stabilises }) => stabilises !== null) }, passed, last.endSlot, stood, options);
  const renumbered = inTime(ahead, passed, (one) => ({ ...one, option: 0, position: one.position - begun.length + (isFrozen ? 1 : 0) }));
  const lying: PlanAssignment = { ...last, option: 0, position: 0, batchId: null, stationId: null, personIds: [], startSlot: next.releaseSlot, endSlot: next.releaseSlot };
  return { item: next, uses, ahead: isFrozen && renumbered.length > 0 ? [lying, ...renumbered] : renumbered };
}

/** Assignments from the first on that began before now; none begins before the item is free for it. */
function begunOf(item: PlanItem, assignments: readonly PlanAssignment[], passed: number): PlanAssignment[] {
  let freeFrom = item.releaseSlot;
  const begun: PlanAssignment[] = [];
  for (const assignment of assignments) {
    if (assignment.startSlot >= passed || assignment.startSlot < freeFrom) break;
    begun.push(assignment);
    freeFrom = assignment.endSlot;
  }
  return begun;
}

/** What is ahead, counted from now; nothing of a plan that has been overtaken. */
function inTime(ahead: readonly PlanAssignment[], passed: number, change: (assignment: PlanAssignment) => PlanAssignment): PlanAssignment[] {
  if (ahead[0] === undefined || ahead[0].startSlot < passed) return [];
  return ahead.map((one) => change({ ...one, startSlot: one.startSlot - passed, endSlot: one.endSlot - passed }));
}

/** Other routes of the item that begin with the same steps, from there on. */
function otherWays(item: PlanItem, chosen: number, begun: readonly PlanAssignment[]): PlanOption[] {
  return item.options
    .filter(({ steps }, i) => i !== chosen && steps.length > begun.length && begun.every(({ step }, k) => steps[k]!.step === step && steps[k]!.stabilises === null))
    .map(({ disposition, steps }) => ({ disposition, steps: steps.slice(begun.length) }));
}

function itemLater(item: PlanItem, passed: number, freeFrom: number, stoodSlots: number, options: PlanOption[]): PlanItem {
  return { ...item, releaseSlot: Math.max(0, Math.max(item.releaseSlot, freeFrom) - passed), deadlineSlot: item.deadlineSlot + stoodSlots - passed, options };
}

/** It lies in the freezer: put there at once by nobody, so that its clock stands and its volume is taken until the thaw. */
function lyingFrozen({ freezer, zone }: PlanStep, lainSlots: number): PlanStep {
  const { volumeCl, leastSlots = 1 } = freezer!;
  return {
    step: 'freeze', zone, durationSlots: 0, noStation: true, crew: 0, skill: null, barredRestrictions: [], drying: null,
    freezer: { volumeCl, leastSlots: Math.max(1, leastSlots - lainSlots) }, stabilises: null,
  };
}

function liesFrozen({ steps }: PlanOption): boolean {
  return steps[0]!.freezer !== null && steps[0]!.durationSlots === 0;
}

/** What is under way. Of a batch, the first holds the station and the crew; the others would count them twice. */
function useOf(assignment: PlanAssignment, { drying }: PlanStep, passed: number, begunBatches: Set<string>): FixedUse {
  const { itemId, step, batchId, stationId, personIds, dryingPlaceId, startSlot, endSlot } = assignment;
  const isWithOthers = batchId !== null && begunBatches.has(batchId);
  if (batchId !== null) begunBatches.add(batchId);
  return {
    // A generated route never carries anything to another site.
    itemId, step: step as StepKind, stationId: isWithOthers ? null : stationId, personIds: isWithOthers ? [] : personIds,
    dryingPlaceId, areaDm2: drying?.areaDm2 ?? 0, loadGPerSlot: drying?.loadGPerSlot ?? 0, ...(drying?.falling && { falling: drying.falling }),
    freezerId: null, volumeCl: 0, interval: { from: startSlot - passed, to: endSlot - passed },
  };
}

/** Kept frozen for good. */
function stayOf({ itemId, freezerId }: PlanAssignment, { freezer }: PlanStep, interval: Interval): FixedUse {
  return { itemId, step: 'freeze', stationId: null, personIds: [], dryingPlaceId: null, areaDm2: 0, loadGPerSlot: 0, freezerId, volumeCl: freezer!.volumeCl, interval };
}

function previousStep({ itemId, disposition, step, stationId, dryingPlaceId, personIds, freezerId, startSlot, endSlot }: PlanAssignment): PreviousStep {
  return { itemId, disposition, step, stationId, dryingPlaceId, personIds, freezerId, startSlot, endSlot };
}

function useLater(use: FixedUse, passed: number): FixedUse {
  return { ...use, interval: { from: use.interval.from - passed, to: use.interval.to - passed } };
}

/** Resources with what is left of their calendars. */
function later<K extends string, I extends Interval, T extends Record<K, readonly I[]>>(list: readonly T[], calendar: K, passed: number): T[] {
  return list.map((resource) => ({
    ...resource, [calendar]: resource[calendar].filter(({ to }) => to > passed).map((one) => ({ ...one, from: Math.max(0, one.from - passed), to: one.to - passed })),
  }));
}
