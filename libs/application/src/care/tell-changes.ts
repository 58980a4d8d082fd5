import { say, STEP_WORDS, URGENCY_WORDS, WAY_WORDS, ZONE_WORDS, type CareStep, type Message, type StepKind } from '#care';
import type { ItemRecord } from '../ports/item-store.js';
import type { PlaceRecord } from '../ports/place-store.js';
import type { StepOutcome } from '../ports/step-store.js';

const OUTCOMES: Readonly<Record<StepOutcome, (step: Message) => Message>> = {
  done: (step) => say('The step “{step}” is done.', { step }),
  failed: (step) => say('The step “{step}” failed and may be tried again.', { step }),
  'dye-moved': (step) => say('The step “{step}” stopped because dye moved: it counts as bleeding from now on.', { step }),
  'mould-found': (step) => say('The step “{step}” stopped because mould was found: it counts as active mould from now on.', { step }),
  'owner-must-decide': (step) => say('The step “{step}” stopped until the owner has decided.', { step }),
};

/** What a report changed, in sentences for the person at the station. */
export function tellChanges(before: ItemRecord, after: ItemRecord, report: { step: StepKind; outcome: StepOutcome; next: CareStep | null; place: PlaceRecord | null; planRequested: boolean }): Message[] {
  const { next, place } = report;
  const told = [OUTCOMES[report.outcome](STEP_WORDS[report.step])];
  if (after.disposition !== null && after.disposition !== before.disposition) told.push(say('The way is now {way}.', { way: WAY_WORDS[after.disposition] }));
  if (after.urgency !== null && after.urgency !== before.urgency) told.push(say('Handling must start: {urgency}.', { urgency: URGENCY_WORDS[after.urgency] }));
  if (after.waitingForOwner && !before.waitingForOwner) told.push(say('It waits for the owner to decide.'));
  if (place) told.push(whereItIs(place));
  if (next) told.push(say('Next comes “{step}”, {zone}.', { step: STEP_WORDS[next.step], zone: ZONE_WORDS[next.zone] }));
  else told.push(after.nextStep ? say('Next comes “{step}”.', { step: STEP_WORDS[after.nextStep] }) : say('Nothing more is to be done on this way.'));
  if (report.planRequested) told.push(say('A new plan is asked for.'));
  return told;
}

function whereItIs({ name, code, zone }: PlaceRecord): Message {
  const place = name || code;
  return zone ? say('It is on record at {place}, {zone}.', { place, zone: ZONE_WORDS[zone] }) : say('It is on record at {place}.', { place });
}
