import { HOUR_MS, MINUTE_MS } from '../durations.js';
import { DEFAULT_ALARM_VALUES, FREEZER_THAWS_TEMP_C, type AlarmValues } from './calibration.js';
import { silenceOf, type Reporting } from './silence.js';
import type { AnySign, AlarmVerdict } from './types.js';

/** A freezer as its alarms need to see it. */
export interface SeenFreezer {
  id: string;
  /** Its latest readings, oldest first; enough of them to see the last quarter of an hour. */
  readings: readonly { tempC: number; measuredAtMs: number }[];
  /** Something lies in it. */
  inUse: boolean;
  reporting: Reporting;
}

/** Warm and thawing freezers, and ones that have been silent for longer than they are expected to be. A freezer that never had a reading has no sign. */
export function freezerSigns(freezer: SeenFreezer, nowMs: number, values: AlarmValues = DEFAULT_ALARM_VALUES): AnySign[] {
  const last = freezer.readings.at(-1);
  if (last === undefined) return [];
  const subject = { kind: 'freezer' as const, id: freezer.id };
  const silentH = (nowMs - last.measuredAtMs) / HOUR_MS;
  const { limitH, expectedEveryMinutes } = silenceOf('freezer', freezer.reporting, values);
  const sign = (kind: 'freezer-warm' | 'freezer-thawing', severity: 'warning' | 'danger', limitC: number): AnySign => {
    const { verdict, aboveSinceMs } = warmth(freezer.readings, last, limitC, values);
    return { kind, subject, severity, verdict: silentH > limitH ? 'unknown' : verdict, evidence: { tempC: last.tempC, limitC, measuredAtMs: last.measuredAtMs, aboveSinceMs } };
  };
  return [
    sign('freezer-warm', 'warning', values.freezerWarmTempC),
    // An empty one thaws nothing, and may arrive warm.
    freezer.inUse ? sign('freezer-thawing', 'danger', FREEZER_THAWS_TEMP_C) : { ...sign('freezer-thawing', 'danger', FREEZER_THAWS_TEMP_C), verdict: 'off' as const },
    { kind: 'sensor-silent', subject, severity: 'warning', verdict: freezer.inUse && silentH > limitH ? 'on' : 'off', evidence: { lastAtMs: last.measuredAtMs, silentH, limitH, expectedEveryMinutes } },
  ];
}

/** On when the readings at the end have been above the limit for long enough; off when the last one is well below it. */
function warmth(readings: SeenFreezer['readings'], last: SeenFreezer['readings'][number], limitC: number, values: AlarmValues): { verdict: AlarmVerdict; aboveSinceMs: number | null } {
  if (last.tempC <= limitC) return { verdict: last.tempC <= limitC - values.freezerClearC ? 'off' : 'between', aboveSinceMs: null };
  const lastBelow = readings.findLastIndex(({ tempC }) => tempC <= limitC);
  const aboveSinceMs = (readings[lastBelow + 1] ?? last).measuredAtMs;
  return { verdict: last.measuredAtMs - aboveSinceMs >= values.freezerLastsMin * MINUTE_MS ? 'on' : 'between', aboveSinceMs };
}
