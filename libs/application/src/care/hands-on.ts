import { clothingOf, effortOf, isLifted, say, type Assessment, type CareStep, type HeatLimit, type LiftLimit, type Source, type StepAtHand, type StepKind, type WetState } from '#care';
import {
  BOOK_UPTAKE, clothingAdditionC, DEFAULT_CALIBRATION, moistureAtStageX, peopleForLift, recommendedWeightKg, STANDARD_ITEM_KINDS, standardItem, wbgtOf, wetMassKg, WET_BUNDLE, workMinutesPerHour,
  type CalibrationValues, type StandardItemKind, type WaterStage,
} from '#climate';
import type { ItemRecord } from '../ports/item-store.js';
import type { IncidentFacts } from '../ports/place-store.js';

/** Both are estimates for planning; a meter and a scale at the table beat them. */
const HEAT_SOURCE: Source = {
  mark: 'from-memory',
  cite: say('From memory, not verified: work and rest limits of NIOSH 2016-106 and what clothing adds to the wet-bulb globe temperature, for people who are not used to heat. Estimated from the outdoor air of the incident, in still air without sun.').text,
};
const LIFT_SOURCE: Source = {
  mark: 'own-calibration',
  cite: say('Our own calibration: a wet bundle lifted from the floor onto a table, by the revised NIOSH lifting equation (DHHS (NIOSH) 94-110, rev. 9/2021) and the team factors of UK HSE L23. An upper screen, because the equation does not hold for loads that shift and wet floors.').text,
};

/** The thing that is lifted, and how wet it is. */
type Lifted = Pick<ItemRecord, 'dryMassG' | 'count' | 'sizeClass'>;
type OutdoorAir = Pick<IncidentFacts, 'outdoorAirTempC' | 'outdoorRelativeHumidityPct'>;

/** A step of one item with its weight and heat as far as they are known. */
export function stepAtHand(care: CareStep, item: Lifted, observed: Pick<Assessment, 'wetState'>, air: OutdoorAir, values: CalibrationValues = DEFAULT_CALIBRATION): StepAtHand {
  const lift = isLifted(care.step) ? liftOf(care.step, item, observed.wetState, values) : null;
  const { step, zone, skill, barredRestrictions, ppe } = care;
  return { step, zone, skill, barredRestrictions, ppe, lift, heat: heatOf(care, lift, air, values) };
}

/** Work and rest in the outdoor air of the incident; null when nobody has measured it. */
export function heatOf({ step, ppe }: Pick<CareStep, 'step' | 'ppe'>, lift: LiftLimit | null, { outdoorAirTempC: airTempC, outdoorRelativeHumidityPct: relativeHumidityPct }: OutdoorAir, values: CalibrationValues): HeatLimit | null {
  if (airTempC === null || relativeHumidityPct === null) return null;
  const { wbgtC } = wbgtOf({ from: 'hall-air', air: { airTempC, relativeHumidityPct }, stillAir: true }, values);
  const clothing = clothingOf(ppe);
  const minutes = workMinutesPerHour({ wbgtC, clothing, effort: effortOf(step, lift !== null && lift.peopleNeeded !== 1), acclimatised: false });
  return { wbgtC: wbgtC + clothingAdditionC({ clothing }), workMinutesPerHour: minutes, source: HEAT_SOURCE };
}

const STAGE_OF: Readonly<Record<Exclude<WetState, 'dry'>, WaterStage>> = { dripping: 'dripping', unknown: 'dripping', wet: 'drained', damp: 'blotted' };

/** The weight of one piece, for a lot is carried in as many lifts as people choose; for steps in which it is picked up (`isLifted`). */
export function liftOf(step: StepKind, item: Lifted, wetState: WetState, values: CalibrationValues): LiftLimit {
  const dryMassKg = Math.max(1, item.dryMassG / item.count) / 1_000;
  // What is rinsed is lifted out of the bath, however dry it went in.
  const loadKg = wetMassKg(dryMassKg, waterX(item.sizeClass, step === 'rinse' ? 'dripping' : wetState, values));
  return { loadKg, peopleNeeded: peopleForLift(loadKg, recommendedWeightKg(WET_BUNDLE)), source: LIFT_SOURCE };
}

/** Water as a multiple of the dry mass; 0 for what is dry. */
function waterX(sizeClass: string, wetState: WetState, values: CalibrationValues): number {
  if (wetState === 'dry') return 0;
  if (sizeClass === 'book') return BOOK_UPTAKE['pre-1840'].value;
  const known = STANDARD_ITEM_KINDS.find((kind): kind is StandardItemKind => kind === sizeClass);
  return moistureAtStageX({ stage: STAGE_OF[wetState], padded: known === undefined || standardItem(known).padded }, values);
}
