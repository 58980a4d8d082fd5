/**
 * When alarms are raised and cleared. The numbers are this project's own calibration, each with what it leans on; the one that
 * is published says so.
 */
export interface AlarmCalibrationEntry {
  readonly value: number;
  readonly unit: string;
  readonly mark: 'own-calibration' | 'published';
  readonly why: string;
}

const own = (value: number, unit: string, why: string): AlarmCalibrationEntry => Object.freeze({ value, unit, mark: 'own-calibration', why });

export const ALARM_CALIBRATION = Object.freeze({
  humidityClearPct: own(3, '%', 'A room must fall this far below its cap, or below the critical humidity, before the alarm clears: about the error of an ordinary hygrometer (from memory).'),
  freezerWarmTempC: own(-15, 'C', 'Three degrees above the -18 C at which frozen things are held (Waters; UK pocket guide): more than a household freezer swings by itself.'),
  freezerThawTempC: Object.freeze({ value: 0, unit: 'C', mark: 'published', why: 'Ice melts; freezing stalls mould only while it lasts (NPS/AIC sheet via University of Iowa).' } satisfies AlarmCalibrationEntry),
  freezerClearC: own(1, 'C', 'How far below its limit a freezer must fall before the alarm clears.'),
  freezerLastsMin: own(10, 'min', 'Two readings this far apart must be above the limit: a lid that was open for a moment is no alarm.'),
  machineWindowH: own(1.5, 'h', 'Over how much time machines are held against their labels: the air of a room answers within minutes, and somebody must still be able to act.'),
  machineWindowLeastH: own(1, 'h', 'With less measured air than this nothing is said about machines.'),
  machineGapMostH: own(1, 'h', 'A longer gap between readings says nothing about the air within it.'),
  machineShare: own(0.5, '-', 'If the machines can have taken no more than this share of what their labels promise in this air, something is wrong: a blocked filter, a full tank, ice, a trip.'),
  machineShareClear: own(0.75, '-', 'From this share on they are believed again.'),
  machineExchangeFactor: own(2, '-', 'The stated air changes of a room are trusted to this factor, up or down.'),
  machineLeastHumidityPct: own(60, '%', 'In drier air a machine may have been switched off by its own hygrostat, as it should be.'),
  itemsNamed: own(25, 'items', 'How many things an alarm names; it counts them all.'),
});

/** The name of one value. */
export type AlarmCalibrationKey = keyof typeof ALARM_CALIBRATION;

/** A value of the table. */
export function alarmLimit(key: AlarmCalibrationKey): number {
  return ALARM_CALIBRATION[key].value;
}
