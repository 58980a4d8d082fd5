/** Clocks, lifts and heat of what is only described; nothing is stored. The network's own calibration counts. */
import { clothingOf, DEFAULT_CALIBRATION, effortOf, type ClockHours, type StepKind } from '#care';
import {
  ClimateRangeError, clockFromReadings, damageClock, heatAnswer, liftAnswer, liftDurationOf, LUND_CRITICAL_DAYS, lundDoseDays, peopleForLift, spellLiftsPerMin, startClock, vttIndex, wetBundleKg,
  type CalibrationValues, type ClockHistory, type ClockHistoryOptions, type DamageClock, type DamageClockName, type DamageHolding, type HeatAnswer, type HeatClothing, type HeatQuestion, type LiftAnswer, type LiftDuration, type LiftQuestion, type LiftSpell, type PlaceReading, type VttClass, type VttDecline, type WaterStage, type WetBundle, type WorkEffort,
} from '#climate';
import { Problem } from '#contracts';
import { climateCalibrationInForce } from '../calibration/in-force.js';
import type { UseCaseCall } from '../call.js';
import { DAY_MS, HOUR_MS } from '../climate/durations.js';
import type { Stores } from '../ports/work.js';

const LONGEST_HISTORY_MS = 400 * DAY_MS;

/** Whose hours each clock of the climate library goes by. */
const HOURS_OF: Readonly<Record<DamageClockName, keyof typeof DEFAULT_CALIBRATION.clockHours>> = {
  'coated-paper': 'coated-paper', 'soluble-media': 'at-once', parchment: 'at-once', 'bleeding-textile': 'at-once', 'stuck-prints': 'stuck-prints', 'silver-gelatin-print': 'mould', 'colour-print': 'mould', 'albumen-print': 'mould', 'carbon-print': 'at-once',
  'digital-print': 'at-once', 'collodion-plate': 'at-once', daguerreotype: 'at-once', 'gelatin-plate': 'at-once', 'sheet-film': 'mould', 'film-roll': 'roll-film', 'ferric-tape': 'tape', 'metal-tape': 'metal-tape', painting: 'at-once', 'small-wood': 'wood', furniture: 'wood',
  'glued-wood': 'soft-glue', leather: 'mould', 'bone-or-ivory': 'bone', iron: 'iron', 'salt-soaked': 'salt',
};

export interface ClockQuestion extends Omit<ClockHistoryOptions, 'start' | 'untilMs'> {
  startMs: number;
  startDose: number;
  /** The present time where it is not told. */
  untilMs: number | null;
  readings: readonly PlaceReading[];
  vttClass: VttClass;
  vttDecline: VttDecline;
  damage: readonly { clock: DamageClockName; holdings: readonly { fromMs: number; holding: DamageHolding }[] }[];
}

export interface ClockEstimate {
  untilMs: number;
  history: ClockHistory;
  vttIndex: number;
  secondModelDays: number;
  secondModelCriticalDays: number;
  damage: { name: DamageClockName; hours: ClockHours; clock: DamageClock }[];
  values: CalibrationValues;
  nowMs: number;
}

/** What a clock is asked with, together with the network's calibration; the sums are done after the transaction. @throws Problem validation_failed for a time that runs backwards or is too long */
export async function clockEstimateInput(stores: Stores, call: UseCaseCall, question: ClockQuestion): Promise<{ question: ClockQuestion & { untilMs: number }; values: CalibrationValues; nowMs: number }> {
  const untilMs = question.untilMs ?? call.env.nowMs;
  const pointer = question.untilMs === null ? '#/start' : '#/until';
  if (untilMs < question.startMs) throw new Problem('validation_failed', 'The history ends before it starts. Correct `start` or `until`.', { errors: [{ detail: 'lies before the start', code: 'time_backwards', pointer }] });
  if (untilMs - question.startMs > LONGEST_HISTORY_MS) throw new Problem('validation_failed', 'The history is longer than 400 days. Reckon the earlier part first and send its dose as `startDose`.', { errors: [{ detail: 'is more than 400 days after the start', code: 'history_too_long', pointer }] });
  return { question: { ...question, untilMs }, values: await climateCalibrationInForce(stores), nowMs: call.env.nowMs };
}

/** The clocks of a history. */
export function clockEstimate({ question, values, nowMs }: Awaited<ReturnType<typeof clockEstimateInput>>): ClockEstimate {
  const { startMs, startDose, untilMs, readings, vttClass, vttDecline, damage } = question;
  const history = clockFromReadings(readings, { ...question, start: startClock(startMs, startDose), untilMs }, values);
  return {
    untilMs,
    history,
    vttIndex: vttIndex(history.conditions, vttClass, vttDecline).index,
    secondModelDays: lundDoseDays(history.conditions),
    secondModelCriticalDays: LUND_CRITICAL_DAYS.value,
    damage: damage.map(({ clock, holdings }) => {
      const hours = DEFAULT_CALIBRATION.clockHours[HOURS_OF[clock]];
      return { name: clock, hours, clock: damageClock(clock, hours, stretchesOf(holdings, startMs, untilMs)) };
    }),
    values,
    nowMs,
  };
}

function stretchesOf(holdings: readonly { fromMs: number; holding: DamageHolding }[], startMs: number, untilMs: number): { hours: number; holding: DamageHolding }[] {
  const changes = [{ fromMs: -Infinity, holding: 'left-wet' as DamageHolding }, ...holdings.toSorted((a, b) => a.fromMs - b.fromMs)];
  return changes.flatMap(({ fromMs, holding }, index) => {
    const hours = (Math.min(untilMs, changes[index + 1]?.fromMs ?? Infinity) - Math.max(startMs, fromMs)) / HOUR_MS;
    return hours > 0 ? [{ hours, holding }] : [];
  });
}

export interface LiftEstimateInput {
  loadKg: number | null;
  bundle: WetBundle | null;
  /** `null`: not described, so a wet bundle from the floor onto a table. */
  lift: Pick<LiftQuestion['task'], 'horizontalCm' | 'originCm' | 'travelCm' | 'asymmetryDeg' | 'coupling'>;
  liftAssumed: boolean;
  placedAtCm: number | null;
  placedReachCm: number | null;
  liftsPerMin: number;
  liftingMinOf15: number | null;
  spells: readonly LiftSpell[];
  circumstances: NonNullable<LiftQuestion['circumstances']>;
  floorFriction: number | null;
  air: { airTempC: number; relativeHumidityPct: number } | null;
}

export interface LiftEstimate {
  answer: LiftAnswer;
  loadKg: number;
  moistureX: number | null;
  stage: WaterStage | null;
  duration: LiftDuration | null;
  recoveryNeededMin: number;
  liftsPerMin: number;
  lighter: { stage: WaterStage; massKg: number; people: number | null }[];
  liftAssumed: boolean;
  values: CalibrationValues;
  nowMs: number;
}

/** A lift: who and how many, or an aid, or outside of the equation. */
export async function estimateLift(stores: Stores, call: UseCaseCall, input: LiftEstimateInput): Promise<LiftEstimate> {
  const values = await climateCalibrationInForce(stores);
  const wet = input.bundle === null ? null : weighed(input.bundle, values);
  const loadKg = wet?.massKg ?? input.loadKg ?? 0;
  const liftsPerMin = input.liftingMinOf15 === null ? input.liftsPerMin : spellLiftsPerMin(input.liftsPerMin, input.liftingMinOf15);
  // Without a word about the day the class of two hours counts.
  const day = input.spells.length === 0 ? { duration: 'moderate' as const, recoveryNeededMin: 0 } : liftDurationOf(input.spells);
  const question: LiftQuestion = {
    ...input,
    ...input.air,
    loadKg,
    task: { ...input.lift, verticalCm: input.lift.originCm, liftsPerMin, duration: day.duration ?? 'long' },
    circumstances: day.duration === null && !input.circumstances.includes('over-8-hours') ? [...input.circumstances, 'over-8-hours'] : input.circumstances,
  };
  const answer = liftAnswer(question);
  const { limitKg } = answer;
  const lighter = limitKg === null ? [] : (wet?.lighter ?? []).map((each) => ({ ...each, people: peopleForLift(each.massKg, limitKg.lower) }));
  return { answer, loadKg, moistureX: wet?.moistureX ?? null, stage: input.bundle?.stage ?? null, ...day, liftsPerMin, lighter, liftAssumed: input.liftAssumed, values, nowMs: call.env.nowMs };
}

/** @throws Problem validation_failed where thickness and mass of a square metre contradict each other */
function weighed(bundle: WetBundle, values: CalibrationValues): ReturnType<typeof wetBundleKg> {
  try {
    return wetBundleKg(bundle, values);
  } catch (error) {
    if (!(error instanceof ClimateRangeError)) throw error;
    throw new Problem('validation_failed', 'So thick a thing of so little mass would hold more than 20 times its mass in water. Correct the thickness (in metres) or the mass of a square metre.', {
      errors: [{ detail: 'gives more water than a thing can hold', code: 'out_of_range', pointer: '#/bundle/thicknessM' }],
    });
  }
}

export interface HeatEstimateInput extends Omit<HeatQuestion, 'wear' | 'effort'> {
  clothing: HeatClothing | null;
  ppe: readonly string[];
  hood: boolean;
  shortSleeves: boolean;
  effort: WorkEffort | null;
  step: StepKind | null;
  tooHeavyForOne: boolean;
}

export interface HeatEstimate {
  answer: HeatAnswer;
  question: HeatQuestion;
  values: CalibrationValues;
  nowMs: number;
}

/** A step, its protection and a person in the heat. */
export async function estimateHeat(stores: Stores, call: UseCaseCall, input: HeatEstimateInput): Promise<HeatEstimate> {
  const values = await climateCalibrationInForce(stores);
  const { clothing, ppe, hood, shortSleeves, step, tooHeavyForOne } = input;
  const question: HeatQuestion = {
    ...input,
    wear: { clothing: clothing ?? clothingOf(ppe), hood, shortSleeves },
    encapsulating: input.encapsulating === true || ppe.some((piece) => /encapsulat/i.test(piece)),
    effort: input.effort ?? (step === null ? 'moderate' : effortOf(step, tooHeavyForOne)),
  };
  return { answer: heatAnswer(question, values), question, values, nowMs: call.env.nowMs };
}
