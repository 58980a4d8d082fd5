/**
 * Which weights of a thing cannot be, and which are improbable. All limits are ours (`calibration.ts`), because the dry mass
 * is that of a size class and not of the thing.
 */
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';

const CLOCK_SLACK_MS = 5 * 60_000;

/** A thing as its weight is judged. */
export interface WeighedThing {
  /** Of the whole lot by its size class. */
  dryMassKg: number;
  /** What holds the water: thin cloth, padded goods, paper, or what is not known. */
  build: 'thin' | 'padded' | 'paper' | 'unknown';
  takenInAtMs: number;
}

/** Why a weight cannot be. `limitKg` is what it was held against. */
export type WeighingFault =
  | { code: 'nothing_left' }
  | { code: 'too_heavy' | 'too_light'; limitKg: number }
  /** The number divided by a thousand fits: grams were typed. */
  | { code: 'grams'; inKg: number }
  | { code: 'in_future' | 'before_taken_in' };

/** Most water a thing can hold, kg per kg dry; for an unknown build the highest of all. */
export function ceilingX(build: WeighedThing['build'], values: CalibrationValues = DEFAULT_CALIBRATION): number {
  const known = { thin: values.thinCeilingX, padded: values.paddedCeilingX, paper: values.paperCeilingX };
  return build === 'unknown' ? Math.max(...Object.values(known)) : known[build];
}

/** Everything about a weighing that cannot be; empty when it may be kept. */
export function weighingFaults(weighing: { massKg: number; weighedAtMs: number }, thing: WeighedThing, nowMs: number, values: CalibrationValues = DEFAULT_CALIBRATION): WeighingFault[] {
  const faults: WeighingFault[] = [];
  if (weighing.weighedAtMs > nowMs + CLOCK_SLACK_MS) faults.push({ code: 'in_future' });
  if (weighing.weighedAtMs < thing.takenInAtMs - CLOCK_SLACK_MS) faults.push({ code: 'before_taken_in' });
  const fault = massFault(weighing.massKg, thing, values);
  return fault === null ? faults : [...faults, fault];
}

function massFault(massKg: number, thing: WeighedThing, values: CalibrationValues): WeighingFault | null {
  if (massKg <= 0) return { code: 'nothing_left' };
  const heaviestKg = heaviest(thing, values) * values.weighingClassFactorMax;
  const lightestKg = thing.dryMassKg * values.weighingClassFactorMin;
  if (massKg > heaviestKg) {
    const inKg = massKg / 1_000;
    return inKg >= lightestKg && inKg <= heaviestKg ? { code: 'grams', inKg } : { code: 'too_heavy', limitKg: heaviestKg };
  }
  return massKg < lightestKg ? { code: 'too_light', limitKg: lightestKg } : null;
}

function heaviest(thing: WeighedThing, values: CalibrationValues): number {
  return thing.dryMassKg * (1 + ceilingX(thing.build, values));
}

/** Why a weight is in doubt: more than at the weighing before, or other than things of its size class weigh. */
export const WEIGHING_DOUBTS = ['heavier-than-before', 'heavier-than-such-things', 'lighter-than-such-things'] as const;
export type WeighingDoubt = (typeof WEIGHING_DOUBTS)[number];

export interface KnownWeighing {
  massKg: number;
  /** Smallest step of the scale. */
  resolutionKg: number;
  weighedAtMs: number;
}

/**
 * The doubt about each weighing of a thing, in the order of weighing. Heavier than before is more than both scales can be off by;
 * not asked where the thing was wetted on purpose in between. Depends on the set of weighings alone, not on when they came.
 */
export function weighingDoubts(weighings: readonly KnownWeighing[], thing: WeighedThing, wettedAtMs: readonly number[], values: CalibrationValues = DEFAULT_CALIBRATION): (WeighingDoubt | null)[] {
  return weighings.map((one, at) => {
    const before = weighings[at - 1];
    if (before !== undefined && one.massKg - before.massKg > one.resolutionKg + before.resolutionKg + ROUNDING_KG && !wettedAtMs.some((ms) => ms > before.weighedAtMs && ms <= one.weighedAtMs)) return 'heavier-than-before';
    if (one.massKg > heaviest(thing, values)) return 'heavier-than-such-things';
    return one.massKg < thing.dryMassKg * values.weighingDoubtFactorMin ? 'lighter-than-such-things' : null;
  });
}

/** 12.4 - 0.3 is not 12.1 to the last bit. */
const ROUNDING_KG = 1e-9;
