/** Why an item stands where it does in a plan, for the people who must act on it. */
import type { Disposition, Message } from '#care';
import { compile, type Compiled, type CompiledItem, type CompiledOption, lastInHorizon } from './compile.js';
import { Diagnostician } from './diagnose.js';
import { stabilisationOf } from './explain-moment.js';
import { type Alternative, alternativesOf, OthersUse } from './explain-place.js';
import { explanationInWords } from './explain-words.js';
import { loadPlan } from './load-plan.js';
import { findForOption } from './place-item.js';
import type { Blocker, Plan, PlanItem, PlanProblem, PlanStepKind } from './types.js';
import { NONE, Timetable } from './timetable.js';

/** Why a step begins later than it could have. */
export type WaitReason = 'closed' | 'in-use' | 'frozen' | 'pinned' | 'kept' | 'together';

/** One step of a planned item and what it waited for. */
export interface StepExplanation {
  position: number;
  step: PlanStepKind;
  startSlot: number;
  endSlot: number;
  /** Where it is done; null where it needs no such thing. */
  stationId: string | null;
  dryingPlaceId: string | null;
  freezerId: string | null;
  /** The courier or specialist it takes. */
  serviceId: string | null;
  /** Slots between the end of the step before (or the release) and this start. */
  waitSlots: number;
  /** The resource that was free last; `null` when it did not wait for one. */
  waitsFor: Blocker | null;
  /**
   * Whether that resource was closed or off shift, or in use by others. Without one: it lies frozen meanwhile, is pinned, keeps to the plan
   * that people are working to, or waits for others to be done with; `null` when it did not wait, or would no longer have to.
   */
  because: WaitReason | null;
  /** What else on the site does such a step, and why not at this time. */
  alternatives: Alternative[];
}

/** A step that begins no further from where the plan in force had it counts as kept there, as in the objective. */
const KEPT_WITHIN_MINUTES = 15;

type StepInTime = Omit<StepExplanation, 'stationId' | 'dryingPlaceId' | 'freezerId' | 'serviceId' | 'alternatives'>;

/** A care route that stands before the chosen one in the item's order of preference. */
export interface PassedOver {
  disposition: Disposition;
  /** `null`: it would fit in the plan as it stands now. */
  blockedBy: Blocker | null;
  /** No drying place of the site is large enough for it, which the blocker's room has the largest of. */
  isTooLarge?: true;
}

/** Where an item stands in a plan and why. */
export interface ItemExplanation {
  itemId: string;
  state: 'planned' | 'unplanned';
  /** Chosen care route; `null` when unplanned. */
  disposition: Disposition | null;
  steps: StepExplanation[];
  /** Moment of stabilisation; `null` when unplanned or stabilised before the plan begins. */
  stabilisedAtSlot: number | null;
  /** Slots between stabilisation and the deadline, which moves by the slots lain frozen before; below 0 when it is late, `null` where there is no such moment. */
  slackSlots: number | null;
  /** Why it is unplanned, as the plan lists it. */
  blockedBy: Blocker | null;
  /** Preferred routes not taken, with the obstacle of each; for an unplanned item all its routes. */
  passedOver: PassedOver[];
  /** The same in plain sentences of the catalogues. Advice on the plan; a trained lead may decide otherwise. */
  text: Message[];
}

/**
 * Explains one item of a plan that `validatePlan` finds sound. O(plan + the item's steps x slots).
 * @throws RangeError when the item is not part of the problem or the plan.
 */
export function explainItem(problem: PlanProblem, plan: Plan, itemId: string): ItemExplanation {
  const compiled = compile(problem);
  const item = compiled.items.find(({ id }) => id === itemId);
  const listed = plan.unplanned.find((entry) => entry.itemId === itemId);
  const loaded = loadPlan(compiled, plan);
  const placement = item === undefined ? null : loaded.placed[item.index]!;
  if (item === undefined || (placement === null && listed === undefined)) throw new RangeError(`Item ${itemId} is not part of this problem and plan.`);
  const { timetable } = loaded;
  if (placement === null) {
    const passedOver = passedOverBefore(compiled, timetable, item, item.options.length);
    return finish({ itemId, state: 'unplanned', disposition: null, steps: [], stabilisedAtSlot: null, slackSlots: null, blockedBy: listed!.blockedBy, passedOver });
  }
  timetable.release(placement.steps);
  const option = item.options[placement.option]!;
  const steps = explainSteps(compiled, timetable, item, option, placement.steps.map(({ start }) => start));
  return finish({
    itemId, state: 'planned', disposition: option.disposition, ...whereOf(problem, plan, itemId, steps),
    blockedBy: null,
    passedOver: passedOverBefore(compiled, timetable, item, placement.option),
  });
}

/** What is read from the problem and the plan alone: the places of the steps, what else there was, and the slack. */
function whereOf(problem: PlanProblem, plan: Plan, itemId: string, steps: readonly StepInTime[]): Pick<ItemExplanation, 'steps' | 'stabilisedAtSlot' | 'slackSlots'> {
  const item = problem.items.find(({ id }) => id === itemId)!;
  const planned = plan.assignments.filter((assignment) => assignment.itemId === itemId);
  const others = new OthersUse(problem, plan, itemId);
  const safe = item.stabilised ? null : stabilisationOf(item, planned);
  return {
    steps: steps.map((step) => ({ ...step, ...chosenWait(problem, item, planned, step), ...placeOf(problem, item, planned, step.position, others) })),
    stabilisedAtSlot: safe?.moment ?? null,
    slackSlots: safe === null ? null : item.deadlineSlot + safe.frozenSlots - safe.moment,
  };
}

/** A wait that is nobody's queue: what is meant to lie, or to begin just then. */
function chosenWait({ previous, slotMinutes }: PlanProblem, item: PlanItem, planned: Plan['assignments'], { position, step, startSlot, waitSlots, waitsFor, because }: StepInTime): Pick<StepInTime, 'waitsFor' | 'because'> {
  const before = planned.find((one) => one.position === position - 1);
  if (waitSlots > 0 && before !== undefined && before.freezerId !== null) return { waitsFor: null, because: 'frozen' };
  if (waitSlots === 0 || waitsFor !== null) return { waitsFor, because };
  const near = Math.floor(KEPT_WITHIN_MINUTES / slotMinutes);
  const isKept = previous?.steps.some((one) => one.itemId === item.id && one.step === step && Math.abs(one.startSlot - startSlot) <= near) === true;
  const isShared = (planned.find((one) => one.position === position)?.batchId ?? null) !== null;
  return { waitsFor, because: (item.pinned?.length ?? 0) > 0 ? 'pinned' : isKept ? 'kept' : isShared ? 'together' : null };
}

function placeOf(problem: PlanProblem, item: PlanItem, planned: Plan['assignments'], position: number, others: OthersUse): Omit<StepExplanation, keyof StepInTime> {
  const assignment = planned.find((one) => one.position === position);
  if (assignment === undefined) return { stationId: null, dryingPlaceId: null, freezerId: null, serviceId: null, alternatives: [] };
  const { stationId, dryingPlaceId, freezerId } = assignment;
  const next = planned.find((one) => one.position === position + 1)?.startSlot ?? problem.horizonSlots;
  const serviceId = item.options[assignment.option]?.steps[position]?.services?.[0]?.serviceId ?? null;
  return { stationId, dryingPlaceId, freezerId, serviceId, alternatives: alternativesOf(problem, item, assignment, next, others) };
}

function passedOverBefore({ resources }: Compiled, timetable: Timetable, item: CompiledItem, before: number): PassedOver[] {
  const diagnostician = new Diagnostician(resources);
  // What fails on an empty timetable must not be blamed on the items that happen to be planned.
  const against = item.urgent && diagnostician.isHopeless(item) ? new Timetable(resources) : timetable;
  return item.options.slice(0, before).map((option, i) => {
    const blockedBy = findForOption(against, item, i, true) === null ? diagnostician.option(against, item.release, option).blocker : null;
    return { disposition: option.disposition, blockedBy, ...(blockedBy !== null && diagnostician.isTooLarge(option, blockedBy) && { isTooLarge: true as const }) };
  });
}

function explainSteps({ resources }: Compiled, timetable: Timetable, item: CompiledItem, option: CompiledOption, starts: readonly number[]): StepInTime[] {
  const diagnostician = new Diagnostician(resources);
  const empty = new Timetable(resources);
  let from = item.release;
  return option.steps.map((step, position) => {
    const startSlot = starts[position]!;
    const waitSlots = startSlot - from;
    const possible = waitSlots > 0 ? timetable.fit(step, from, startSlot) : NONE;
    // A possible start before the planned one means that improvement has since freed the way.
    const waits = waitSlots > 0 && possible === startSlot;
    const explained: StepInTime = {
      position, step: step.kind, startSlot, endSlot: startSlot + step.duration, waitSlots,
      waitsFor: waits ? diagnostician.cause(timetable, step, lastInHorizon(option, position), from).blocker : null,
      because: waits ? (empty.fit(step, from, startSlot) === startSlot ? 'closed' : 'in-use') : null,
    };
    from = explained.endSlot;
    return explained;
  });
}

function finish(explanation: Omit<ItemExplanation, 'text'>): ItemExplanation {
  return { ...explanation, text: explanationInWords(explanation) };
}
