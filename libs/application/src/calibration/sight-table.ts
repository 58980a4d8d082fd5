/** After how long without being seen a thing is looked for. All numbers are our own calibration, which a network may set. */
import type { Stage } from '#custody';
import { own, valuesOver, type CalibrationEntry } from './own-table.js';

/** The table, for display and as the defaults. */
export const SIGHT_CALIBRATION = Object.freeze({
  unseenWaitingH: own(12, 'h', [0.5, 336], 'What waits is met by a crew in the course of a shift; after a shift without anybody having met it, it may have been put down elsewhere.'),
  unseenInWorkH: own(4, 'h', [0.5, 72], "What is being worked on is in somebody's hands: half a shift without a word says that it lies forgotten, or left without a scan."),
  unseenDryingH: own(24, 'h', [1, 336], 'What hangs is turned, touched or weighed about once a day.'),
  unseenHeldWetH: own(8, 'h', [0.5, 168], 'What is kept wet on purpose is looked after every shift, or its water goes bad.'),
  unseenFrozenH: own(168, 'h', [1, 2_160], 'What is frozen is left alone, as each look lets warm air in; a stock-take once a week finds what is not there.'),
  unseenReferredH: own(336, 'h', [1, 8_760], 'What is with a specialist is asked after every two weeks.'),
} satisfies Record<string, CalibrationEntry>);

export type SightCalibrationKey = keyof typeof SIGHT_CALIBRATION;
export type SightValues = Readonly<Record<SightCalibrationKey, number>>;

/** The defaults with a network's own values put over them. @throws RangeError for an unknown name or a value out of its limits */
export function calibrateSight(overrides: Readonly<Record<string, number>> = {}): SightValues {
  return valuesOver(SIGHT_CALIBRATION, overrides);
}

/** Which number is that of a stage; what has left is not looked for. */
export const UNSEEN_AFTER: Partial<Record<Stage, SightCalibrationKey>> = {
  waiting: 'unseenWaitingH', 'in-work': 'unseenInWorkH', drying: 'unseenDryingH', 'held-wet': 'unseenHeldWetH', 'held-frozen': 'unseenFrozenH', 'referred-out': 'unseenReferredH',
};
