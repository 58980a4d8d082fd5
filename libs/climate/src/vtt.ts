/**
 * The published mould index beside our clock, and a second published dose as a cross-check.
 *
 * Published: the index (A. Hukka and H. A. Viitanen, A mathematical model of mould growth on wooden material, Wood Science and Technology
 * 33, 1999), its four classes (T. Ojanen, H. Viitanen, R. Peuhkuri and others, 2010), and the terms of the dose model (T. Isaksson,
 * S. Thelandersson and others, Building and Environment 65, 2013). Read in independent public implementations; of the papers only abstracts
 * and a first page. From memory: what each class stands for, how much a class falls back while dry, the critical dose of 17 days. Both
 * models were found on building materials, mostly wood, and one later study finds the index unreliable for a board of bamboo.
 *
 * Sedlbauer's isopleths are not here: no published formula for them was found, memory and a secondary summary disagree on where
 * the lowest one lies, and the critical humidity of the index follows the same pattern.
 */
import { requireChoice, requireNumber, type NumberRule } from './climate-range.error.js';
import type { MarkedNumber } from './marks.js';
import { criticalPctOf, type ClockSegment } from './mould-clock.js';

/** Sensitivity of a material. The published examples are building materials (from memory): sapwood; planed wood and paper-faced board; concrete and mineral wool; glass and hard plastic. */
export const VTT_CLASSES = ['very-sensitive', 'sensitive', 'medium-resistant', 'resistant'] as const;
export type VttClass = (typeof VTT_CLASSES)[number];

/** A row of the table of classes. */
export interface VttClassRow {
  /** Growth against the original pine below index 1, and from there on. */
  readonly growthBelow1: number;
  readonly growthFrom1: number;
  /** The highest index to be reached: `A + B r - C r^2`. */
  readonly a: number;
  readonly b: number;
  readonly c: number;
  /** Least humidity for growth, %. */
  readonly humidityMinPct: number;
}

/** The four classes (Ojanen and others 2010). */
export const VTT_CLASS_TABLE: Readonly<Record<VttClass, VttClassRow>> = Object.freeze({
  'very-sensitive': row(1, 2, 1, 7, 2, 80),
  sensitive: row(0.578, 0.386, 0.3, 6, 1, 80),
  'medium-resistant': row(0.072, 0.097, 0, 5, 1.5, 85),
  resistant: row(0.033, 0.014, 0, 3, 1, 85),
});

function row(growthBelow1: number, growthFrom1: number, a: number, b: number, c: number, humidityMinPct: number): VttClassRow {
  return Object.freeze({ growthBelow1, growthFrom1, a, b, c, humidityMinPct });
}

/** How much of the fall of the original pine a material shows while it is too dry or too cold to grow. From memory throughout. */
export const VTT_DECLINE: Readonly<Record<'as-pine' | 'half' | 'quarter' | 'almost-none', MarkedNumber>> = Object.freeze({
  'as-pine': decline(1), half: decline(0.5), quarter: decline(0.25), 'almost-none': decline(0.1),
});
export type VttDecline = keyof typeof VTT_DECLINE;

function decline(value: number): MarkedNumber {
  return Object.freeze({ value, mark: 'from-memory', cite: 'Classes of decline of the VTT model, from memory; not verified.' });
}

/** The index so far, and for how long growth has not been possible; plain data to go on from. */
export interface VttState {
  /** 0 nothing, 1 first growth under the microscope, 3 visible spots, 6 dense over all. */
  index: number;
  hoursUnfavourable: number;
}

export const VTT_FRESH: VttState = Object.freeze({ index: 0, hoursUnfavourable: 0 });
const TEMP_RULE: NumberRule = { min: -60, max: 60, unit: 'C' };
const HUMIDITY_RULE: NumberRule = { min: 0, max: 100, unit: '%', hint: 'Give relative humidity as a percentage.' };
const HOURS_RULE: NumberRule = { min: 0, max: 1e6, unit: 'h' };

/** Weeks to index 1 on pine in steady conditions that allow growth. @throws ClimateRangeError */
export function vttWeeksToFirstGrowth(surfaceTempC: number, relativeHumidityPct: number): number {
  const { t, rh } = growing(surfaceTempC, relativeHumidityPct);
  return Math.exp(-0.68 * Math.log(t) - 13.9 * Math.log(rh) + 66.02);
}

/** Weeks to index 3 on pine in steady conditions that allow growth. @throws ClimateRangeError */
export function vttWeeksToVisibleGrowth(surfaceTempC: number, relativeHumidityPct: number): number {
  const { t, rh } = growing(surfaceTempC, relativeHumidityPct);
  return Math.exp(-0.74 * Math.log(t) - 12.72 * Math.log(rh) + 61.5);
}

function growing(surfaceTempC: number, relativeHumidityPct: number): { t: number; rh: number } {
  const t = requireNumber('surfaceTempC', surfaceTempC, { min: 0, exclusiveMin: true, max: 50, unit: 'C', hint: 'Nothing grows outside of it.' });
  return { t, rh: requireNumber('relativeHumidityPct', relativeHumidityPct, { min: 0, exclusiveMin: true, max: 100, unit: '%' }) };
}

/** The highest index that a class reaches in steady conditions, 0 where it does not grow. @throws ClimateRangeError */
export function vttIndexMax(surfaceTempC: number, relativeHumidityPct: number, vttClass: VttClass): number {
  const t = requireNumber('surfaceTempC', surfaceTempC, TEMP_RULE);
  return indexMax(t, requireNumber('relativeHumidityPct', relativeHumidityPct, HUMIDITY_RULE), requireChoice('vttClass', vttClass, VTT_CLASS_TABLE));
}

function indexMax(t: number, rh: number, { a, b, c, humidityMinPct }: VttClassRow): number {
  const critical = criticalPctOf(t, humidityMinPct);
  if (t <= 0 || t >= 50 || rh < critical) return 0;
  // Where only saturated air allows growth (critical humidity 100 %) the published ratio has no value: the lower end is taken.
  const r = critical >= 100 ? 0 : (critical - rh) / (critical - 100);
  return Math.max(0, a + b * r - c * r * r);
}

/** The index after a history of steady stretches, by the exact solution of its equation in each. `waterActivity` stands for the humidity at the surface. @throws ClimateRangeError */
export function vttIndex(history: readonly ClockSegment[], vttClass: VttClass, decline: VttDecline = 'almost-none', start: VttState = VTT_FRESH): VttState {
  return history.reduce((state, segment) => advanceVtt(state, segment, vttClass, decline), start);
}

/** The index after one more steady stretch. Additive: a stretch cut in two counts the same. @throws ClimateRangeError */
export function advanceVtt(state: VttState, segment: ClockSegment, vttClass: VttClass, decline: VttDecline = 'almost-none'): VttState {
  const hours = requireNumber('hours', segment.hours, HOURS_RULE);
  const t = requireNumber('surfaceTempC', segment.surfaceTempC, TEMP_RULE);
  const rh = 100 * requireNumber('waterActivity', segment.waterActivity, { min: 0, max: 1, unit: '(0 to 1)' });
  const index = requireNumber('index', state.index, { min: 0, max: 6, unit: '(index)' });
  const share = requireChoice('decline', decline, VTT_DECLINE).value;
  const material = requireChoice('vttClass', vttClass, VTT_CLASS_TABLE);
  if (hours === 0) return state;
  if (t > 0 && t < 50 && rh >= criticalPctOf(t, material.humidityMinPct)) {
    return { index: grown(index, hours / 24, 7 * vttWeeksToFirstGrowth(t, rh), indexMax(t, rh, material), material), hoursUnfavourable: 0 };
  }
  const dry = requireNumber('hoursUnfavourable', state.hoursUnfavourable, HOURS_RULE);
  return { index: Math.max(0, index - share * (fallen(dry + hours) - fallen(dry))), hoursUnfavourable: dry + hours };
}

/** What the original pine has lost after hours without growth: -0.032 a day for 6 h, nothing up to 24 h, -0.016 a day from then on. */
function fallen(hours: number): number {
  return (0.032 * Math.min(hours, 6) + 0.016 * Math.max(0, hours - 24)) / 24;
}

/**
 * `dM/dt = k1 (1 - exp(2.3 (M - Mmax))) / days`, k1 changing at M = 1, solved exactly: with u = exp(2.3 (M - Mmax)) the odds
 * u / (1 - u) grow by exp(2.3 k1 t / days).
 */
function grown(index: number, days: number, daysToFirst: number, max: number, { growthBelow1, growthFrom1 }: VttClassRow): number {
  if (index >= max) return index;
  const logOdds = (m: number): number => 2.3 * (m - max) - Math.log(-Math.expm1(2.3 * (m - max)));
  // Growth never lowers the index, not even by rounding.
  const after = (m: number, t: number, k1: number): number => Math.max(m, max - Math.log1p(Math.exp(-(logOdds(m) + (2.3 * k1 * t) / daysToFirst))) / 2.3);
  if (index >= 1) return after(index, days, growthFrom1);
  const daysTo1 = max <= 1 ? Infinity : ((logOdds(1) - logOdds(index)) * daysToFirst) / (2.3 * growthBelow1);
  return days <= daysTo1 ? after(index, days, growthBelow1) : after(1, days - daysTo1, growthFrom1);
}

/** Days of dose at which the most sensitive wood begins to show growth in the second model. */
export const LUND_CRITICAL_DAYS: MarkedNumber = Object.freeze({ value: 17, mark: 'from-memory', cite: 'Critical dose of the dose model of Isaksson, Thelandersson and others (2013), from memory; not verified.' });

/**
 * Dose in days of the second model: 1 a day at 20 C and 90 %. It falls back while drier than 75 %, never below 0; at or below 0.1 C
 * it stands still. Published for daily means; the same terms are taken here for stretches of any length. @throws ClimateRangeError
 */
export function lundDoseDays(history: readonly ClockSegment[], startDays = 0): number {
  return history.reduce((days, segment) => {
    const hours = requireNumber('hours', segment.hours, HOURS_RULE);
    const t = requireNumber('surfaceTempC', segment.surfaceTempC, TEMP_RULE);
    const rh = 100 * requireNumber('waterActivity', segment.waterActivity, { min: 0, max: 1, unit: '(0 to 1)' });
    const ofTemp = t > 0.1 ? Math.exp(0.74 * Math.log(t / 20)) : 0;
    return Math.max(0, days + (ofTemp * lundHumidityTerm(rh) * hours) / 24);
  }, requireNumber('startDays', startDays, { min: 0, max: 1e6, unit: 'days' }));
}

function lundHumidityTerm(rh: number): number {
  if (rh >= 75) return Math.exp(15.53 * Math.log(rh / 90));
  return rh >= 60 ? -2.7 + (1.1 * rh) / 30 : -0.5;
}
