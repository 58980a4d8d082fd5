/**
 * Who may do a step, why not, and what they can do instead. Pure: times, day, weights and heat come as numbers; weight and heat
 * are reckoned in `climate`, which this library does not know. Restrictions are what a person declares, never a diagnosis.
 */
import { say } from './messages/message.js';
import type { Message } from './messages/message.js';
import { SKILL_WORDS, STEP_WORDS } from './messages/words.js';
import { DEFAULT_PEOPLE_CALIBRATION } from './people-calibration.js';
import type { PeopleCalibration } from './people-calibration.js';
import { breathingProtectionOf } from './protection.js';
import type { BreathingProtection } from './protection.js';
import { published } from './sources.js';
import type { CareStep, Restriction, Skill, Source, StepKind } from './types.js';

/** Somebody as the roster knows them. */
export interface Worker {
  skills: readonly Skill[];
  restrictions: readonly Restriction[];
  /** Last day, `2027-04-30`, on which medical fitness and fit test are valid; null for none on record. */
  respiratorFitUntil: string | null;
  /** Epoch milliseconds, in any order; a shift that ends as it starts did not happen. */
  shifts: readonly { startsAtMs: number; endsAtMs: number }[];
}

/** Work and rest in the heat of one step, in its clothing and with its effort. */
export interface HeatLimit {
  /** Wet-bulb globe temperature with what the clothing adds, degrees Celsius. */
  wbgtC: number;
  /** Minutes of work in each hour, 0 to 60; the rest of the hour is rest. */
  workMinutesPerHour: number;
  source: Source;
}

/** What one lift of a step weighs, and for how many people that is. */
export interface LiftLimit {
  loadKg: number;
  /** People who lift it together; null when no number of people is enough and an aid must carry it. */
  peopleNeeded: number | null;
  source: Source;
}

/** A step with its heat and weight; null where nobody has measured, and for steps that lift nothing. */
export interface StepAtHand extends Pick<CareStep, 'step' | 'zone' | 'skill' | 'barredRestrictions' | 'ppe'> {
  heat: HeatLimit | null;
  lift: LiftLimit | null;
}

/** The circumstances of the work. */
export interface WorkConditions {
  /** When the work begins, epoch milliseconds. */
  atMs: number;
  /** The day of the calendar there, `2026-05-09`. */
  onDay: string;
  /** People who do it together, this one among them. */
  peopleTogether: number;
  /** A trolley, board or hoist carries the weight. */
  liftingAid: boolean;
  /** Minutes this person has worked in the hour up to the end of the step; null when nobody knows. */
  workedMinutesInHour: number | null;
  /** Steps that could be done instead, best first. */
  others: readonly StepAtHand[];
}

export const SUITABILITY_CODES = ['skill_missing', 'under_age', 'restriction_declared', 'respirator_fit_missing', 'respirator_fit_over', 'hours_too_long', 'heat_stop', 'heat_rest_due', 'too_heavy', 'lifting_aid_needed'] as const;
export type SuitabilityCode = (typeof SUITABILITY_CODES)[number];

/** Why somebody should not do a step, in plain words that can be said in every language we speak. */
export interface SuitabilityReason {
  code: SuitabilityCode;
  text: Message;
  source: Source;
}

export type Suitability = { allowed: true } | { allowed: false; reasons: SuitabilityReason[]; instead: StepKind[] };

/** Says whether a person may do a step; if not, every reason, and the other steps that they may do. */
export function mayDo(person: Worker, step: StepAtHand, conditions: WorkConditions, calibration: PeopleCalibration = DEFAULT_PEOPLE_CALIBRATION): Suitability {
  const reasons = reasonsAgainst(person, step, conditions, calibration);
  if (reasons.length === 0) return { allowed: true };
  const open = conditions.others.filter((other) => other.step !== step.step && reasonsAgainst(person, other, conditions, calibration).length === 0);
  return { allowed: false, reasons, instead: [...new Set(open.map((other) => other.step))] };
}

function reasonsAgainst(person: Worker, step: StepAtHand, conditions: WorkConditions, calibration: PeopleCalibration): SuitabilityReason[] {
  return [
    ...skillReasons(person, step),
    ...ageReasons(person, step),
    ...restrictionReasons(person, step),
    ...respiratorReasons(person, step, conditions, calibration),
    ...hoursReasons(person, conditions, calibration),
    ...heatReasons(step, conditions),
    ...weightReasons(step, conditions),
  ];
}

/** Our own calibration, in words of the catalogues. */
const ours = (cite: Message): Source => ({ mark: 'own-calibration', cite: cite.text });

function skillReasons({ skills }: Worker, { step, skill }: StepAtHand): SuitabilityReason[] {
  if (skill === null || skills.includes(skill)) return [];
  return [{
    code: 'skill_missing',
    text: say('The step “{step}” is for people with the skill “{skill}”, which is not on record for this person. Let somebody with the skill do it, or show them how and put the skill on record.', { step: STEP_WORDS[step], skill: SKILL_WORDS[skill] }),
    source: ours(say('Our own calibration: which skill a step asks for. Teams by skill are the advice of ICCROM, First Aid to Cultural Heritage in Times of Crisis (2018), as read in a copy.')),
  }];
}

/** What bars people from a step. The zones stand here too: no rule that is switched off opens the dirty side to the young. */
export function barredFrom({ zone, barredRestrictions }: Pick<StepAtHand, 'zone' | 'barredRestrictions'>): Restriction[] {
  const isDirty = zone === 'dirty' || zone === 'quarantine';
  return isDirty && !barredRestrictions.includes('under-age') ? [...barredRestrictions, 'under-age'] : [...barredRestrictions];
}

function ageReasons({ restrictions }: Worker, step: StepAtHand): SuitabilityReason[] {
  if (!barredFrom(step).includes('under-age') || !restrictions.includes('under-age')) return [];
  return [{ code: 'under_age', text: say('Nobody under age works on the dirty side or with mould.'), source: published('fema2023') }];
}

const AT_THEIR_WORD = ours(say('Our own calibration: a declared restriction is taken at its word.'));
const DECLARED: Readonly<Record<Exclude<Restriction, 'under-age'>, { what: Message; source: Source }>> = {
  'no-mould': { what: say('not to work with mould'), source: published('cci1315', 'fema2023') },
  'no-lifting': { what: say('not to lift'), source: AT_THEIR_WORD },
  'no-wet-work': { what: say('not to do wet work'), source: AT_THEIR_WORD },
  'no-heat': { what: say('not to work in heat'), source: AT_THEIR_WORD },
};

function restrictionReasons({ restrictions }: Worker, { step, barredRestrictions }: StepAtHand): SuitabilityReason[] {
  return restrictions.flatMap((restriction) => {
    if (restriction === 'under-age' || !barredRestrictions.includes(restriction)) return [];
    const { what, source } = DECLARED[restriction];
    return [{ code: 'restriction_declared' as const, text: say('This person has declared {what}, which the step “{step}” would ask for here. Nobody asks why.', { what, step: STEP_WORDS[step] }), source }];
  });
}

const REQUIRED_MASK = ours(say('Our own calibration: whoever is asked to wear a filtering mask counts as a required wearer under 29 CFR 1910.134, which then asks for a medical evaluation and a fit test. Local law comes first.'));

const isTight = (protection: BreathingProtection): boolean => protection === 'tight' || protection === 'vapour';

/** True when whoever wears this equipment needs medical fitness and a fit test that are valid. */
export function needsRespiratorFit(ppe: readonly string[], calibration: PeopleCalibration = DEFAULT_PEOPLE_CALIBRATION): boolean {
  const protection = breathingProtectionOf(ppe);
  return isTight(protection) || (protection === 'dust' && calibration.fitForRequiredMask);
}

function respiratorReasons({ respiratorFitUntil: until }: Worker, { step, ppe }: StepAtHand, { onDay }: WorkConditions, calibration: PeopleCalibration): SuitabilityReason[] {
  if (!needsRespiratorFit(ppe, calibration) || (until !== null && until >= onDay)) return [];
  const protection = breathingProtectionOf(ppe);
  const values = { step: STEP_WORDS[step], worn: wornFor(protection) };
  const source = isTight(protection) ? published('cfr1910134') : REQUIRED_MASK;
  if (until === null) return [{ code: 'respirator_fit_missing', text: say('The step “{step}” asks for {worn}, and no day is on record until which medical fitness and fit test of this person are valid. Record the day after the test, or let somebody with a valid one do it.', values), source }];
  return [{ code: 'respirator_fit_over', text: say('The step “{step}” asks for {worn}, and medical fitness and fit test of this person were valid until {until}. Record the new day after the test, or let somebody with a valid one do it.', { ...values, until }), source }];
}

function wornFor(protection: BreathingProtection): Message {
  if (protection === 'vapour') return say('a tight respirator against vapour (an N95 is not a gas mask)');
  return protection === 'tight' ? say('a tight respirator') : say('a respirator');
}

/**
 * Hours on shift since the last real break, up to a moment; overtime after a shift counts. Null when no shift of the person had begun.
 */
export function hoursSinceRest(shifts: Worker['shifts'], atMs: number, restHours: number): number | null {
  const begun = shifts.filter(({ startsAtMs, endsAtMs }) => startsAtMs <= atMs && endsAtMs > startsAtMs).sort((a, b) => a.startsAtMs - b.startsAtMs);
  if (begun.length === 0) return null;
  const restMs = restHours * HOUR_MS;
  let stretch = { workedMs: 0, endsAtMs: -Infinity };
  for (const shift of begun) {
    if (shift.startsAtMs - stretch.endsAtMs >= restMs) stretch = { workedMs: 0, endsAtMs: shift.startsAtMs };
    const endsAtMs = Math.min(shift.endsAtMs, atMs);
    stretch.workedMs += Math.max(0, endsAtMs - Math.max(shift.startsAtMs, stretch.endsAtMs));
    stretch.endsAtMs = Math.max(stretch.endsAtMs, endsAtMs);
  }
  const sinceMs = atMs - stretch.endsAtMs;
  // Who still works soon after the end of a shift has not gone home.
  return sinceMs >= restMs ? 0 : (stretch.workedMs + sinceMs) / HOUR_MS;
}

const HOUR_MS = 3_600_000;

/**
 * The parts of shifts in which somebody has not been on shift for too long: each stretch without a real break ends after the
 * most hours. In the order of their beginnings, without overlaps.
 */
export function shiftsWithinHours(shifts: Worker['shifts'], { consecutiveHoursMax, restHours }: Pick<PeopleCalibration, 'consecutiveHoursMax' | 'restHours'>): { startsAtMs: number; endsAtMs: number }[] {
  const parts: { startsAtMs: number; endsAtMs: number }[] = [];
  let leftMs = 0;
  let reachedMs = -Infinity;
  for (const shift of shifts.filter(({ startsAtMs, endsAtMs }) => endsAtMs > startsAtMs).sort((a, b) => a.startsAtMs - b.startsAtMs)) {
    if (shift.startsAtMs - reachedMs >= restHours * HOUR_MS) leftMs = consecutiveHoursMax * HOUR_MS;
    const startsAtMs = Math.max(shift.startsAtMs, reachedMs);
    const endsAtMs = Math.min(shift.endsAtMs, startsAtMs + leftMs);
    if (endsAtMs > startsAtMs) {
      parts.push({ startsAtMs, endsAtMs });
      leftMs -= endsAtMs - startsAtMs;
    }
    reachedMs = Math.max(reachedMs, shift.endsAtMs);
  }
  return parts;
}

const REST = ours(say('Our own calibration: hours on shift without a real break, and how long a break is one.'));

function hoursReasons({ shifts }: Worker, { atMs }: WorkConditions, { consecutiveHoursMax: most, restHours: rest }: PeopleCalibration): SuitabilityReason[] {
  const hours = hoursSinceRest(shifts, atMs, rest);
  if (hours === null || hours <= most) return [];
  const text = say('This person has been on shift for {hours} hours since the last break of {rest} hours. Nobody works more than {most} hours here: send them home to rest.', { hours: hours.toFixed(1), rest, most });
  return [{ code: 'hours_too_long', text, source: REST }];
}

function heatReasons({ step, heat }: StepAtHand, { workedMinutesInHour: worked }: WorkConditions): SuitabilityReason[] {
  if (heat === null || heat.workMinutesPerHour >= 60) return [];
  const { source, workMinutesPerHour: most } = heat;
  const values = { step: STEP_WORDS[step], wbgt: heat.wbgtC.toFixed(1) };
  if (most <= 0) {
    return [{ code: 'heat_stop', text: say('It is too hot for the step “{step}” (wet-bulb globe temperature {wbgt} °C, with what its clothing adds): nobody does it now. Stopping beats finishing the batch. Cool the place, or wait for a cooler hour.', values), source }];
  }
  if (worked === null || worked <= most) return [];
  const text = say('It is hot for the step “{step}” (wet-bulb globe temperature {wbgt} °C, with what its clothing adds): at most {most} minutes of work in an hour, and this person has worked {worked}. Water, shade and rest come first. Stopping beats finishing the batch.', { ...values, most, worked: Math.ceil(worked) });
  return [{ code: 'heat_rest_due', text, source }];
}

function weightReasons({ step, lift }: StepAtHand, { peopleTogether: people, liftingAid }: WorkConditions): SuitabilityReason[] {
  if (lift === null || liftingAid || (lift.peopleNeeded !== null && people >= lift.peopleNeeded)) return [];
  const { source, peopleNeeded: needed } = lift;
  const values = { step: STEP_WORDS[step], kg: lift.loadKg.toFixed(1) };
  if (needed === null) return [{ code: 'lifting_aid_needed', text: say('For the step “{step}” about {kg} kg are lifted at once: too much for any number of people. Drain it first, take it in parts, or use a trolley, board or hoist.', values), source }];
  const text = say('For the step “{step}” about {kg} kg are lifted at once: that takes {needed} people together, and {people, plural, one {# is} other {# are}} named. Name everybody who lifts, drain it first, or use a trolley, board or hoist.', { ...values, needed, people });
  return [{ code: 'too_heavy', text, source }];
}
