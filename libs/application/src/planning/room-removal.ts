import { DEFAULT_CALIBRATION, dehumidifierFactor, sustainedRemovalKgPerH, type CalibrationValues, type Dehumidifier } from '#climate';
import type { InputRoom, PlanInput } from '../ports/plan-input.js';
import { canDryIn } from './drying-outlook.js';

/** Outdoor air of which nobody knows anything, on the damp side. Own calibration. */
const UNKNOWN_OUTDOOR = { airTempC: 25, relativeHumidityPct: 90 };

/**
 * Water that a room may be given, in grams an hour: what its running machines and outdoor air take away while it stays at
 * its cap. 0 when its present air is above the cap or too damp to dry anything, and when a number lies outside what the
 * climate library answers for.
 */
export function roomRemovalGPerH(room: InputRoom, outdoor: Pick<PlanInput, 'outdoorAirTempC' | 'outdoorRelativeHumidityPct'>, values: CalibrationValues = DEFAULT_CALIBRATION): number {
  if (!(room.relativeHumidityPct <= room.humidityCapPct) || !canDryIn(room, values)) return 0;
  try {
    const kgPerH = sustainedRemovalKgPerH({
      volumeM3: room.volumeM3,
      airTempC: room.airTempC,
      airChangesPerH: room.airChangesPerH,
      outdoorTempC: outdoor.outdoorAirTempC ?? UNKNOWN_OUTDOOR.airTempC,
      outdoorRelativeHumidityPct: outdoor.outdoorRelativeHumidityPct ?? UNKNOWN_OUTDOOR.relativeHumidityPct,
      capPct: room.humidityCapPct,
      dehumidifiers: room.running.map(toMachine).filter((machine) => isReckonable(machine, values)),
    }, values);
    return Math.floor(kgPerH * 1_000);
  } catch (error) {
    if (error instanceof RangeError) return 0;
    throw error;
  }
}

/** Nobody states the kind of machine at the door; the curve of refrigerant machines is the cautious one in cool rooms. */
function toMachine(label: InputRoom['running'][number]): Dehumidifier {
  return { kind: 'refrigerant', ratedLitresPerDay: label.ratedLPerDay, ratedAtTempC: label.ratedTempC, ratedAtRelativeHumidityPct: label.ratedRelativeHumidityPct };
}

/** One label that makes no sense must not cost the room its other machines. */
function isReckonable(machine: Dehumidifier, values: CalibrationValues): boolean {
  try {
    dehumidifierFactor(machine, { airTempC: 20, relativeHumidityPct: 60 }, true, values);
    return true;
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
}
