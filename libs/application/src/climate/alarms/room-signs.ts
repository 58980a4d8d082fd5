import { criticalHumidityPct } from '#climate';
import { HOUR_MS } from '../durations.js';
import { DEFAULT_ALARM_VALUES, type AlarmValues } from './calibration.js';
import { overLimit } from './judge.js';
import { silenceOf, type Reporting } from './silence.js';
import type { AnySign, NamedItem, Sign, AlarmVerdict } from './types.js';

/** A room as its alarms need to see it. */
export interface SeenRoom {
  id: string;
  humidityCapPct: number;
  /** The newest measured air; null when there never was any. */
  air: { airTempC: number; relativeHumidityPct: number; measuredAtMs: number } | null;
  /** Something hangs there. */
  inUse: boolean;
  reporting: Reporting;
}

/** A thing that hangs, with its clock. */
export interface SeenClock extends NamedItem {
  householdId: string;
  state: 'in-time' | 'amber' | 'red';
  /** Hours to red in the air of now; null while the clock stands still. */
  hoursToRed: number | null;
}

/** A machine of the room as somebody last recorded it. */
export interface SeenMachine {
  id: string;
  code: string;
  name: string;
  state: 'running' | 'tripped' | 'off';
  sinceMs: number | null;
}

/**
 * Cap, mould and silence of a room. After `trustedH` without a reading, when the cautious default is in use, the old air
 * raises and clears nothing.
 */
export function airSigns(room: SeenRoom, nowMs: number, trustedH: number, values: AlarmValues = DEFAULT_ALARM_VALUES): AnySign[] {
  if (room.air === null) return [];
  const { airTempC, relativeHumidityPct, measuredAtMs } = room.air;
  const subject = { kind: 'drying-room' as const, id: room.id };
  const margin = values.humidityClearPct;
  const silentH = (nowMs - measuredAtMs) / HOUR_MS;
  const { limitH, expectedEveryMinutes } = silenceOf('drying-room', room.reporting, values);
  const trusted = (verdict: AlarmVerdict): AlarmVerdict => (silentH > trustedH ? 'unknown' : verdict);
  const criticalPct = criticalHumidityPct(airTempC);
  const air = { airTempC, relativeHumidityPct, measuredAtMs };
  return [
    { kind: 'room-over-cap', subject, severity: 'warning', verdict: trusted(overLimit(relativeHumidityPct, room.humidityCapPct, room.humidityCapPct - margin)), evidence: { ...air, capPct: room.humidityCapPct } },
    { kind: 'room-mould-possible', subject, severity: 'danger', verdict: trusted(mouldVerdict(airTempC, relativeHumidityPct, criticalPct, margin)), evidence: { ...air, criticalPct } },
    { kind: 'sensor-silent', subject, severity: 'warning', verdict: room.inUse && silentH > limitH ? 'on' : 'off', evidence: { lastAtMs: measuredAtMs, silentH, limitH, expectedEveryMinutes } },
  ];
}

/** At or above the critical humidity, in air that is not frozen. */
function mouldVerdict(airTempC: number, relativeHumidityPct: number, criticalPct: number, margin: number): AlarmVerdict {
  if (airTempC <= 0) return 'off';
  if (relativeHumidityPct >= criticalPct) return 'on';
  return overLimit(relativeHumidityPct, criticalPct, criticalPct - margin);
}

/** One sign for all amber clocks of a room and one for all red ones; a red clock is no longer amber. */
export function clockSigns(roomId: string, clocks: readonly SeenClock[], values: AlarmValues = DEFAULT_ALARM_VALUES): AnySign[] {
  const subject = { kind: 'drying-room' as const, id: roomId };
  const inState = (state: SeenClock['state']) => clocks.filter((clock) => clock.state === state).sort(byClock);
  const told = (some: readonly SeenClock[]) => ({
    items: some.length,
    households: new Set(some.map(({ householdId }) => householdId)).size,
    first: some.slice(0, values.itemsNamed).map(({ itemId, tagCode }) => ({ itemId, tagCode })),
  });
  const [amber, red] = [inState('amber'), inState('red')];
  const verdict = (some: readonly SeenClock[]): AlarmVerdict => (some.length > 0 ? 'on' : 'off');
  return [
    { kind: 'clock-amber', subject, severity: 'warning', verdict: verdict(amber), evidence: { ...told(amber), soonestRedH: amber[0]?.hoursToRed ?? null } },
    { kind: 'clock-red', subject, severity: 'danger', verdict: verdict(red), evidence: told(red) },
  ];
}

/** The least time first, clocks that stand still last, then by item. */
function byClock(a: SeenClock, b: SeenClock): number {
  return (a.hoursToRed ?? Infinity) - (b.hoursToRed ?? Infinity) || (a.itemId < b.itemId ? -1 : 1) || 0;
}

/** Machines that are recorded as tripped. One that somebody switched off is off on purpose. */
export function machineSigns(roomId: string, machines: readonly SeenMachine[]): Sign<'dehumidifier-stopped'>[] {
  return machines.map(({ id, code, name, state, sinceMs }) => ({
    kind: 'dehumidifier-stopped', subject: { kind: 'dehumidifier', id }, severity: 'warning', verdict: state === 'tripped' ? 'on' : 'off', evidence: { code, name, roomId, state, sinceMs },
  }));
}
