/** What the answer to a lift says, and what it rests on. */
import { say, type Message } from '#care';
import { LOAD_CONSTANT_KG, type Advice, type CalibrationKey, type CalibrationValues, type LiftNoteCode, type LiftScopeCode, type WaterStage } from '#climate';
import { fixed, own, type Basis } from './basis.js';

/** Why the equation does not hold. */
export function liftScopeWords({ code, values }: Advice<LiftScopeCode>): Message {
  return SCOPE[code](values);
}

const SCOPE: { [K in LiftScopeCode]: (values: Advice['values']) => Message } = {
  one_handed: () => say('The load is lifted with one hand.'),
  seated_or_kneeling: () => say('The lift is made sitting or kneeling.'),
  cramped: () => say('There is no room to stand and move freely.'),
  load_shifts: () => say('The load shifts as it is lifted, as water in a tub or a sagging wet bundle does.'),
  carried_or_pushed: () => say('The load is carried, pushed or pulled.'),
  shovel_or_barrow: () => say('The load is on a shovel or a wheelbarrow.'),
  fast: () => say('The lift is fast or jerked.'),
  slippery_floor: () => say('The floor is wet or slippery: its friction is below 0.4.'),
  over_8_hours: () => say('Lifting goes on for more than 8 hours.'),
  air_too_cold: (values) => say('At {value} °C the air is colder than the 19 °C from which the equation holds.', values),
  air_too_hot: (values) => say('At {value} °C the air is warmer than the 26 °C to which the equation holds.', values),
  air_too_dry: (values) => say('At {value} % the air is drier than the 35 % from which the equation holds.', values),
  air_too_damp: (values) => say('At {value} % the air is damper than the 50 % to which the equation holds.', values),
};

/** A remark about the lift; `refused` where the equation does not hold. */
export function liftNoteWords({ code, values }: Advice<LiftNoteCode>, refused: boolean): Message {
  if (code === 'use_an_aid' && refused) return say('The lifting equation does not hold here, so it gives no number. Drain the load, take it in parts, use a trolley, board or hoist, or ask somebody trained in manual handling.');
  return NOTES[code](values);
}

const NOTES: { [K in LiftNoteCode]: (values: Advice['values']) => Message } = {
  use_an_aid: (values) => say('{loadKg} kg is more than 3 people may lift like this. Drain it, take it in parts, or use a trolley, board or hoist.', values),
  too_heavy_for_one: (values) => say('{loadKg} kg is more than the {limitKg} kg that one person may lift like this: {people} people together, or an aid.', values),
  fourth_adds_nothing: () => say('A fourth person adds nothing: more than 3 rarely lift as one.'),
  nothing_may_be_lifted: () => say('Reach, height, way, turn or pace is beyond what the equation allows: nothing is lifted like this. Come nearer, turn the feet, lift in two stages or more slowly, or use an aid.'),
  air_not_told: () => say('The limit holds for air of 19 to 26 °C and 35 to 50 %; the air of this place was not told.'),
  upper_screen: () => say('Local rules and people trained in manual handling come first. For wet things the limit is the most, not an aim.'),
};

const STAGE_WORDS: Readonly<Record<WaterStage, Message>> = { dripping: say('dripping'), drained: say('drained'), 'hand-wrung': say('wrung by hand'), blotted: say('blotted'), spun: say('spun') };

/** What less water would change. */
export function lighterWords(stage: WaterStage, massKg: number, people: number | null): Message {
  const values = { stage: STAGE_WORDS[stage], kg: massKg.toFixed(1) };
  if (people === null) return say('Once {stage} it weighs about {kg} kg: still a load for an aid.', values);
  return say('Once {stage} it weighs about {kg} kg: a load for {people, plural, one {# person} other {# people}}.', { ...values, people });
}

const NIOSH = say('Revised NIOSH lifting equation: Applications Manual, DHHS (NIOSH) 94-110, 1994, revised 9/2021, as read in a copy.');
const COUPLING = say('From memory, not verified: what a good and a poor grip count.');
const TEAMS = say('UK HSE, Manual handling guidance L23, paragraphs 119-120, as read in a copy; applying its shares to the NIOSH limit is our own.');
const BUNDLE = say('Our own calibration: water held at each stage, to be refitted from weighings.');

const STAGE_KEYS: Readonly<Record<WaterStage, readonly CalibrationKey[]>> = {
  dripping: ['drippingX', 'drippingOfCeiling'], drained: ['drainedX', 'drainedOfCeiling'], 'hand-wrung': ['handWrungX'], blotted: ['blottedX', 'paddedBlottedX'], spun: ['spunX'],
};

/** What a lift used. */
export function liftBasis(stage: WaterStage | null, taskAssumed: boolean, values: CalibrationValues): Basis[] {
  return [
    fixed('loadConstantKg', LOAD_CONSTANT_KG, 'kg', 'published', NIOSH),
    fixed('multipliers', null, '-', 'published', NIOSH),
    fixed('couplingGoodAndPoor', null, '-', 'from-memory', COUPLING),
    fixed('teamShares', null, '-', 'published', TEAMS),
    ...(taskAssumed ? [fixed('liftOfAWetBundle', null, '-', 'own-calibration', WET_BUNDLE_SOURCE)] : []),
    ...(stage === null ? [] : own(values, STAGE_KEYS[stage], BUNDLE)),
  ];
}

const WET_BUNDLE_SOURCE = say('Our own assumption where the lift is not described: a wet bundle from the floor onto a table, now and then, without handles.');
