/** Why one item comes before another in a plan: read from the problem and the plan, for the coordinator who asks. */
import { say, type Message } from '#care';
import { stepsByItem } from './explain-moment.js';
import { blockedInWords, PLAINLY, type PlanSpeaker } from './explain-words.js';
import type { Blocker, Plan, PlanAssignment, PlanItem, PlanProblem } from './types.js';

/** Something of which both take the same, one after the other. */
export interface SharedResource { kind: 'station' | 'person' | 'drying-place' | 'drying-room' | 'freezer'; id: string }

/** One reason; `first` and `second` are the items in the order of the plan. */
export type BeforeReason =
  /** A coordinator has pinned this item, or asked for it first. */
  | { kind: 'pinned' | 'asked-first'; itemId: string }
  /** The second has no place in the plan. */
  | { kind: 'not-planned'; blockedBy: Blocker }
  /** The second was not there yet when the first began. */
  | { kind: 'not-there-yet'; fromSlot: number }
  /** They are done together. */
  | { kind: 'together' }
  /** Both need the same thing: the first has it until, the second from these slots. */
  | { kind: 'shared'; resource: SharedResource; firstUntilSlot: number; secondFromSlot: number }
  /** They share nothing: each begins when what it needs is free. */
  | { kind: 'nothing-shared' }
  /** The second is safe already. */
  | { kind: 'safe-already' }
  /** The first is due sooner, by so many slots. */
  | { kind: 'due-sooner'; slots: number }
  /** The first weighs more. */
  | { kind: 'heavier'; firstWeight: number; secondWeight: number }
  /** The second is due sooner, or weighs more, and comes second all the same. */
  | { kind: 'although-due-sooner'; slots: number }
  | { kind: 'although-heavier'; firstWeight: number; secondWeight: number }
  /** Neither wish, window nor weight says so: the search found this order better for the whole. */
  | { kind: 'search' };

/** Which of two items comes first, and why. */
export interface Precedence {
  /** Null when neither is in the plan, or both begin in the same slot. */
  firstItemId: string | null;
  secondItemId: string | null;
  reasons: BeforeReason[];
  /** The same in plain sentences. Advice on the plan; a trained lead may decide otherwise. */
  text: Message[];
}

/**
 * Why `itemA` comes before `itemB`, or, where the plan has it so, after it. What is compared is the beginning of the first step. The
 * order of two items need not follow from them alone, because the search weighs the whole; then it says so. O(assignments).
 * @throws RangeError when an item is not part of the problem, or both are the same
 */
export function whyBefore(problem: PlanProblem, plan: Plan, itemA: string, itemB: string, speaker: PlanSpeaker = PLAINLY): Precedence {
  if (itemA === itemB) throw new RangeError('An item is neither before nor after itself.');
  const steps = stepsByItem(plan.assignments);
  const [a, b] = [itemA, itemB].map((id) => sideOf(problem, plan, steps, id)) as [Side, Side];
  const pair: [Side, Side] = b.from < a.from ? [b, a] : [a, b];
  const isOrdered = a.from !== b.from;
  const reasons = isOrdered ? reasonsFor(problem, ...pair) : isTogether(a, b) ? [{ kind: 'together' } as const] : [];
  return {
    firstItemId: isOrdered ? pair[0].item.id : null, secondItemId: isOrdered ? pair[1].item.id : null, reasons,
    text: [headline(isOrdered, pair, speaker), ...reasons.map((reason) => reasonInWords(reason, pair, speaker))],
  };
}

interface Side {
  item: PlanItem;
  steps: PlanAssignment[];
  /** Slot in which the first step begins; infinite when it is not planned. */
  from: number;
  blockedBy: Blocker | null;
}

function sideOf(problem: PlanProblem, plan: Plan, steps: ReadonlyMap<string, PlanAssignment[]>, id: string): Side {
  const item = problem.items.find((entry) => entry.id === id);
  const planned = steps.get(id) ?? [];
  const listed = plan.unplanned.find(({ itemId }) => itemId === id);
  if (item === undefined || (planned.length === 0 && listed === undefined)) throw new RangeError(`Item ${id} is not part of this problem and plan.`);
  return { item, steps: planned, from: Math.min(...planned.map(({ startSlot }) => startSlot)), blockedBy: listed?.blockedBy ?? null };
}

function reasonsFor(problem: PlanProblem, first: Side, second: Side): BeforeReason[] {
  const wishes = wishesFor(first, second);
  if (second.blockedBy !== null && second.from === Infinity) return [...wishes, { kind: 'not-planned', blockedBy: second.blockedBy }];
  if (second.item.releaseSlot > first.from) return [...wishes, { kind: 'not-there-yet', fromSlot: second.item.releaseSlot }];
  const shared = sharedBetween(problem, first, second);
  const reasons: BeforeReason[] = [...wishes, ...(isTogether(first, second) ? [{ kind: 'together' } as const] : []), shared ?? { kind: 'nothing-shared' }];
  if (shared === null) return reasons;
  const order = orderReasons(first.item, second.item);
  const isExplained = wishes.length > 0 || order.some(({ kind }) => !kind.startsWith('although'));
  return [...reasons, ...order, ...(isExplained ? [] : [{ kind: 'search' } as const])];
}

function wishesFor(first: Side, second: Side): BeforeReason[] {
  const pinned = [first, second].filter(({ item }) => (item.pinned?.length ?? 0) > 0).map(({ item }) => ({ kind: 'pinned', itemId: item.id }) as const);
  const isAsked = first.item.first === true && second.item.first !== true;
  return [...pinned, ...(isAsked ? [{ kind: 'asked-first', itemId: first.item.id } as const] : [])];
}

function orderReasons(first: PlanItem, second: PlanItem): BeforeReason[] {
  if (second.stabilised && !first.stabilised) return [{ kind: 'safe-already' }];
  const reasons: BeforeReason[] = [];
  const sooner = second.deadlineSlot - first.deadlineSlot;
  const weights = { firstWeight: first.weight, secondWeight: second.weight };
  if (!first.stabilised && sooner > 0) reasons.push({ kind: 'due-sooner', slots: sooner });
  if (first.weight > second.weight) reasons.push({ kind: 'heavier', ...weights });
  if (!second.stabilised && sooner < 0) reasons.push({ kind: 'although-due-sooner', slots: -sooner });
  if (first.weight < second.weight) reasons.push({ kind: 'although-heavier', ...weights });
  return reasons;
}

function isTogether(a: Side, b: Side): boolean {
  const batches = new Set(a.steps.map(({ batchId }) => batchId ?? null).filter((id) => id !== null));
  return b.steps.some(({ batchId }) => batchId !== null && batchId !== undefined && batches.has(batchId));
}

/** Of what both take one after the other, that of which the second takes its turn soonest after the first. */
function sharedBetween(problem: PlanProblem, first: Side, second: Side): Extract<BeforeReason, { kind: 'shared' }> | null {
  const roomOf = new Map(problem.places.map(({ id, roomId }) => [id, roomId]));
  const firsts = first.steps.flatMap((step) => resourcesOf(step, roomOf).map((resource) => ({ resource, step })));
  let found: Extract<BeforeReason, { kind: 'shared' }> | null = null;
  for (const step of second.steps) {
    for (const resource of resourcesOf(step, roomOf)) {
      for (const { resource: its, step: before } of firsts) {
        if (its.kind !== resource.kind || its.id !== resource.id || before.startSlot >= step.startSlot) continue;
        const gap = step.startSlot - before.endSlot;
        if (found === null || Math.abs(gap) < Math.abs(found.secondFromSlot - found.firstUntilSlot)) found = { kind: 'shared', resource, firstUntilSlot: before.endSlot, secondFromSlot: step.startSlot };
      }
    }
  }
  return found;
}

/** The narrowest first: two that share a person and a station are told of the station. */
function resourcesOf({ stationId, dryingPlaceId, freezerId, personIds }: PlanAssignment, roomOf: ReadonlyMap<string, string>): SharedResource[] {
  const found: SharedResource[] = [];
  if (stationId !== null) found.push({ kind: 'station', id: stationId });
  if (dryingPlaceId !== null) found.push({ kind: 'drying-place', id: dryingPlaceId }, { kind: 'drying-room', id: roomOf.get(dryingPlaceId) ?? '' });
  if (freezerId !== null) found.push({ kind: 'freezer', id: freezerId });
  return [...found, ...personIds.map((id): SharedResource => ({ kind: 'person', id }))];
}

function headline(isOrdered: boolean, [one, other]: readonly [Side, Side], { nameOf, momentOf }: PlanSpeaker): Message {
  const names = { first: nameOf(one.item.id), second: nameOf(other.item.id) };
  if (!isOrdered && one.from === Infinity) return say('Neither {first} nor {second} is in the plan.', names);
  if (!isOrdered) return say('{first} and {second} both begin at {at}.', { ...names, at: momentOf(one.from) });
  if (other.from === Infinity) return say('{first} begins at {at}; {second} is not in the plan.', { ...names, at: momentOf(one.from) });
  return say('{first} begins at {at}, {second} at {later}.', { ...names, at: momentOf(one.from), later: momentOf(other.from) });
}

function reasonInWords(reason: BeforeReason, [one, other]: readonly [Side, Side], speaker: PlanSpeaker): Message {
  const { nameOf, stretchOf, momentOf } = speaker;
  const names = { first: nameOf(one.item.id), second: nameOf(other.item.id) };
  switch (reason.kind) {
    case 'pinned': return say('A coordinator has pinned {item} to its place in the plan.', { item: nameOf(reason.itemId) });
    case 'asked-first': return say('A coordinator asked for {item} to come first.', { item: nameOf(reason.itemId) });
    case 'not-planned': return say('{second} has no place: {why}.', { ...names, why: blockedInWords(reason.blockedBy, speaker) });
    case 'not-there-yet': return say('{second} can be worked on only from {from} on.', { ...names, from: momentOf(reason.fromSlot) });
    case 'together': return say('They are done together in one step.');
    case 'shared': return say('Both need {resource}: {first} until {until}, {second} from {from} on.', { ...names, resource: resourceInWords(reason.resource, nameOf), until: momentOf(reason.firstUntilSlot), from: momentOf(reason.secondFromSlot) });
    case 'nothing-shared': return say('They take nothing from each other: each begins when what it needs is free.');
    case 'safe-already': return say('{second} is safe already; what is not safe yet comes first.', names);
    case 'due-sooner': return say('{first} is due {stretch} sooner.', { ...names, stretch: stretchOf(reason.slots) });
    case 'heavier': return say('{first} weighs more in the plan: {firstWeight} to {secondWeight}.', { ...names, ...weightsOf(reason) });
    case 'although-due-sooner': return say('{second} is due {stretch} sooner and comes second all the same.', { ...names, stretch: stretchOf(reason.slots) });
    case 'although-heavier': return say('{second} weighs more ({secondWeight} to {firstWeight}) and comes second all the same.', { ...names, ...weightsOf(reason) });
    case 'search': return say('Nothing about the two says so: the search found this order better for the whole. A lead may put {second} first.', names);
  }
}

function weightsOf({ firstWeight, secondWeight }: { firstWeight: number; secondWeight: number }): { firstWeight: number; secondWeight: number } {
  return { firstWeight, secondWeight };
}

function resourceInWords({ kind, id }: SharedResource, nameOf: (id: string) => string): Message {
  const name = nameOf(id);
  switch (kind) {
    case 'station': return say('station {name}', { name });
    case 'person': return say('the hands of {name}', { name });
    case 'drying-place': return say('drying place {name}', { name });
    case 'drying-room': return say('the air of room {name}', { name });
    case 'freezer': return say('freezer {name}', { name });
  }
}
