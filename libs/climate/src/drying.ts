/**
 * How moisture leaves a thing over time: at constant rate to the critical moisture Xc, then exponentially towards Xe.
 *
 * Published: that most of the time is constant-rate with a short falling-rate end (Fourt, Sookne, Frishman and Harris, The
 * Rate of Drying of Fabrics, abstract) and that the falling rate of hydrophilic fabrics is proportional to water content
 * (Drying Behavior, part I, abstract). Our calibration: Xc, Xe and every band. Holds for thin permeable goods, roughly below
 * 5 mm. Closed books, quilts with batting, mattresses and heaps dry from inside: for them only a band is given.
 */
import { ClimateRangeError, requireNumber } from './climate-range.error.js';
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';
import { AREA_RULE, arrangementFactor, constantRateFluxKgPerM2H, type DryingAir, type ReachInput } from './evaporation.js';
import { sorptionOf, type Material, type SorptionProperties } from './materials.js';
import { DRY_MASS_RULE, dryTargetX, equilibriumX, MOISTURE_RULE, wetMassKg } from './water-in-things.js';

/** Least span of X over which goods drier than the air take water up (own convention, kg/kg). */
const UPTAKE_SPAN_X = 0.02;
const FACTOR_BAND_RULE = { min: 0, exclusiveMin: true, max: 10, unit: '(factor)' };

/** The three numbers that fix a drying curve. */
export interface DryingLaw {
  /** Loss while X > Xc, kg water per kg dry per hour. */
  ratePerH: number;
  criticalX: number;
  equilibriumX: number;
}

/** One thing (or the sum of like things) drying in steady air. `exposedAreaM2` counts every breathing face. */
export interface DryingInput extends DryingAir, ReachInput {
  dryMassKg: number;
  exposedAreaM2: number;
  material: Material | SorptionProperties;
  radiationFactor?: number;
}

/** `thin`: air film controls. `thick` and `closed`: the inside controls, so no single number is honest. */
export const BUILDS = ['thin', 'thick', 'closed'] as const;
export type Build = (typeof BUILDS)[number];

/** A drying time with its honesty: `hours` is null for thick or closed goods and when the air is too damp. */
export interface DryingForecast {
  hours: number | null;
  earliestH: number | null;
  latestH: number | null;
  tooDamp: boolean;
  advice: string;
}

/** The drying law of goods in steady air. @throws ClimateRangeError */
export function dryingLaw(input: DryingInput, values: CalibrationValues = DEFAULT_CALIBRATION): DryingLaw {
  const mass = requireNumber('dryMassKg', input.dryMassKg, DRY_MASS_RULE);
  const area = requireNumber('exposedAreaM2', input.exposedAreaM2, AREA_RULE);
  const sorption = sorptionOf(input.material, values);
  const ratePerH = (area * constantRateFluxKgPerM2H(input, values)) / mass;
  return { ratePerH, criticalX: sorption.criticalX, equilibriumX: equilibriumX(sorption, input.relativeHumidityPct / 100) };
}

/**
 * Moisture X after some hours in steady air, exactly. Goods drier than the air take water up along the same exponential
 * (own convention). @throws ClimateRangeError for negative or non-finite arguments
 */
export function moistureAfter(law: DryingLaw, startX: number, hours: number): number {
  requireLaw(law);
  requireNumber('startX', startX, MOISTURE_RULE);
  return moistureAfterUnchecked(law, startX, requireNumber('hours', hours, { min: 0, max: 1e6, unit: 'h' }));
}

/** `moistureAfter` without checks. */
export function moistureAfterUnchecked(law: DryingLaw, startX: number, hours: number): number {
  return moistureAfterRate(law.ratePerH, law.criticalX, law.equilibriumX, startX, hours);
}

/** The same over plain numbers, for inner loops. */
export function moistureAfterRate(ratePerH: number, criticalX: number, equilibriumX: number, startX: number, hours: number): number {
  // In very damp air Xe can lie above the critical moisture of the material: then the goods stop at Xe.
  const critical = Math.max(criticalX, equilibriumX);
  let x = startX;
  let left = hours;
  if (x > critical) {
    const untilCritical = ratePerH > 0 ? (x - critical) / ratePerH : Infinity;
    if (left <= untilCritical) return x - ratePerH * left;
    left -= untilCritical;
    x = critical;
  }
  const gap = critical - equilibriumX;
  // Goods drier than the air would otherwise jump to rest where the gap closes, and stand still beyond.
  const span = x < equilibriumX ? Math.max(gap, UPTAKE_SPAN_X) : gap;
  if (span <= 0) return equilibriumX;
  return equilibriumX + (x - equilibriumX) * Math.exp((-ratePerH * left) / span);
}

/**
 * Hours from `startX` to `targetX`; 0 when already there, and `null` when the room is too damp: the goods would come to rest
 * at or above the target, or nothing evaporates. @throws ClimateRangeError
 */
export function dryingTimeH(law: DryingLaw, startX: number, targetX: number): number | null {
  requireLaw(law);
  const start = requireNumber('startX', startX, MOISTURE_RULE);
  const target = requireNumber('targetX', targetX, MOISTURE_RULE);
  return dryingTimeUnchecked(law, start, target);
}

/** `dryingTimeH` without checks, for inner loops. */
export function dryingTimeUnchecked(law: DryingLaw, start: number, target: number): number | null {
  if (start <= target) return 0;
  const { ratePerH: rate, equilibriumX: rest } = law;
  if (target <= rest || rate <= 0) return null;
  const critical = Math.max(law.criticalX, rest);
  const steady = Math.max(0, start - Math.max(critical, target)) / rate;
  if (target >= critical) return steady;
  const from = Math.min(start, critical);
  return steady + ((critical - rest) / rate) * Math.log((from - rest) / (target - rest));
}

/**
 * A drying time for people: an estimate with its band for thin goods, a band alone for thick or closed ones.
 * `targetX` defaults to the dry target of the material. `factorBand`, the interval of a fitted arrangement factor, takes the
 * place of the general error. @throws ClimateRangeError
 */
export function dryingForecast(input: DryingInput & { build: Build; startX: number; targetX?: number; factorBand?: { low: number; high: number } }, values: CalibrationValues = DEFAULT_CALIBRATION): DryingForecast {
  if (!BUILDS.includes(input.build)) throw new ClimateRangeError(`build is ${String(input.build)}; choose one of: ${BUILDS.join(', ')}.`, 'build');
  const hours = dryingTimeH(dryingLaw(input, values), input.startX, input.targetX ?? dryTargetX(input.material, values));
  if (hours === null) {
    return { hours: null, earliestH: null, latestH: null, tooDamp: true, advice: 'This air is too damp to dry the goods to a safe state. Lower the humidity first, or freeze what may be frozen.' };
  }
  // The rate is in proportion to the factor, and all else is the same: hours go as its inverse.
  const share = (bound: 'low' | 'high'): number => arrangementFactor(input, values) / requireNumber(`factorBand.${bound}`, input.factorBand![bound], FACTOR_BAND_RULE);
  const earliestH = hours * (input.factorBand === undefined ? 1 - values.thinErrorFraction : share('high'));
  if (input.build === 'thin') {
    const latestH = input.factorBand === undefined ? hours / (1 - values.thinErrorFraction) : hours * share('low');
    return { hours, earliestH, latestH, tooDamp: false, advice: 'Estimate for thin goods; the level is uncertain until fitted from two weighings. Check by touch and weight before packing.' };
  }
  return {
    hours: null,
    earliestH,
    latestH: hours * values.thickSlowdownMax,
    tooDamp: false,
    advice: 'Thick or closed goods dry from inside and no formula here knows them; a single number would be false precision. Weigh twice, some hours apart, and extrapolate.',
  };
}

/** Two weighings of the same goods in steady air. */
export interface WeighingPair extends DryingAir {
  firstMassKg: number;
  secondMassKg: number;
  hoursBetween: number;
  dryMassKg: number;
  exposedAreaM2: number;
  material: Material | SorptionProperties;
}

/**
 * The arrangement factor kE that the goods show: measured loss over the flux at kE = 1. Valid while the second weighing is
 * still above the critical moisture. @throws ClimateRangeError when it is not, when nothing was lost, or for air that dries nothing
 */
export function fitArrangementFactor(pair: WeighingPair, values: CalibrationValues = DEFAULT_CALIBRATION): number {
  const hours = requireNumber('hoursBetween', pair.hoursBetween, { min: 0, exclusiveMin: true, max: 1000, unit: 'h' });
  const law = dryingLaw({ ...pair, arrangementFactor: 1 }, values);
  const second = requireNumber('secondMassKg', pair.secondMassKg, { min: wetMassKg(pair.dryMassKg, law.criticalX), max: 1e6, unit: 'kg', hint: 'Weigh while the goods are still clearly wet.' });
  const first = requireNumber('firstMassKg', pair.firstMassKg, { min: second, exclusiveMin: true, max: 1e6, unit: 'kg', hint: 'The first weighing must be the heavier.' });
  const expected = law.ratePerH * pair.dryMassKg * hours;
  if (expected <= 0) throw new ClimateRangeError('relativeHumidityPct is at saturation, where nothing dries; weigh in drier air.', 'relativeHumidityPct');
  return requireNumber('arrangementFactor', (first - second) / expected, { min: 0, exclusiveMin: true, max: 5, unit: '(factor)', hint: 'Check both weights, the hours and the area.' });
}

/** Hours to dry by two weighings alone, for thick goods: a straight line, so it is a lower bound. @throws ClimateRangeError */
export function extrapolateDryingH(pair: { firstMassKg: number; secondMassKg: number; hoursBetween: number; targetMassKg: number }): { atLeastH: number; advice: string } {
  const hours = requireNumber('hoursBetween', pair.hoursBetween, { min: 0, exclusiveMin: true, max: 1000, unit: 'h' });
  const target = requireNumber('targetMassKg', pair.targetMassKg, { min: 0, exclusiveMin: true, max: 1e6, unit: 'kg' });
  const second = requireNumber('secondMassKg', pair.secondMassKg, { min: 0, exclusiveMin: true, max: 1e6, unit: 'kg' });
  const first = requireNumber('firstMassKg', pair.firstMassKg, { min: second, exclusiveMin: true, max: 1e6, unit: 'kg', hint: 'The first weighing must be the heavier; if not, the goods are not drying.' });
  return { atLeastH: (hours * Math.max(0, second - target)) / (first - second), advice: 'Drying slows towards the end, so this is the least time. Weigh again.' };
}

function requireLaw(law: DryingLaw): void {
  requireNumber('ratePerH', law.ratePerH, { min: 0, max: 1e6, unit: 'kg water per kg dry per hour' });
  requireNumber('criticalX', law.criticalX, MOISTURE_RULE);
  requireNumber('equilibriumX', law.equilibriumX, MOISTURE_RULE);
}
