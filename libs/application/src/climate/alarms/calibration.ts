/** When alarms are raised and cleared. All numbers but the melting of ice are this project's own calibration, which a network may set. */
import { own, valuesOver, type CalibrationEntry } from '../../calibration/own-table.js';

/** Published: ice melts, and freezing stalls mould only while it lasts (NPS/AIC sheet via University of Iowa). No network can set it. */
export const FREEZER_THAWS_TEMP_C = 0;

/** The table of our own values, for display and as the defaults. */
export const ALARM_CALIBRATION = Object.freeze({
  humidityClearPct: own(3, '%', [0.5, 15], 'A room must fall this far below its cap, or below the critical humidity, before the alarm clears: about the error of an ordinary hygrometer (from memory).'),
  freezerWarmTempC: own(-15, 'C', [-40, -1], 'Three degrees above the -18 C at which frozen things are held (Waters; UK pocket guide): more than a household freezer swings by itself.'),
  freezerClearC: own(1, 'K', [0.1, 10], 'How far below its limit a freezer must fall before the alarm clears.'),
  freezerLastsMin: own(10, 'min', [1, 240], 'Two readings this far apart must be above the limit: a lid that was open for a moment is no alarm.'),
  silentAfterH: own(3, 'h', [0.25, 72], 'A drying room, or a freezer with a logger, that nobody has said anything of is called silent after this.'),
  silentByHandAfterH: own(12, 'h', [0.5, 168], 'A freezer whose readings of the last day were all typed in by hand is called silent after this: about two looks a day, as each look lets warm air in.'),
  silentTimes: own(1.5, 'times', [1, 10], 'Where a sensor states how often it is expected to report, its place is silent after this many times as long: half a turn late, and one of a moment earlier is not missed yet.'),
  silentLeastH: own(0.5, 'h', [0.05, 24], 'And never sooner than this: loggers send together what they gathered.'),
  machineWindowH: own(1.5, 'h', [0.5, 12], 'Over how much time machines are held against their labels: the air of a room answers within minutes, and somebody must still be able to act.'),
  machineWindowLeastH: own(1, 'h', [0.25, 12], 'With less measured air than this nothing is said about machines.'),
  machineGapMostH: own(1, 'h', [0.1, 6], 'A longer gap between readings says nothing about the air within it.'),
  machineShare: own(0.5, 'share', [0.05, 0.95], 'If the machines can have taken no more than this share of what their labels promise in this air, something is wrong: a blocked filter, a full tank, ice, a trip.'),
  machineShareClear: own(0.75, 'share', [0.05, 1], 'From this share on they are believed again.'),
  machineExchangeFactor: own(2, 'times', [1, 10], 'The stated air changes of a room are trusted to this factor, up or down.'),
  machineLeastHumidityPct: own(60, '%', [30, 95], 'In drier air a machine may have been switched off by its own hygrostat, as it should be.'),
  itemsNamed: own(25, 'things', [1, 100], 'How many things an alarm names; it counts them all.', true),
} satisfies Record<string, CalibrationEntry>);

/** The name of one value. */
export type AlarmCalibrationKey = keyof typeof ALARM_CALIBRATION;
/** Plain numbers that alarms are judged by. */
export type AlarmValues = Readonly<Record<AlarmCalibrationKey, number>>;

/** The defaults with a network's own values put over them. @throws RangeError for an unknown name, a value out of its limits, or a set that contradicts itself */
export function calibrateAlarms(overrides: Readonly<Record<string, number>> = {}): AlarmValues {
  return valuesOver(ALARM_CALIBRATION, overrides, [['machineShare', 'machineShareClear'], ['machineWindowLeastH', 'machineWindowH']]);
}

/** The values in force when a network has set nothing of its own. */
export const DEFAULT_ALARM_VALUES: AlarmValues = calibrateAlarms();
