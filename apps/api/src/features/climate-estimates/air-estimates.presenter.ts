import {
  acceptanceBasis, acceptanceWords, AIR_STANDING, assumptionWords, ASSUMPTIONS, changeWords, dryingBasis, dryingWords, powerWords, roomBasis, roomWarningWords, toldValues, whatIfWords,
  type AcceptanceEstimate, type AirQuestion, type Basis, type DescribedGoods, type DryingEstimate, type RoomEstimate,
} from '#application';
import { render, translate, type Language, type Message } from '#care';
import type { Advice, RoomOutlook, SimulationResult, WhatIfOutcome } from '#climate';
import { iso } from '../../presenters/time.js';

const rounded = (value: number, places = 3): number => Math.round(value * 10 ** places) / 10 ** places;
const orNull = (value: number | null, places = 2): number | null => (value === null ? null : rounded(value, places));

function note(code: string, values: Advice['values'], words: Message, language: Language) {
  return { code, values: toldValues(values), text: render(words, language) };
}

/** What was assumed, each with the things that it was assumed for. */
function assumedNotes(goods: readonly DescribedGoods[], language: Language) {
  return ASSUMPTIONS.flatMap((code) => {
    const names = goods.filter(({ assumed }) => assumed.includes(code)).map(({ name }) => name);
    return names.length === 0 ? [] : [note(code, { names: names.join(', ') }, assumptionWords(code, names), language)];
  });
}

function ending(basis: readonly Basis[], { nowMs }: AirQuestion<unknown>, language: Language) {
  return { basis: basis.map(({ source, unit, ...entry }) => ({ ...entry, unit: translate(unit, language), source: render(source, language) })), standing: render(AIR_STANDING, language), estimatedAt: iso(nowMs) };
}

export function presentDrying({ air, goods, restX, fluxKgPerM2H, rateKgPerH, forecast }: DryingEstimate, input: AirQuestion<unknown>, language: Language) {
  const { material, build, dryMassKg, exposedAreaM2, startX, targetX } = goods.group;
  return {
    air: { wetBulbC: rounded(air.wetBulbC, 2), dewPointC: orNull(air.dewPointC), humidityRatioGPerKg: rounded(air.humidityRatio * 1_000), enthalpyKjPerKg: rounded(air.enthalpyKjPerKg, 2), volumeM3PerKg: rounded(air.volumeM3PerKg, 4), pressurePa: Math.round(air.pressurePa) },
    goods: {
      material, build, dryMassKg, exposedAreaM2: rounded(exposedAreaM2), arrangementFactor: goods.factor, startX: rounded(startX, 4), targetX: rounded(targetX, 4), restX: rounded(restX, 4),
      wetMassKg: rounded(dryMassKg * (1 + startX)), targetMassKg: rounded(dryMassKg * (1 + targetX)), waterToRemoveKg: rounded(dryMassKg * Math.max(0, startX - targetX)),
    },
    fluxKgPerM2H: rounded(fluxKgPerM2H, 5),
    rateKgPerH: rounded(rateKgPerH, 4),
    hours: orNull(forecast.hours),
    earliestH: orNull(forecast.earliestH),
    latestH: orNull(forecast.latestH),
    tooDamp: forecast.tooDamp,
    inWords: render(dryingWords(forecast), language),
    notes: assumedNotes([goods], language),
    ...ending(dryingBasis([goods], input.values), input, language),
  };
}

export function presentRoom({ room, capPct, goods, outlook, whatIfs }: RoomEstimate, input: AirQuestion<unknown>, language: Language) {
  const { steady, run, power } = outlook;
  return {
    capPct,
    steady: {
      relativeHumidityPct: rounded(steady.relativeHumidityPct, 2), humidityRatioGPerKg: rounded(steady.humidityRatio * 1_000), evaporationKgPerH: rounded(steady.evaporationKgPerH, 4),
      outdoorAirKgPerH: rounded(steady.outdoorAirKgPerH, 4), dehumidifiersKgPerH: rounded(steady.dehumidifiersKgPerH, 4), condensationKgPerH: rounded(steady.condensationKgPerH, 4),
    },
    peakRelativeHumidityPct: rounded(outlook.peakRelativeHumidityPct, 2),
    brokenLimit: outlook.broken,
    allDryAtH: orNull(outlook.allDryAtH),
    goods: goods.map((one, index) => presentGoods(one, outlook, index)),
    course: hourly(run).map((step) => ({ atH: rounded(step.atH, 2), relativeHumidityPct: rounded(step.relativeHumidityPct, 2), evaporationKgPerH: rounded(step.evaporationKgPerH), moistureX: step.moistureX.map((x) => rounded(x, 4)) })),
    water: { evaporatedKg: rounded(run.evaporatedKg), outdoorAirKg: rounded(run.outdoorAirKg), dehumidifiedKg: rounded(run.dehumidifiedKg), condensedKg: rounded(run.condensedKg) },
    power: { dehumidifiersKw: rounded(power.dehumidifiersKw), fansKw: rounded(power.fansKw), totalKw: rounded(power.totalKw), circuitsAtLeast: power.circuitsAtLeast, litresPerKwh: orNull(power.litresPerKwh) },
    heatToHoldKw: rounded(outlook.heatToHoldKw),
    whatIfs: whatIfs.map((outcome) => presentWhatIf(outcome, language)),
    notes: [
      ...outlook.warnings.map((warning) => note(warning.code, warning.values, roomWarningWords(warning), language)),
      ...power.advice.map((advice) => note(advice.code, advice.values, powerWords(advice), language)),
      ...assumedNotes(goods, language),
    ],
    ...ending(roomBasis(goods, room.dehumidifiers, input.values), input, language),
  };
}

function presentGoods({ name, group }: DescribedGoods, { goods }: RoomOutlook, index: number) {
  const one = goods[index];
  return {
    name, count: group.count, startX: rounded(group.startX, 4), targetX: rounded(group.targetX, 4), waterToRemoveKg: rounded(group.count * group.dryMassKg * Math.max(0, group.startX - group.targetX)),
    dryAtH: orNull(one?.dryAtH ?? null), earliestH: orNull(one?.earliestH ?? null), latestH: orNull(one?.latestH ?? null), mouldDoseGained: rounded(one?.doseGained ?? 0, 4), mouldDoseAtEnd: rounded(one?.endDose ?? 0, 4),
  };
}

/** The end of every hour, and the last step. */
function hourly({ steps }: SimulationResult): SimulationResult['steps'] {
  return steps.filter((step, index) => Math.abs(step.atH - Math.round(step.atH)) < 1e-6 || index === steps.length - 1);
}

function presentWhatIf(outcome: WhatIfOutcome, language: Language) {
  return {
    name: outcome.id ?? '',
    inWords: render(changeWords(outcome.id ?? ''), language),
    steadyRelativeHumidityPct: rounded(outcome.steadyRelativeHumidityPct, 2),
    peakRelativeHumidityPct: rounded(outcome.peakRelativeHumidityPct, 2),
    allDryAtH: orNull(outcome.allDryAtH),
    hoursSaved: orNull(outcome.hoursSaved),
    doseGained: rounded(outcome.doseGained, 4),
    brokenLimit: outcome.broken,
    electricKw: rounded(outcome.electricKw),
    heatToHoldKw: rounded(outcome.heatToHoldKw),
    recommended: outcome.recommended,
    notes: outcome.advice.map((advice) => note(advice.code, advice.values, whatIfWords(advice), language)),
  };
}

export function presentAcceptance({ capPct, hanging, waiting, room, acceptance, alone, sustainedKgPerH }: AcceptanceEstimate, input: AirQuestion<{ freeRackM2: number | null }>, language: Language) {
  const all = waiting.reduce((sum, { group }) => sum + group.count, 0);
  return {
    capPct,
    acceptedItems: acceptance.acceptedItems,
    waterKg: rounded(acceptance.waterKg, 2),
    bindingLimit: acceptance.bindingLimit,
    allDryAtH: orNull(acceptance.allDryAtH),
    peakRelativeHumidityPct: orNull(acceptance.peakRelativeHumidityPct),
    freeRackM2Left: orNull(acceptance.freeRackM2Left),
    waiting: acceptance.rows.map((row, index) => ({
      name: row.id, waiting: row.waiting, accepted: row.accepted, waterKg: rounded(row.waterKg, 2), rackM2: input.question.freeRackM2 === null ? null : rounded(row.rackM2, 2), limitedBy: row.limitedBy, dryAtH: orNull(row.dryAtH), acceptedAlone: alone[index] ?? 0,
    })),
    sustainedRemovalKgPerH: rounded(sustainedKgPerH),
    inWords: render(acceptanceWords(acceptance, all), language),
    notes: [
      ...(waiting.some(({ group }) => group.build !== 'thin') ? [note('thick-goods-band', {}, roomWarningWords({ code: 'thick-goods-band', values: {}, text: '' }), language)] : []),
      ...assumedNotes([...hanging, ...waiting], language),
    ],
    ...ending(acceptanceBasis([...hanging, ...waiting], room.dehumidifiers, input.values), input, language),
  };
}
