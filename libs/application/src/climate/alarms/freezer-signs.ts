import { alarmLimit } from './calibration.js';
import type { AnySign, AlarmVerdict } from './types.js';

const HOUR_MS = 3_600_000;

/** A freezer as its alarms need to see it. */
export interface SeenFreezer {
  id: string;
  /** Its latest readings, oldest first; enough of them to see the last quarter of an hour. */
  readings: readonly { tempC: number; measuredAtMs: number }[];
  /** Something lies in it. */
  inUse: boolean;
}

/** Warm and thawing freezers, and ones that have been silent for longer than `silentAfterH`. A freezer that never had a reading has no sign. */
export function freezerSigns(freezer: SeenFreezer, nowMs: number, silentAfterH: number): AnySign[] {
  const last = freezer.readings.at(-1);
  if (last === undefined) return [];
  const subject = { kind: 'freezer' as const, id: freezer.id };
  const silentH = (nowMs - last.measuredAtMs) / HOUR_MS;
  const limitH = silentAfterH;
  const sign = (kind: 'freezer-warm' | 'freezer-thawing', severity: 'warning' | 'danger', limitC: number): AnySign => {
    const { verdict, aboveSinceMs } = warmth(freezer.readings, last, limitC);
    return { kind, subject, severity, verdict: silentH > limitH ? 'unknown' : verdict, evidence: { tempC: last.tempC, limitC, measuredAtMs: last.measuredAtMs, aboveSinceMs } };
  };
  return [
    sign('freezer-warm', 'warning', alarmLimit('freezerWarmTempC')),
    // An empty one thaws nothing, and may arrive warm.
    freezer.inUse ? sign('freezer-thawing', 'danger', alarmLimit('freezerThawTempC')) : { ...sign('freezer-thawing', 'danger', alarmLimit('freezerThawTempC')), verdict: 'off' as const },
    { kind: 'sensor-silent', subject, severity: 'warning', verdict: freezer.inUse && silentH > limitH ? 'on' : 'off', evidence: { lastAtMs: last.measuredAtMs, silentH, limitH } },
  ];
}

/** On when the readings at the end have been above the limit for long enough; off when the last one is well below it. */
function warmth(readings: SeenFreezer['readings'], last: SeenFreezer['readings'][number], limitC: number): { verdict: AlarmVerdict; aboveSinceMs: number | null } {
  if (last.tempC <= limitC) return { verdict: last.tempC <= limitC - alarmLimit('freezerClearC') ? 'off' : 'between', aboveSinceMs: null };
  const lastBelow = readings.findLastIndex(({ tempC }) => tempC <= limitC);
  const aboveSinceMs = (readings[lastBelow + 1] ?? last).measuredAtMs;
  return { verdict: last.measuredAtMs - aboveSinceMs >= alarmLimit('freezerLastsMin') * 60_000 ? 'on' : 'between', aboveSinceMs };
}
