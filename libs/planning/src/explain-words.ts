/** Explanations of a plan in sentences of the catalogues. */
import { say, STEP_WORDS, WAY_WORDS, type Message } from '#care';
import { describeBlocker } from './blocker-words.js';
import type { ItemExplanation, PassedOver, StepExplanation } from './explain.js';
import type { NotThere } from './explain-place.js';
import type { Blocker, PlanStepKind } from './types.js';

/** How a reader calls things and moments of the plan. */
export interface PlanSpeaker {
  /** Name of a station, place, room, freezer or item by its id. */
  nameOf(id: string): string;
  /** A number of slots as a stretch of time, at least 1. */
  stretchOf(slots: number): Message;
  /** A slot of the plan as a moment, to stand after “at”, “until” and “from”. */
  momentOf(slot: number): Message;
}

/** Ids and slots as they are, for those who know the problem. */
export const PLAINLY: PlanSpeaker = {
  nameOf: (id) => id,
  stretchOf: (slots) => say('{slots, plural, one {# slot} other {# slots}}', { slots }),
  momentOf: (slot) => say('slot {slot} of the plan', { slot }),
};

/** At most so many other places are named in a sentence; the explanation holds all. */
const MOST_NAMED = 4;

/** The explanation in plain sentences. Advice on the plan; a trained lead may decide otherwise. */
export function explanationInWords(explanation: Omit<ItemExplanation, 'text'>, speaker: PlanSpeaker = PLAINLY): Message[] {
  const text: Message[] = [];
  if (explanation.state === 'unplanned') text.push(say('It is not in the plan: {why}.', { why: unplannedInWords(explanation, speaker) }));
  for (const passed of explanation.passedOver) text.push(passedInWords(passed, speaker));
  for (const step of explanation.steps) text.push(...waitInWords(step, speaker), ...placeInWords(step, speaker), ...serviceInWords(step, speaker));
  if (explanation.slackSlots !== null) text.push(slackInWords(explanation.stabilisedAtSlot!, explanation.slackSlots, speaker));
  return text;
}

/** The word for a step of a plan. */
export function planStepInWords(step: PlanStepKind): Message {
  return step === 'carry' ? say('carry to another site') : STEP_WORDS[step];
}

/** A blocker in words, with the thing it names by its name. */
export function blockedInWords(blocker: Blocker, { nameOf }: PlanSpeaker): Message {
  const isThing = ['drying-area', 'room-air', 'company', 'freezer', 'service'].includes(blocker.kind) && blocker.what !== '';
  return describeBlocker(isThing ? { ...blocker, what: nameOf(blocker.what) } : blocker);
}

/** Where the listed blocker is that of a route for which no place is large enough, that is said. */
function unplannedInWords({ blockedBy, passedOver }: Omit<ItemExplanation, 'text'>, speaker: PlanSpeaker): Message {
  const isTooLarge = passedOver.some((passed) => passed.isTooLarge === true && passed.blockedBy?.what === blockedBy!.what && passed.blockedBy.kind === blockedBy!.kind);
  return isTooLarge ? tooLargeInWords(blockedBy!, speaker) : blockedInWords(blockedBy!, speaker);
}

function tooLargeInWords({ what }: Blocker, { nameOf }: PlanSpeaker): Message {
  return say('no drying place on the site is large enough for it, the largest is in room {room}; split the lot, or lay out a larger place', { room: nameOf(what) });
}

function passedInWords({ disposition, blockedBy, isTooLarge }: PassedOver, speaker: PlanSpeaker): Message {
  const way = WAY_WORDS[disposition];
  if (blockedBy === null) return say('The way “{way}” would fit in the plan as it stands now.', { way });
  return say('The way “{way}” was passed over: {why}.', { way, why: isTooLarge === true ? tooLargeInWords(blockedBy, speaker) : blockedInWords(blockedBy, speaker) });
}

function waitInWords({ step, waitSlots, startSlot, waitsFor, because }: StepExplanation, speaker: PlanSpeaker): Message[] {
  if (waitSlots === 0) return [];
  const wait = { step: planStepInWords(step), stretch: speaker.stretchOf(waitSlots), until: speaker.momentOf(startSlot) };
  if (waitsFor === null) return [chosenWaitInWords(because, wait)];
  const why = { ...wait, why: blockedInWords(waitsFor, speaker) };
  if (waitsFor.kind === 'heat') return [say('Before “{step}” it waits {stretch} and begins at {until}: {why}.', why)];
  if (because === 'closed') return [say('Before “{step}” it waits {stretch} and begins at {until}: {why} (closed or off shift).', why)];
  return [say('Before “{step}” it waits {stretch} and begins at {until}: {why} (in use).', why)];
}

function chosenWaitInWords(because: StepExplanation['because'], wait: { step: Message; stretch: Message; until: Message }): Message {
  switch (because) {
    case 'frozen': return say('Before “{step}” it lies frozen for {stretch}, until {until}; its clock stands still meanwhile.', wait);
    case 'pinned': return say('Before “{step}” it waits {stretch} and begins at {until}, where a coordinator has pinned it.', wait);
    case 'kept': return say('Before “{step}” it waits {stretch} and begins at {until}, to keep to the plan that people are working to.', wait);
    case 'together': return say('Before “{step}” it waits {stretch} and begins at {until}, together with others.', wait);
    default: return say('Before “{step}” it waits {stretch}, which is no longer necessary; it begins at {until}.', wait);
  }
}

const ELSEWHERE: Readonly<Record<NotThere, (values: { step: Message; places: string }) => Message>> = {
  barred: (values) => say('For “{step}” a lead has ruled out {places}.', values),
  'too-small': (values) => say('For “{step}” it is too large for {places}.', values),
  closed: (values) => say('For “{step}” closed at that time: {places}.', values),
  'in-use': (values) => say('For “{step}” taken by others at that time: {places}.', values),
  'room-air': (values) => say('For “{step}” the air of the room could not take more water at that time: {places}.', values),
  company: (values) => say('For “{step}” things lie there at that time that it must not be with: {places}.', values),
  free: (values) => say('For “{step}” these would do as well at that time: {places}.', values),
};

function placeInWords({ step, alternatives }: StepExplanation, { nameOf }: PlanSpeaker): Message[] {
  const reasons = Object.keys(ELSEWHERE) as NotThere[];
  return reasons.flatMap((because) => {
    const names = alternatives.filter((alternative) => alternative.because === because).map(({ id }) => nameOf(id));
    if (names.length === 0) return [];
    const places = names.length > MOST_NAMED ? `${names.slice(0, MOST_NAMED).join(', ')} (+${names.length - MOST_NAMED})` : names.join(', ');
    return [ELSEWHERE[because]({ step: planStepInWords(step), places })];
  });
}

/** Who carries it, and who takes it, if they agree. */
function serviceInWords({ step, serviceId, startSlot, endSlot }: StepExplanation, { nameOf, momentOf }: PlanSpeaker): Message[] {
  if (step === 'carry' && serviceId !== null) return [say('It is carried with {ride}: that leaves at {leaves} and is there by {arrives}, as reckoned.', { ride: nameOf(serviceId), leaves: momentOf(startSlot), arrives: momentOf(endSlot) })];
  if (step !== 'refer' || serviceId === null) return [];
  return [say('It is to be with {specialist} from {from}, if they agree.', { specialist: nameOf(serviceId), from: momentOf(startSlot) })];
}

function slackInWords(slot: number, slackSlots: number, { stretchOf, momentOf }: PlanSpeaker): Message {
  const at = momentOf(slot);
  if (slackSlots < 0) return say('It is to be made safe at {at}, {stretch} after its deadline.', { at, stretch: stretchOf(-slackSlots) });
  if (slackSlots === 0) return say('It is to be made safe at {at}, with nothing to spare before its deadline.', { at });
  return say('It is to be made safe at {at}, {stretch} before its deadline.', { at, stretch: stretchOf(slackSlots) });
}
