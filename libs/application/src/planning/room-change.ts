import type { AirNow } from './drying-outlook.js';

/**
 * Changes of a room's air from which the plan in force reckons wrongly. Own calibration: near 21 C and 62 %, five points
 * or two degrees change the speed at which things dry by about an eighth.
 */
export const AIR_CHANGE = { relativeHumidityPct: 5, airTempC: 2 } as const;

/** True when a room's air crossed its cap, so that it may take things or may not any more, or moved by much. */
export function changesPlan(planned: AirNow, now: AirNow, humidityCapPct: number): boolean {
  const takes = ({ relativeHumidityPct }: AirNow) => relativeHumidityPct <= humidityCapPct;
  return (
    takes(planned) !== takes(now) ||
    Math.abs(planned.relativeHumidityPct - now.relativeHumidityPct) >= AIR_CHANGE.relativeHumidityPct ||
    Math.abs(planned.airTempC - now.airTempC) >= AIR_CHANGE.airTempC
  );
}
