/**
 * For how long what is personal is kept. All numbers are our own calibration, which a network sets by what its law asks: how long such records must be
 * kept, and how long they may be, differs from place to place and is for the network's own counsel to say. We know of no published period to lean on.
 */
import { own, valuesOver, type CalibrationEntry } from './own-table.js';

const LAW = 'Local law comes first: ask your counsel how long you must and how long you may keep it.';
const RANGE = [0, 36_500] as const;

/** The table, for display and as the defaults. */
export const RETENTION_CALIBRATION = Object.freeze({
  countFromClosing: own(1, '1 = yes, 0 = no', [0, 1], `Yes: the days count from the closing of the incident, which everybody notices. No: they count for each household from the day on which its last thing left. ${LAW}`, true),
  contactsDays: own(365, 'days', RANGE, `Names, numbers, addresses and the words of consents: a year, so that families can still be reached about what comes up later. ${LAW}`, true),
  photographsDays: own(180, 'days', RANGE, `Photographs: half a year, in which questions about the state of a thing mostly come up. ${LAW}`, true),
  voicesDays: own(90, 'days', RANGE, `Recorded voices: a quarter of a year; what was said has been written down by then. ${LAW}`, true),
  wordsDays: own(365, 'days', RANGE, `What families say of their things, and own words about where things went: as long as the contact. ${LAW}`, true),
  messagesDays: own(180, 'days', RANGE, `Where messages went, questions in own words, for whom a link was, how matters were settled: half a year. ${LAW}`, true),
  signaturesDays: own(365, 'days', RANGE, `Signatures on receipts: a year, in which somebody may ask who took a thing. ${LAW}`, true),
  importRowsDays: own(90, 'days', RANGE, `Rows of files that were read in: a quarter of a year; what they said stands with the things. ${LAW}`, true),
  staffNotesDays: own(365, 'days', RANGE, `Notes on alarms and words on containers, which may name somebody: a year. ${LAW}`, true),
  recordsDays: own(730, 'days', RANGE, `Everything else that is known of a household, notes and receipts included: two years, then its key is destroyed. What happened to the things stays provable by ids and hashes. ${LAW}`, true),
  scheduleEveryDays: own(0, 'days; 0 = never', [0, 366], 'Off: a lead reads the dry run and starts a run by hand. A network that has settled its periods may have the worker do it every so many days; each run does what the dry run of its moment says.', true),
  scheduleHour: own(3, 'hour of the day in the time zone of the network', [0, 23], 'In the hour that begins then: at night, when nobody is in the middle of something. A look that comes too late for it waits for the next day.', true),
} satisfies Record<string, CalibrationEntry>);

export type RetentionCalibrationKey = keyof typeof RETENTION_CALIBRATION;
export type RetentionValues = Readonly<Record<RetentionCalibrationKey, number>>;

const ENDS_WITH_RECORDS = ['contactsDays', 'photographsDays', 'voicesDays', 'wordsDays', 'messagesDays', 'signaturesDays', 'importRowsDays'] as const;

/** The defaults with a network's own values put over them. @throws RangeError for an unknown name, a value out of its limits, or a part that would outlast the whole */
export function calibrateRetention(overrides: Readonly<Record<string, number>> = {}): RetentionValues {
  return valuesOver(RETENTION_CALIBRATION, overrides, ENDS_WITH_RECORDS.map((key) => [key, 'recordsDays'] as const));
}
