/** Numbers of ours for the time that things take to dry in a plan; a network may set them. */
import { own, valuesOver, type CalibrationEntry } from '../calibration/own-table.js';

/** The table, for display and as the defaults. */
export const PLANNING_CALIBRATION = Object.freeze({
  thickFactor: own(2, 'times', [1, 10], 'Thick goods such as quilts keep their place in a plan for this multiple of the thin-goods time: the geometric middle of 1 and the upper end of 4 of their band. Weigh twice and plan again; a single number is false precision.'),
  longestDryingH: own(72, 'h', [6, 240], 'No drying counts longer than this in a plan; what is wet still keeps its place and is planned again from there.'),
  shortestDryingH: own(1, 'h', [0.25, 24], 'A drying counts at least this long in a plan.'),
  nominalAirTempC: own(20, 'C', [5, 35], 'Air in which drying hours are reckoned where no room of the site can take anything; nothing is planned to dry there then.'),
  nominalRelativeHumidityPct: own(60, '%', [20, 70], 'Humidity of that air.'),
  holdMin: own(60, 'min', [0, 480], 'What the plan in force lets begin within this time stays as it is in a new plan, unless what it needs has gone: people have got ready for it.'),
  bathTakes: own(24, 'things', [1, 500], 'So many small prints lie in one rinse bath together; a sheet counts as 4 of them and a garment as 12, and what is larger is rinsed alone. Whether things may share at all is for the rule book to say.', true),
  ridesOffered: own(2, 'rides', [0, 4], 'So many rides to other sites a plan weighs up for each thing that waits, the shortest first; 0 leaves everything where it is. More take longer to plan.', true),
} satisfies Record<string, CalibrationEntry>);

export type PlanningCalibrationKey = keyof typeof PLANNING_CALIBRATION;
/** Plain numbers that plans are made with. */
export type PlanningValues = Readonly<Record<PlanningCalibrationKey, number>>;

/** The defaults with a network's own values put over them. @throws RangeError for an unknown name, a value out of its limits, or a set that contradicts itself */
export function calibratePlanning(overrides: Readonly<Record<string, number>> = {}): PlanningValues {
  return valuesOver(PLANNING_CALIBRATION, overrides, [['shortestDryingH', 'longestDryingH']]);
}

/** The values in force when a network has set nothing of its own. */
export const DEFAULT_PLANNING_VALUES: PlanningValues = calibratePlanning();
