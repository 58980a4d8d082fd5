/** What families who wish to be told are told without anybody asking for it. All numbers are our own calibration, which a network may set. */
import { own, valuesOver, type CalibrationEntry } from './own-table.js';

const SWITCH = ['1 = yes, 0 = no', [0, 1]] as const;

/** The table, for display and as the defaults. */
export const MESSAGES_CALIBRATION = Object.freeze({
  gatherMin: own(15, 'min', [0, 1_440], 'What happens to things of one family within this time is told in one message: a crew that unloads a van is done with a family by then.'),
  takenIn: own(1, ...SWITCH, 'Families who wish it are told that things of theirs have come to us.', true),
  ready: own(1, ...SWITCH, 'Families who wish it are told that things are ready to go back to them.', true),
  handedBack: own(1, ...SWITCH, 'Families who wish it are told that things were handed back to them, so that they notice if somebody else took them.', true),
  letGo: own(1, ...SWITCH, 'Families who wish it are told after a thing was let go with their agreement, so that they can speak with us. The message does not name it.', true),
  uncollected: own(1, ...SWITCH, 'Families who wish it are reminded of what is ready and was not fetched, on the two days that were set for it.', true),
} satisfies Record<string, CalibrationEntry>);

export type MessagesCalibrationKey = keyof typeof MESSAGES_CALIBRATION;
export type MessagesValues = Readonly<Record<MessagesCalibrationKey, number>>;

/** The defaults with a network's own values put over them. @throws RangeError for an unknown name or a value out of its limits */
export function calibrateMessages(overrides: Readonly<Record<string, number>> = {}): MessagesValues {
  return valuesOver(MESSAGES_CALIBRATION, overrides);
}
