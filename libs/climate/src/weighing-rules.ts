/** The rules of `weighing-decision.ts`, in the order they are tried. */
import type { Advice } from './advice.js';
import type { CalibrationValues } from './calibration.js';
import { airSpan, fluxOf } from './air-history.js';
import { dryingTimeUnchecked, moistureAfterRate } from './drying.js';
import { DRYING_TEMP_RULE } from './evaporation.js';
import { weighingErrorKg, type Weighing } from './fit-runs.js';
import { equilibriumX } from './water-in-things.js';
import type { CheckedWeighing, WeighingCode, WeighingDecision } from './weighing-decision.js';

const MS_PER_H = 3_600_000;
/** Standard errors that a difference must show before it counts. */
const MARGIN = 2;

/** Air that goods dry in: kg lost from one square metre at kE = 1 in an hour, and where they would come to rest. */
interface Outlook {
  fluxKgPerM2H: number;
  restX: number;
}

/** Tries the rules. */
export function decide(thing: CheckedWeighing, values: CalibrationValues): WeighingDecision {
  const { last, lastErrorKg, target, question } = thing;
  const targetMassKg = question.dryMassKg === null ? null : question.dryMassKg * (1 + target);
  const targetErrorKg = (targetMassKg ?? 0) * (question.dryMassErrorFraction ?? 0);
  const outlook = outlookOf(thing, values);
  const base = { targetMassKg, waterLeftKg: targetMassKg === null ? null : Math.max(0, last.massKg - targetMassKg), readyAtMs: readyTimes(thing, outlook, values) };
  const say: Say = (decision, code, weighAgainAtMs, more = {}) => ({ ...base, decision, code, weighAgainAtMs, advice: adviceOf(code, { massKg: last.massKg, ...more }) });

  const before = question.weighings.at(-2);
  if (before !== undefined && last.massKg - before.massKg > MARGIN * Math.hypot(lastErrorKg, weighingErrorKg(before, values))) {
    return say('weigh-again', 'weight-went-up', question.nowMs + values.weighAgainMinH * MS_PER_H, { roseKg: last.massKg - before.massKg });
  }
  if (targetMassKg !== null && last.massKg + MARGIN * lastErrorKg <= targetMassKg - targetErrorKg) return say('ready', 'at-target', null, { targetMassKg });
  const rest = restOver(thing, values);
  if (rest === 'ready') return say('ready', 'at-rest', null);
  if (outlook === null) return say('weigh-again', 'air-not-known', null);
  if (rest === 'damp' || outlook.restX >= target || outlook.fluxKgPerM2H <= 0) return say('not-yet', 'air-too-damp', null, { restX: outlook.restX, targetX: target });
  if (targetMassKg !== null && last.massKg - MARGIN * lastErrorKg > targetMassKg + targetErrorKg) {
    return say('not-yet', 'above-target', nextByModel(thing, base.readyAtMs, values), { targetMassKg, waterLeftKg: last.massKg - targetMassKg });
  }
  if (targetMassKg !== null && Math.abs(last.massKg - targetMassKg) <= MARGIN * lastErrorKg) {
    return say('weigh-again', 'near-target', clearlyBelow(thing, outlook, values), { targetMassKg });
  }
  return undecided(thing, outlook, say, values);
}

type Say = (decision: WeighingDecision['decision'], code: WeighingCode, weighAgainAtMs: number | null, more?: Advice['values']) => WeighingDecision;

/** No dry mass to go by, or none that is sure enough: what is missing, and when another weighing will tell. */
function undecided(thing: CheckedWeighing, outlook: Outlook, say: Say, values: CalibrationValues): WeighingDecision {
  const { last, question } = thing;
  const hours = hoursToTell(thing, outlook, values);
  if (hours === null) return say('weigh-again', 'scale-too-coarse', null, { scaleDivisionKg: last.scaleDivisionKg });
  const tellsAtMs = Math.round(Math.max(question.nowMs, last.atMs + hours * MS_PER_H));
  const before = question.weighings.at(-2);
  if (before === undefined) return say('weigh-again', 'one-weighing', tellsAtMs);
  const fellKg = before.massKg - last.massKg;
  if (fellKg > MARGIN * Math.hypot(thing.lastErrorKg, weighingErrorKg(before, values))) return say('not-yet', 'still-falling', tellsAtMs, { fellKg });
  return say('weigh-again', 'interval-too-short', tellsAtMs);
}

/** When a thing at its target will be below it by more than the scale can be wrong, or else at rest; at least an hour on. */
function clearlyBelow(thing: CheckedWeighing, outlook: Outlook, values: CalibrationValues): number {
  const { question, last, lastErrorKg, sorption } = thing;
  const dryKg = question.dryMassKg!;
  const ratePerH = ((thing.factor.likely / slowdown(thing, values)) * question.exposedAreaM2 * outlook.fluxKgPerM2H) / dryKg;
  const law = { ratePerH, criticalX: sorption.criticalX, equilibriumX: outlook.restX };
  const hours = dryingTimeUnchecked(law, Math.max(0, last.massKg / dryKg - 1), thing.target - (MARGIN * lastErrorKg) / dryKg) ?? hoursToTell(thing, outlook, values) ?? values.weighAgainMaxH;
  return Math.round(Math.max(question.nowMs + values.weighAgainMinH * MS_PER_H, last.atMs + hours * MS_PER_H));
}

/** `ready` when any earlier weighing shows that it is at rest in dry air, `damp` when at rest in air too damp to trust. */
function restOver(thing: CheckedWeighing, values: CalibrationValues): 'ready' | 'damp' | null {
  const { last, lastErrorKg, question, target, sorption } = thing;
  let damp = false;
  for (const before of question.weighings.slice(0, -1)) {
    const hours = (last.atMs - before.atMs) / MS_PER_H;
    if (hours < leastRestH(thing, values)) continue;
    const span = airSpan(question.air, before.atMs, last.atMs, values);
    if (span.fluxKgPerM2 === null) continue;
    const fellKg = before.massKg - last.massKg;
    const errorKg = MARGIN * Math.hypot(lastErrorKg, weighingErrorKg(before, values));
    const restX = equilibriumX(sorption, span.meanRelativeHumidityPct! / 100);
    if (restX >= target) damp ||= Math.abs(fellKg) <= errorKg;
    else if (fellKg + errorKg <= lossAboveTargetKg(thing, restX, span.fluxKgPerM2, values)) return 'ready';
  }
  return damp ? 'damp' : null;
}

/** What a thing just above its target would lose, on the slow side, while one square metre at kE = 1 loses this much. */
function lossAboveTargetKg(thing: CheckedWeighing, restX: number, fluxKgPerM2: number, values: CalibrationValues): number {
  const { question, target, last, sorption } = thing;
  const dryKg = question.dryMassKg ?? last.massKg / (1 + target);
  const xLoss = (thing.factor.low / slowdown(thing, values)) * ((question.exposedAreaM2 * fluxKgPerM2) / dryKg);
  return dryKg * (target - moistureAfterRate(xLoss, sorption.criticalX, restX, target, 1));
}

/** Hours after the last weighing at which one that shows no fall would mean rest; `null` when this scale can never tell. */
function hoursToTell(thing: CheckedWeighing, outlook: Outlook, values: CalibrationValues): number | null {
  const errorKg = MARGIN * Math.SQRT2 * thing.lastErrorKg;
  const most = 60 * 24;
  if (lossAboveTargetKg(thing, outlook.restX, outlook.fluxKgPerM2H * most, values) < errorKg) return null;
  let [low, high] = [0, most];
  for (let turn = 0; turn < 40; turn += 1) {
    const middle = (low + high) / 2;
    if (lossAboveTargetKg(thing, outlook.restX, outlook.fluxKgPerM2H * middle, values) < errorKg) low = middle;
    else high = middle;
  }
  return Math.max(high, leastRestH(thing, values));
}

function leastRestH(thing: CheckedWeighing, values: CalibrationValues): number {
  return thing.slow ? values.restHoursThick : values.restHoursThin;
}

function slowdown(thing: CheckedWeighing, values: CalibrationValues): number {
  return thing.slow ? values.thickSlowdownMax : 1;
}

function outlookOf({ expected, sorption }: CheckedWeighing, values: CalibrationValues): Outlook | null {
  if (expected === null || expected.airTempC < DRYING_TEMP_RULE.min || expected.airTempC > DRYING_TEMP_RULE.max) return null;
  return { fluxKgPerM2H: fluxOf(expected, values), restX: equilibriumX(sorption, expected.relativeHumidityPct / 100) };
}

/** Thin goods: by the model, on the fast, likely and slow side. Others: a least time, by the two last weighings if they fell. */
function readyTimes(thing: CheckedWeighing, outlook: Outlook | null, values: CalibrationValues): WeighingDecision['readyAtMs'] {
  const { question, last, factor, slow, sorption, target } = thing;
  const never = { earliest: null, likely: null, latest: null };
  if (outlook === null || question.dryMassKg === null) return never;
  const dryKg = question.dryMassKg;
  const startX = Math.max(0, last.massKg / dryKg - 1);
  const at = (k: number): number | null => {
    const hours = dryingTimeUnchecked({ ratePerH: (k * question.exposedAreaM2 * outlook.fluxKgPerM2H) / dryKg, criticalX: sorption.criticalX, equilibriumX: outlook.restX }, startX, target);
    return hours === null ? null : Math.round(last.atMs + hours * MS_PER_H);
  };
  if (!slow) return { earliest: at(factor.high), likely: at(factor.likely), latest: at(factor.low) };
  const line = straightLine(question.weighings, dryKg * (1 + target), values);
  const model = at(factor.high);
  return { ...never, earliest: model === null ? null : Math.max(model, line ?? model) };
}

function straightLine(weighings: readonly Weighing[], targetKg: number, values: CalibrationValues): number | null {
  const [before, last] = [weighings.at(-2), weighings.at(-1)!];
  if (before === undefined || before.massKg - last.massKg <= MARGIN * Math.hypot(weighingErrorKg(before, values), weighingErrorKg(last, values))) return null;
  return Math.round(last.atMs + ((last.atMs - before.atMs) * Math.max(0, last.massKg - targetKg)) / (before.massKg - last.massKg));
}

/** Thin: when it is likely ready. Others: half way to the least time. Never sooner or later than is of use. */
function nextByModel(thing: CheckedWeighing, ready: WeighingDecision['readyAtMs'], values: CalibrationValues): number {
  const { nowMs } = thing.question;
  const wanted = thing.slow ? nowMs + Math.max(0, (ready.earliest ?? nowMs) - nowMs) / 2 : (ready.likely ?? nowMs);
  const soonest = thing.slow || wanted > nowMs ? nowMs + values.weighAgainMinH * MS_PER_H : nowMs;
  return Math.round(Math.min(nowMs + values.weighAgainMaxH * MS_PER_H, Math.max(soonest, wanted)));
}

const WORDS: Readonly<Record<WeighingCode, string>> = {
  'at-target': 'Ready by weight. Feel seams and the thickest place, and look inside what is thick or closed; then keep it at or below 65 % humidity.',
  'at-rest': 'It has come to rest in dry air: ready by weight. Feel seams and the thickest place, and look inside what is thick or closed; then keep it at or below 65 % humidity.',
  'above-target': 'Not yet: it still holds water above its target.',
  'still-falling': 'Not yet: it is still losing weight.',
  'air-too-damp': 'Not yet, and not in this air: it would come to rest damp. Lower the humidity first.',
  'near-target': 'Close to its target, and the scale cannot tell yet: weigh again.',
  'one-weighing': 'One weighing cannot tell without the dry mass: weigh again.',
  'interval-too-short': 'Too soon after the weighing before: a thing still damp would not show it yet. Weigh again.',
  'scale-too-coarse': 'This scale is too coarse for this thing: use a finer one, or weigh several like things together.',
  'weight-went-up': 'It grew heavier: weigh again, and see whether it was wetted or mixed up.',
  'air-not-known': 'Nobody has read the air here: read it first, the weight alone cannot tell.',
};

function adviceOf(code: WeighingCode, values: Advice['values']): Advice<WeighingCode> {
  return { code, values, text: WORDS[code] };
}
