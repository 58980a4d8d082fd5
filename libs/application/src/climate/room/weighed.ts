/** What its own weighings say of a thing that hangs: ready, not yet, or weigh it again, and when. The rules are those of the climate library. */
import { weighingDecision, type CalibrationValues, type ClockReading, type WeighingDecision } from '#climate';
import { currentSeries, speedFor, type FittedSpeed } from './fits.js';
import type { RoomFacts } from './inputs.js';
import type { RoomState } from './state.js';

/** Without the model's times, which stand in the forecast already. */
export type WeighedStanding = Pick<WeighingDecision, 'decision' | 'code' | 'weighAgainAtMs' | 'targetMassKg'>;

/** By thing; things that were not weighed since they hang so are left out, and those that the drying model does not answer for. `air`: of the room, in order. */
export function weighedStandings(facts: Pick<RoomFacts, 'stays' | 'items'>, state: RoomState, air: readonly ClockReading[], speeds: readonly FittedSpeed[], values: CalibrationValues): Map<string, WeighedStanding> {
  const { course, atMs } = state;
  const expectedAir = { airTempC: course.forcing.airTempC, relativeHumidityPct: Math.min(100, course.relativeHumidityPct) };
  const found = new Map<string, WeighedStanding>();
  for (const { item, arrangement, series } of currentSeries(facts, air, atMs, values)) {
    const speed = speedFor(speeds, item, arrangement);
    const { id: _id, ...thing } = series;
    const reach = speed === null ? { airReach: 'open-rack' as const } : { arrangementFactor: speed.factor, factorBand: { low: speed.low, high: speed.high } };
    const decision = decided(() => weighingDecision({ ...thing, ...reach, nowMs: atMs, expectedAir }, values));
    if (decision !== null) found.set(item.id, decision);
  }
  return found;
}

function decided(decide: () => WeighingDecision): WeighedStanding | null {
  try {
    const { decision, code, weighAgainAtMs, targetMassKg } = decide();
    return { decision, code, weighAgainAtMs, targetMassKg };
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}
