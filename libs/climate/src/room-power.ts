/**
 * Electric power and heat of a drying room: diagnostics, and a caution. Wiring is never judged here: a licensed electrician
 * and the local code decide.
 *
 * Published: the energy-factor curve (`dehumidifier-curves.ts`). Our calibration: litres per kWh of a machine whose label does
 * not say, power of a fan, and what one circuit is counted for. Heat through walls is not counted.
 */
import type { Advice } from './advice.js';
import { requireNumber } from './climate-range.error.js';
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';
import { dehumidifierPowerKw, type Dehumidifier } from './dehumidifier.js';
import { RELATIVE_HUMIDITY_RULE } from './psychrometrics.js';

export interface RoomPower {
  dehumidifiersKw: number;
  fansKw: number;
  totalKw: number;
  /** Circuits that the load needs at the least, by the calibration's figure for one. */
  circuitsAtLeast: number;
  /** Water taken out by the machines for each kWh they draw, litres; `null` when they draw or take nothing. */
  litresPerKwh: number | null;
  /** Empty when nothing runs on electricity. */
  advice: readonly Advice<'electric-load' | 'electric-load-one-circuit'>[];
}

/**
 * Power of machines and fans in this air. @throws ClimateRangeError
 */
export function roomPower(
  input: { dehumidifiers: readonly Dehumidifier[]; airTempC: number; relativeHumidityPct: number; dehumidifiersKgPerH?: number; fans?: number },
  values: CalibrationValues = DEFAULT_CALIBRATION,
): RoomPower {
  const air = { airTempC: input.airTempC, relativeHumidityPct: requireNumber('relativeHumidityPct', input.relativeHumidityPct, RELATIVE_HUMIDITY_RULE) };
  const dehumidifiersKw = input.dehumidifiers.reduce((sum, machine) => sum + dehumidifierPowerKw(machine, air, values), 0);
  const fansKw = (requireNumber('fans', input.fans ?? 0, { min: 0, max: 1000, unit: 'fans' }) * values.fanPowerW) / 1000;
  const totalKw = dehumidifiersKw + fansKw;
  const circuitsAtLeast = Math.ceil((1000 * totalKw) / values.circuitContinuousW - 1e-9);
  const taken = input.dehumidifiersKgPerH ?? 0;
  return { dehumidifiersKw, fansKw, totalKw, circuitsAtLeast, litresPerKwh: dehumidifiersKw > 0 && taken > 0 ? taken / dehumidifiersKw : null, advice: adviceOf(totalKw, circuitsAtLeast, values) };
}

function adviceOf(totalKw: number, circuitsAtLeast: number, values: CalibrationValues): RoomPower['advice'] {
  if (totalKw <= 0) return [];
  const numbers = { totalKw, circuitsAtLeast, circuitKw: values.circuitContinuousW / 1000 };
  const caution = 'Ask a licensed electrician about the supply; keep cords and plugs off wet floors and behind a residual-current device (GFCI).';
  if (circuitsAtLeast <= 1) return [{ code: 'electric-load-one-circuit', values: numbers, text: `About ${totalKw.toFixed(1)} kW of electric load. ${caution}` }];
  return [{ code: 'electric-load', values: numbers, text: `About ${totalKw.toFixed(1)} kW of electric load: more than one circuit of ${numbers.circuitKw.toFixed(2)} kW carries, at least ${circuitsAtLeast}. Do not plug it all into one. ${caution}` }];
}
