/** Bodies of the estimates of clocks, lifts and heat as the use cases take them. */
import type { ClockQuestion, HeatEstimateInput, LiftEstimateInput } from '#application';
import { WET_BUNDLE } from '#climate';
import type { EstimateClock, EstimateHeat, EstimateLift } from '#contracts';
import { msOf } from '../../presenters/time.js';

export function toClockQuestion({ material, mouldClass, start, until, startDose, stays, readings, wetness, outdoor, vttClass, vttDecline, damage }: EstimateClock): ClockQuestion {
  return {
    thing: { material, mouldClass },
    startMs: msOf(start),
    untilMs: msOf(until),
    startDose,
    stays: stays.map(({ from, placement, place }) => ({ fromMs: msOf(from), placement, placeId: place })),
    readings: readings.map(({ measuredAt, airTempC, relativeHumidityPct, place }) => ({ atMs: msOf(measuredAt), airTempC, relativeHumidityPct, placeId: place })),
    wetness: wetness.map(({ from, moistureX }) => ({ fromMs: msOf(from), moistureX })),
    outdoor,
    vttClass,
    vttDecline,
    damage: damage.map(({ clock, holdings }) => ({ clock, holdings: holdings.map(({ from, holding }) => ({ fromMs: msOf(from), holding })) })),
  };
}

export function toLiftQuestion({ lift, air, ...asked }: EstimateLift): LiftEstimateInput {
  const { placedAtCm = null, placedReachCm = null, travelCm = null, horizontalCm, originCm, asymmetryDeg, coupling } = lift ?? WET_BUNDLE_LIFT;
  const travelled = placedAtCm === null ? WET_BUNDLE.travelCm : Math.abs(placedAtCm - originCm);
  return { ...asked, air, lift: { horizontalCm, originCm, asymmetryDeg, coupling, travelCm: travelCm ?? travelled }, liftAssumed: lift === null, placedAtCm, placedReachCm };
}

const WET_BUNDLE_LIFT: NonNullable<EstimateLift['lift']> = { ...WET_BUNDLE, placedAtCm: null, placedReachCm: null };

export function toHeatQuestion({ heat, wear, person, effort, step, tooHeavyForOne, sunshineShare }: EstimateHeat): HeatEstimateInput {
  const { kind, ...known } = person;
  return { heat, ...wear, ...known, person: kind, effort, step, tooHeavyForOne, sunshineShare };
}
