/** Why a plan was asked for, as the run shows it. */
import { say, STEP_WORDS, WAY_WORDS, type Disposition, type Message, type StepKind } from '#care';
import type { ConsentScope } from '../ports/consent-store.js';
import type { WishKind } from '../ports/plan-input.js';
import type { RecordedOutcome } from '../ports/step-store.js';

/** What needs no more than to be named. */
export const PLAN_REASONS = {
  ruleBook: say('another rule book is in force'),
  file: say('an intake file was worked through'),
  placeFree: say('a drying place became free'),
  shift: say('a shift changed'),
  sentOtherwise: say('a thing went to a specialist otherwise than planned'),
  lotSplit: say('a lot was split'),
  missing: say('a thing is missing'),
  foundAgain: say('a missing thing was found'),
  joined: say('two records of one thing were joined'),
  weather: say('the weather changed'),
  calibration: say('a number of our own calibration was set'),
  publishing: say('plans come into force by themselves again'),
} as const satisfies Record<string, Message>;

/** Something of the layout, by its code. */
export const LAYOUT_REASONS = {
  freezerAdded: (code: string) => say('freezer {code} added', { code }),
  freezerChanged: (code: string) => say('freezer {code} changed', { code }),
  placeAdded: (code: string) => say('drying place {code} added', { code }),
  personAdded: (code: string) => say('person {code} added', { code }),
  personChanged: (code: string) => say('person {code} changed', { code }),
  specialistChanged: (code: string) => say('specialist {code} changed', { code }),
  stationChanged: (code: string) => say('station {code} changed', { code }),
  vehicleAdded: (code: string) => say('vehicle {code} added', { code }),
  vehicleChanged: (code: string) => say('vehicle {code} changed', { code }),
} as const satisfies Record<string, (code: string) => Message>;

const MACHINE_STATES: Readonly<Record<string, Message>> = { running: say('runs'), tripped: say('has tripped'), off: say('is off') };

/** A dehumidifier that runs, has tripped or is off. */
export function machineReason(code: string, state: string): Message {
  return say('dehumidifier {code} {state}', { code, state: MACHINE_STATES[state] ?? state });
}

/** The air of a room, by its code, as it was measured. */
export function airReason(room: string, { airTempC, relativeHumidityPct }: { airTempC: number; relativeHumidityPct: number }): Message {
  return say('air of room {room}: {tempC} °C, {humidityPct} %', { room, tempC: airTempC, humidityPct: relativeHumidityPct });
}

/** What a report or a look may find. */
type Found = RecordedOutcome | 'still-damp';

const FOUND: Readonly<Record<Found, Message>> = {
  done: say('it is done'), failed: say('it failed'), 'dye-moved': say('dye moved'), 'mould-found': say('mould was found'), 'owner-must-decide': say('the owner must decide'),
  'wetted-again': say('it got wet again'), 'still-damp': say('it is still damp'),
};

/** What a step brought to light; `outcomes` holds at least one. */
export function foundReason(step: StepKind, outcomes: readonly Found[]): Message {
  const found = [...outcomes].map((outcome) => FOUND[outcome]).reduce((all, one) => say('{all}, {one}', { all, one }));
  return say('step “{step}”: {found}', { step: STEP_WORDS[step], found });
}

const OWNER_SPOKE: Readonly<Record<ConsentScope, Message>> = {
  treat: say('an owner has decided about treating'), freeze: say('an owner has decided about freezing'), refer: say('an owner has decided about a specialist'), release: say('an owner has decided about letting go'),
  photograph: say('an owner has decided about photographs'),
};

/** An owner's word that changes the way of something. */
export function ownerReason(scope: ConsentScope): Message {
  return OWNER_SPOKE[scope];
}

/** A lead's choice. */
export function choiceReason(way: Disposition): Message {
  return say('a lead chose {way}', { way: WAY_WORDS[way] });
}

const WISHED: Readonly<Record<WishKind, (tag: string) => Message>> = {
  pin: (tag) => say('{tag} is to be done just as it was planned', { tag }),
  first: (tag) => say('{tag} is to come first', { tag }),
  'not-before': (tag) => say('{tag} is not to begin before a moment', { tag }),
  'bar-station': (tag) => say('a station was ruled out for {tag}', { tag }),
  'bar-way': (tag) => say('a way was ruled out for {tag}', { tag }),
};

/** What a coordinator or a lead wants of the plan, by the tag of the thing. */
export function wishReason(kind: WishKind, tag: string): Message {
  return WISHED[kind](tag);
}

/** A wish that is not wanted any more. */
export function withdrawnReason(tag: string): Message {
  return say('a wish about {tag} was withdrawn', { tag });
}
