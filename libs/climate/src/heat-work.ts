/**
 * Protection and heat judged together, for one step and one person: what may be worn may be too hot to work in.
 *
 * Published, as read in copies: limits and clothing (see `heat-stress.ts`), the share of a shift for new and returning people (NIOSH), the
 * monitoring table and the pulse rule (NIOSH/OSHA/USCG/EPA, Occupational Safety and Health Guidance Manual for Hazardous Waste Site
 * Activities, 1985), deaths from 21 C WBGT on at moderate work (OSHA Technical Manual III:4, 2017). Common practice: water, a buddy, the
 * signs. Ours: the monitoring table as the longest spell without somebody looking, because it is laxer than the limits with clothing;
 * film coveralls counted as suits in it.
 */
import type { Advice } from './advice.js';
import { requireChoice, requireNumber } from './climate-range.error.js';
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';
import { heatIndexBand, heatIndexC, type HeatIndexBand } from './heat-index.js';
import { clothingAdditionC, heatLimitC, METABOLIC_RATE_W, sustainableRateW, REST_RATE_W, workMinutesPerHour, type HeatWear, type WorkEffort } from './heat-stress.js';
import { AIR_TEMP_RULE } from './psychrometrics.js';
import { wbgtOf, type HeatSource, type Wbgt, type WbgtNoteCode } from './wbgt.js';

/** How used somebody is to this heat. `new` and `returning` are ramped up by day. */
export const HEAT_PEOPLE = ['new', 'returning', 'used'] as const;
export type HeatPerson = (typeof HEAT_PEOPLE)[number];

const RAMP_PCT: Readonly<Record<HeatPerson, readonly number[]>> = { new: [20, 40, 60, 80, 100], returning: [50, 60, 80, 100], used: [100] };

/** Share of a full shift in the heat on a day, 1 for the first, percent. @throws ClimateRangeError */
export function shiftSharePct(person: HeatPerson, dayInHeat: number): number {
  const ramp = requireChoice('person', person, RAMP_PCT);
  const day = requireNumber('dayInHeat', dayInHeat, { min: 1, max: 1000, unit: 'days', hint: 'The first day in the heat is day 1.' });
  return ramp[Math.min(Math.floor(day), ramp.length) - 1]!;
}

/** Rows: from this adjusted temperature in F; minutes in a suit, in ordinary clothes. */
const MONITORING: readonly (readonly [fromF: number, suitMin: number, clothesMin: number])[] = [[90, 15, 45], [87.5, 30, 60], [82.5, 60, 90], [77.5, 90, 120], [72.5, 120, 150]];
/** Anybody in a suit is monitored from here on, F. */
const SUIT_MONITORED_FROM_F = 70;

/**
 * Longest spell without somebody looking at the person, minutes; `null` where the table asks for none. The temperature is adjusted by
 * 13 F for full sunshine. Written for fit people used to heat: never a time that may be worked. @throws ClimateRangeError
 */
export function longestUnwatchedMin(air: { airTempC: number; sunshineShare: number }, inSuit: boolean): number | null {
  const tempF = (requireNumber('airTempC', air.airTempC, AIR_TEMP_RULE) * 9) / 5 + 32;
  const adjustedF = tempF + 13 * requireNumber('sunshineShare', air.sunshineShare, { min: 0, max: 1, unit: '(0 to 1)' });
  const found = MONITORING.find(([fromF]) => adjustedF >= fromF);
  if (found !== undefined) return inSuit ? found[1] : found[2];
  return inSuit && adjustedF > SUIT_MONITORED_FROM_F ? MONITORING.at(-1)![1] : null;
}

/** Beats a minute at the start of a rest above which the next spell of work is a third shorter. */
export const REST_PULSE_MAX = 110;

/** Minutes of the next spell of work after a pulse was taken at the start of the rest. @throws ClimateRangeError */
export function nextSpellMin(spellMin: number, pulsePerMin: number): number {
  const spell = requireNumber('spellMin', spellMin, { min: 0, max: 240, unit: 'min' });
  return requireNumber('pulsePerMin', pulsePerMin, { min: 20, max: 260, unit: 'beats a minute' }) > REST_PULSE_MAX ? Math.floor((spell * 2) / 3) : spell;
}

/** A step, as far as heat is concerned, and who does it. */
export interface HeatQuestion {
  heat: HeatSource;
  wear: HeatWear;
  /** A suit that closes the body off altogether, with its own air: no table holds. */
  encapsulating?: boolean;
  effort: WorkEffort;
  /** Only somebody who has worked in such heat for days. Volunteers are not. */
  acclimatised: boolean;
  person: HeatPerson;
  /** 1 for the first day in the heat; `null` when nobody knows, which counts as the first. */
  dayInHeat: number | null;
  /** Share of the sky without clouds, 0 to 1; 0 in a hall. */
  sunshineShare?: number;
  /** Taken at the start of the last rest. */
  pulsePerMin?: number | null;
}

export type HeatNoteCode =
  | WbgtNoteCode | 'heat_stop' | 'heat_rest' | 'suit_outside_tables' | 'rest_elsewhere' | 'strenuous_in_warmth' | 'ramp' | 'look_at_person' | 'pulse_high' | 'pulse_rule' | 'drink' | 'buddy' | 'signs';

/** Minutes and cautions for a step. */
export interface HeatAnswer {
  wbgt: Omit<Wbgt, 'notes'>;
  clothingAdditionC: number;
  /** WBGT with what clothing adds: the `wbgtC` that a person is told. */
  wbgtWithClothingC: number;
  /** Up to where this effort may go on all hour. */
  limitC: number;
  /** Minutes of work in each hour; 0 stops the step. After a high pulse a third less. */
  workMinutesPerHour: number;
  restMinutesPerHour: number;
  stop: boolean;
  shiftSharePct: number;
  longestUnwatchedMin: number | null;
  /** For display; `null` where no air was told. */
  heatIndex: { indexC: number; band: HeatIndexBand } | null;
  notes: Advice<HeatNoteCode>[];
}

/** Judges a step for a person: minutes in each hour, share of the shift, cautions. @throws ClimateRangeError */
export function heatAnswer(question: HeatQuestion, values: CalibrationValues = DEFAULT_CALIBRATION): HeatAnswer {
  const { notes, ...wbgt } = wbgtOf(question.heat, values);
  const { effort, acclimatised, wear, encapsulating = false, pulsePerMin = null } = question;
  const addition = clothingAdditionC(wear);
  const byLimits = encapsulating ? 0 : workMinutesPerHour({ wbgtC: wbgt.wbgtC, effort, acclimatised, ...wear });
  const minutes = pulsePerMin === null ? byLimits : nextSpellMin(byLimits, pulsePerMin);
  const air = airOf(question.heat);
  const unwatched = air === null ? null : longestUnwatchedMin({ airTempC: air.airTempC, sunshineShare: question.sunshineShare ?? 0 }, isSuit(question));
  const indexC = air === null || air.relativeHumidityPct === null ? null : heatIndexC({ airTempC: air.airTempC, relativeHumidityPct: air.relativeHumidityPct });
  const answer: Omit<HeatAnswer, 'notes'> = {
    wbgt,
    clothingAdditionC: addition,
    wbgtWithClothingC: wbgt.wbgtC + addition,
    limitC: heatLimitC(requireChoice('effort', effort, METABOLIC_RATE_W), acclimatised),
    workMinutesPerHour: minutes,
    restMinutesPerHour: 60 - minutes,
    stop: minutes <= 0,
    shiftSharePct: shiftSharePct(question.person, question.dayInHeat ?? 1),
    longestUnwatchedMin: unwatched,
    heatIndex: indexC === null ? null : { indexC, band: heatIndexBand((indexC * 9) / 5 + 32) },
  };
  return { ...answer, notes: [...notesOf(answer, question), ...notes] };
}

function isSuit({ wear, encapsulating = false }: HeatQuestion): boolean {
  return encapsulating || wear.clothing === 'vapour-barrier' || wear.clothing === 'film-coverall';
}

function airOf(heat: HeatSource): { airTempC: number; relativeHumidityPct: number | null } | null {
  if (heat.from === 'meter') return heat.air ?? null;
  return heat.from === 'thermometers' ? { airTempC: heat.airTempC, relativeHumidityPct: null } : heat.air;
}

function notesOf(answer: Omit<HeatAnswer, 'notes'>, question: HeatQuestion): Advice<HeatNoteCode>[] {
  const notes: Advice<HeatNoteCode>[] = [];
  const add = (code: HeatNoteCode, values: Advice['values'], text: string): void => void notes.push({ code, values, text });
  const wbgt = Math.round(answer.wbgtWithClothingC * 10) / 10;
  const { workMinutesPerHour: work, restMinutesPerHour: rest } = answer;
  if (question.encapsulating === true) add('suit_outside_tables', {}, 'No table holds for a suit that closes the body off: nobody works in one here without people trained to watch over it.');
  else if (answer.stop) add('heat_stop', { wbgt }, `Too hot for this step (WBGT ${wbgt} C, with what the clothing adds): nobody does it now. Cool the place, wait for a cooler hour, or find a way that needs less protection. Stopping beats finishing the batch.`);
  else if (work < 60) add('heat_rest', { wbgt, work, rest }, `At most ${work} minutes of work in each hour, ${rest} minutes of rest (WBGT ${wbgt} C, with what the clothing adds).`);
  if (sustainableRateW(answer.wbgtWithClothingC, question.acclimatised) < REST_RATE_W) add('rest_elsewhere', {}, 'Even resting is too hot here in these clothes: take them off and rest in a cooler place.');
  if (answer.wbgtWithClothingC > STRENUOUS_FROM_C && question.effort !== 'light') add('strenuous_in_warmth', {}, 'People have died at moderate and harder work from 21 C WBGT on: watch one another.');
  if (answer.shiftSharePct < 100) add('ramp', { percent: answer.shiftSharePct }, `Not used to this heat yet: at most ${answer.shiftSharePct} % of a shift in it today.`);
  if (answer.longestUnwatchedMin !== null) add('look_at_person', { minutes: answer.longestUnwatchedMin }, `Somebody looks at the person at least every ${answer.longestUnwatchedMin} minutes.`);
  if (question.pulsePerMin !== undefined && question.pulsePerMin !== null && question.pulsePerMin > REST_PULSE_MAX) add('pulse_high', { pulse: question.pulsePerMin }, `A pulse of ${question.pulsePerMin} at the start of the rest is high: the next spell of work is a third shorter.`);
  if (work < 60 || answer.longestUnwatchedMin !== null) {
    add('pulse_rule', { pulse: REST_PULSE_MAX }, `Take the pulse at the start of each rest; above ${REST_PULSE_MAX} a minute the next spell of work is a third shorter.`);
    add('drink', {}, 'Water within reach, small amounts often, before thirst; shade for the rest.');
    add('buddy', {}, 'Nobody works alone in heat.');
    add('signs', {}, 'Headache, dizziness, nausea or cramps: stop, cool, drink, stay with them. Confusion, collapse or hot dry skin is an emergency: call for help and cool at once.');
  }
  return notes;
}

const STRENUOUS_FROM_C = 21;
