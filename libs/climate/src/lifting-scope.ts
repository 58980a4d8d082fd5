/**
 * Where the lifting equation does not hold, and the whole answer for a lift: refused with its reasons, or a limit with a crew.
 *
 * Published: the limits of the equation (NIOSH 94-110, rev. 9/2021, section 1.2, as read in a public transcription). Most of them turn up in
 * salvage; the answer is then no number but an aid or a trained person. Ours: that a lift refused is refused whole.
 */
import type { Advice } from './advice.js';
import { requireChoice, requireNumber } from './climate-range.error.js';
import { liftingIndex, liftMultipliers, recommendedWeightKg, type LiftMultipliers, type LiftReading, type LiftTask } from './lifting.js';
import { peopleForLift, teamCapacitiesKg } from './lifting-crew.js';
import { AIR_TEMP_RULE, RELATIVE_HUMIDITY_RULE } from './psychrometrics.js';

/** Circumstances of a lift under which the equation does not hold. */
export const LIFT_CIRCUMSTANCES = ['one-handed', 'seated-or-kneeling', 'cramped', 'load-shifts', 'carried-or-pushed', 'shovel-or-barrow', 'fast', 'slippery-floor', 'over-8-hours'] as const;
export type LiftCircumstance = (typeof LIFT_CIRCUMSTANCES)[number];

export type LiftScopeCode = 'one_handed' | 'seated_or_kneeling' | 'cramped' | 'load_shifts' | 'carried_or_pushed' | 'shovel_or_barrow' | 'fast' | 'slippery_floor' | 'over_8_hours' | 'air_too_cold' | 'air_too_hot' | 'air_too_dry' | 'air_too_damp';

const CIRCUMSTANCE: Readonly<Record<LiftCircumstance, { code: LiftScopeCode; text: string }>> = {
  'one-handed': { code: 'one_handed', text: 'The load is lifted with one hand.' },
  'seated-or-kneeling': { code: 'seated_or_kneeling', text: 'The lift is made sitting or kneeling.' },
  cramped: { code: 'cramped', text: 'There is no room to stand and move freely.' },
  'load-shifts': { code: 'load_shifts', text: 'The load shifts as it is lifted, as water in a tub or a sagging wet bundle does.' },
  'carried-or-pushed': { code: 'carried_or_pushed', text: 'The load is carried, pushed or pulled.' },
  'shovel-or-barrow': { code: 'shovel_or_barrow', text: 'The load is on a shovel or a wheelbarrow.' },
  fast: { code: 'fast', text: 'The lift is fast or jerked.' },
  'slippery-floor': { code: 'slippery_floor', text: 'The floor is wet or slippery: friction below 0.4.' },
  'over-8-hours': { code: 'over_8_hours', text: 'Lifting goes on for more than eight hours.' },
};

/** Least friction between sole and floor. */
const FRICTION_MIN = 0.4;
/** Air in which the equation was made. */
const AIR = { tempMinC: 19, tempMaxC: 26, humidityMinPct: 35, humidityMaxPct: 50 };

/** A lift with what is around it. */
export interface LiftQuestion {
  loadKg: number;
  task: LiftTask;
  /** Hands above the floor where the load is put down, cm, when it must be put down with care: the lower of both limits then counts. */
  placedAtCm?: number | null;
  /** Reach at that end, cm; as at the beginning where it is not told. */
  placedReachCm?: number | null;
  circumstances?: readonly LiftCircumstance[];
  /** Friction between sole and floor, where measured. */
  floorFriction?: number | null;
  /** Air at the place; `null` where nobody measured. */
  airTempC?: number | null;
  relativeHumidityPct?: number | null;
}

export type LiftNoteCode = 'use_an_aid' | 'too_heavy_for_one' | 'fourth_adds_nothing' | 'nothing_may_be_lifted' | 'air_not_told' | 'upper_screen';

/** The answer to a lift. */
export interface LiftAnswer {
  /** Why the equation does not hold; then there is no number, and an aid or a trained person is asked for. */
  outside: Advice<LiftScopeCode>[];
  /** What one person may lift, at both ends and the lower of them; `null` outside the equation. */
  limitKg: { origin: number; destination: number | null; lower: number } | null;
  multipliers: { origin: LiftMultipliers; destination: LiftMultipliers | null } | null;
  liftingIndex: number | null;
  reading: LiftReading | null;
  /** People who lift it together, 1 to 3; `null` for none: an aid. */
  people: number | null;
  /** What one, two and three may lift, kg. */
  teamKg: [one: number, two: number, three: number] | null;
  aid: boolean;
  notes: Advice<LiftNoteCode>[];
}

/** Everything that puts a lift outside of the equation; empty where it holds. @throws ClimateRangeError */
export function liftScope(question: Pick<LiftQuestion, 'circumstances' | 'floorFriction' | 'airTempC' | 'relativeHumidityPct'>): Advice<LiftScopeCode>[] {
  const told = (question.circumstances ?? []).map((each) => ({ ...requireChoice('circumstances', each, CIRCUMSTANCE), values: {} }));
  const { floorFriction = null, airTempC = null, relativeHumidityPct = null } = question;
  const slips = floorFriction !== null && requireNumber('floorFriction', floorFriction, { min: 0, max: 2, unit: '(coefficient)' }) < FRICTION_MIN;
  const floor = slips && !told.some(({ code }) => code === 'slippery_floor') ? [{ ...CIRCUMSTANCE['slippery-floor'], values: { friction: floorFriction } }] : [];
  const air: Advice<LiftScopeCode>[] = [];
  const add = (code: LiftScopeCode, value: number, text: string): void => void air.push({ code, values: { value }, text });
  if (airTempC !== null) {
    requireNumber('airTempC', airTempC, AIR_TEMP_RULE);
    if (airTempC < AIR.tempMinC) add('air_too_cold', airTempC, `At ${airTempC} C the air is colder than the 19 C to which the equation holds.`);
    if (airTempC > AIR.tempMaxC) add('air_too_hot', airTempC, `At ${airTempC} C the air is warmer than the 26 C to which the equation holds.`);
  }
  if (relativeHumidityPct !== null) {
    requireNumber('relativeHumidityPct', relativeHumidityPct, RELATIVE_HUMIDITY_RULE);
    if (relativeHumidityPct < AIR.humidityMinPct) add('air_too_dry', relativeHumidityPct, `At ${relativeHumidityPct} % the air is drier than the 35 % to which the equation holds.`);
    if (relativeHumidityPct > AIR.humidityMaxPct) add('air_too_damp', relativeHumidityPct, `At ${relativeHumidityPct} % the air is damper than the 50 % to which the equation holds.`);
  }
  return [...told, ...floor, ...air];
}

/** The answer to a lift: outside the equation with its reasons, or the limit, the crew and the aid. @throws ClimateRangeError */
export function liftAnswer(question: LiftQuestion): LiftAnswer {
  const outside = liftScope(question);
  const loadKg = requireNumber('loadKg', question.loadKg, { min: 0, max: 100_000, unit: 'kg' });
  if (outside.length > 0) {
    const text = 'The lifting equation does not hold here, so it gives no number. Drain the load, take it in parts, use a trolley, board or hoist, or ask somebody trained in manual handling.';
    return { outside, limitKg: null, multipliers: null, liftingIndex: null, reading: null, people: null, teamKg: null, aid: true, notes: [{ code: 'use_an_aid', values: {}, text }] };
  }
  const { task, placedAtCm = null, placedReachCm = null } = question;
  const placed = placedAtCm === null ? null : { ...task, verticalCm: placedAtCm, horizontalCm: placedReachCm ?? task.horizontalCm };
  const origin = recommendedWeightKg(task);
  const destination = placed === null ? null : recommendedWeightKg(placed);
  const lower = Math.min(origin, destination ?? origin);
  const { index, reading } = liftingIndex(loadKg, lower);
  const people = peopleForLift(loadKg, lower);
  return {
    outside,
    limitKg: { origin, destination, lower },
    multipliers: { origin: liftMultipliers(task), destination: placed === null ? null : liftMultipliers(placed) },
    liftingIndex: index,
    reading,
    people,
    teamKg: teamCapacitiesKg(lower),
    aid: people === null,
    notes: notesOf(loadKg, lower, people, question),
  };
}

function notesOf(loadKg: number, limitKg: number, people: number | null, { airTempC = null, relativeHumidityPct = null }: LiftQuestion): Advice<LiftNoteCode>[] {
  const notes: Advice<LiftNoteCode>[] = [];
  const add = (code: LiftNoteCode, values: Advice['values'], text: string): void => void notes.push({ code, values, text });
  const kg = (mass: number): number => Math.round(mass * 10) / 10;
  const values = { loadKg: kg(loadKg), limitKg: kg(limitKg) };
  if (limitKg === 0) add('nothing_may_be_lifted', {}, 'Reach, height, way, turn or pace is beyond what the equation allows: nothing is lifted like this. Come nearer, turn the feet, lift in two stages or more slowly, or use an aid.');
  else if (people === null) add('use_an_aid', values, `${values.loadKg} kg is more than three people may lift like this. Drain it, take it in parts, or use a trolley, board or hoist.`);
  else if (people > 1) add('too_heavy_for_one', { ...values, people }, `${values.loadKg} kg is more than the ${values.limitKg} kg that one person may lift like this: ${people} people together, or an aid.`);
  if (people === null && limitKg > 0) add('fourth_adds_nothing', {}, 'A fourth person adds nothing: more than three rarely lift as one.');
  if (airTempC === null || relativeHumidityPct === null) add('air_not_told', {}, 'The limit holds for air of 19 to 26 C and 35 to 50 %; the air of this place was not told.');
  add('upper_screen', {}, 'Local rules and people trained in manual handling come first. For wet things the limit is the most, not an aim.');
  return notes;
}
