/** Why an item stands where it does in a plan, for the people who must act on it. */
import { say, STEP_WORDS, WAY_WORDS, type Disposition, type Message, type StepKind } from '#care';
import { describeBlocker } from './blocker-words.js';
import { compile, type Compiled, type CompiledItem, type CompiledOption } from './compile.js';
import { Diagnostician } from './diagnose.js';
import { loadPlan } from './load-plan.js';
import { findForOption } from './place-item.js';
import type { Blocker, Plan, PlanProblem } from './types.js';
import { NONE, Timetable } from './timetable.js';

/** One step of a planned item and what it waited for. */
export interface StepExplanation {
  position: number;
  step: StepKind;
  startSlot: number;
  endSlot: number;
  /** Slots between the end of the step before (or the release) and this start. */
  waitSlots: number;
  /** The resource that was free last; `null` when it did not wait, or would no longer have to. */
  waitsFor: Blocker | null;
  /** Whether that resource was closed or off shift, or in use by others. */
  because: 'closed' | 'in-use' | null;
}

/** A care route that stands before the chosen one in the item's order of preference. */
export interface PassedOver {
  disposition: Disposition;
  /** `null`: it would fit in the plan as it stands now. */
  blockedBy: Blocker | null;
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
  /** Slots between stabilisation and the deadline; `null` where there is no such moment. */
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
  return finish({
    itemId, state: 'planned', disposition: option.disposition,
    steps: explainSteps(compiled, timetable, item, option, placement.steps.map(({ start }) => start)),
    stabilisedAtSlot: item.urgent ? placement.moment : null,
    slackSlots: item.urgent ? item.deadline - placement.moment : null,
    blockedBy: null,
    passedOver: passedOverBefore(compiled, timetable, item, placement.option),
  });
}

function passedOverBefore({ resources }: Compiled, timetable: Timetable, item: CompiledItem, before: number): PassedOver[] {
  const diagnostician = new Diagnostician(resources);
  // What fails on an empty timetable must not be blamed on the items that happen to be planned.
  const against = item.urgent && diagnostician.isHopeless(item) ? new Timetable(resources) : timetable;
  return item.options.slice(0, before).map((option, i) => ({
    disposition: option.disposition,
    blockedBy: findForOption(against, item, i) === null ? diagnostician.option(against, item.release, option).blocker : null,
  }));
}

function explainSteps({ resources }: Compiled, timetable: Timetable, item: CompiledItem, option: CompiledOption, starts: readonly number[]): StepExplanation[] {
  const diagnostician = new Diagnostician(resources);
  const empty = new Timetable(resources);
  let from = item.release;
  return option.steps.map((step, position) => {
    const startSlot = starts[position]!;
    const waitSlots = startSlot - from;
    const possible = waitSlots > 0 ? timetable.fit(step, from, startSlot) : NONE;
    // A possible start before the planned one means that improvement has since freed the way.
    const waits = waitSlots > 0 && possible === startSlot;
    const explained: StepExplanation = {
      position, step: step.kind, startSlot, endSlot: startSlot + step.duration, waitSlots,
      waitsFor: waits ? diagnostician.cause(timetable, step, from).blocker : null,
      because: waits ? (empty.fit(step, from, startSlot) === startSlot ? 'closed' : 'in-use') : null,
    };
    from = explained.endSlot;
    return explained;
  });
}

function finish(explanation: Omit<ItemExplanation, 'text'>): ItemExplanation {
  const text: Message[] = [];
  if (explanation.state === 'unplanned') text.push(say('It is not in the plan: {why}.', { why: describeBlocker(explanation.blockedBy!) }));
  for (const passed of explanation.passedOver) text.push(passedInWords(passed));
  for (const step of explanation.steps) if (step.waitSlots > 0) text.push(waitInWords(step));
  if (explanation.slackSlots !== null) text.push(say('It is to be made safe at slot {slot} of the plan, {slack, plural, one {# slot} other {# slots}} before its deadline.', { slot: explanation.stabilisedAtSlot!, slack: explanation.slackSlots }));
  return { ...explanation, text };
}

function passedInWords({ disposition, blockedBy }: PassedOver): Message {
  const way = WAY_WORDS[disposition];
  if (blockedBy === null) return say('The way “{way}” would fit in the plan as it stands now.', { way });
  return say('The way “{way}” was passed over: {why}.', { way, why: describeBlocker(blockedBy) });
}

function waitInWords({ step, waitSlots, waitsFor, because }: StepExplanation): Message {
  const wait = { step: STEP_WORDS[step], slots: waitSlots };
  if (waitsFor === null) return say('Before “{step}” it waits {slots, plural, one {# slot} other {# slots}}, which is no longer necessary.', wait);
  const why = { ...wait, why: describeBlocker(waitsFor) };
  if (waitsFor.kind === 'heat') return say('Before “{step}” it waits {slots, plural, one {# slot} other {# slots}}: {why}.', why);
  if (because === 'closed') return say('Before “{step}” it waits {slots, plural, one {# slot} other {# slots}}: {why} (closed or off shift).', why);
  return say('Before “{step}” it waits {slots, plural, one {# slot} other {# slots}}: {why} (in use).', why);
}
