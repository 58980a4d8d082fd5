/**
 * Numbers of the care library that a network may set: hands-on times, weights among the things that wait, and the order of what is
 * due at about the same time. What the rules of the book cite or a marked choice of it switches (clocks, water that grows worse,
 * freezer settings, how many books air dries) belongs to the rule book and is switched there; what an urgency means stays as it is.
 */
import { DEFAULT_CALIBRATION, type CareCalibration, type Handling, type StepKind } from '#care';
import { own, valuesOver, type CalibrationEntry } from './own-table.js';

/** A thaw stands between two rounds of work and in no route of the rule book, so a network times it with the step that follows. */
type TimedStep = Exclude<StepKind, 'thaw'>;

const { handlingDefault, weight } = DEFAULT_CALIBRATION;
const minutes = (step: TimedStep, why: string): CalibrationEntry => own(handlingDefault[step].minutes, 'min', [0.1, 240], why);
const share = (value: number, why: string): CalibrationEntry => own(value, 'times', [1, 1_000], why);
const lotFactor = (fromCount: number): number => weight.lotBands.find((band) => band.fromCount === fromCount)?.factor ?? 1;

/** The table, for display and as the defaults. */
export const CARE_CALIBRATION = Object.freeze({
  canWaitH: own(DEFAULT_CALIBRATION.canWaitHours, 'h', [48, 720], 'A thing that no clock presses is to be begun within this time from now.'),
  orderStretchMin: own(DEFAULT_CALIBRATION.orderStretchMinutes, 'min', [5, 480], 'When hands are scarce, things that must be begun within the same stretch of this length count as equally pressing; what decides then is told beside the order.'),
  everydayWeight: share(weight.significance.everyday, 'What a thing of everyday use weighs in a plan: the measure of the others.'),
  valuedWeight: share(weight.significance.valued, 'What a valued thing weighs in a plan against one of everyday use. Not a published scale: agree on it with the families.'),
  treasuredWeight: share(weight.significance.treasured, 'What a treasured thing weighs in a plan against one of everyday use.'),
  irreplaceableWeight: share(weight.significance.irreplaceable, 'What an irreplaceable thing weighs in a plan against one of everyday use.'),
  onlyCopyFactor: own(weight.onlyCopyFactor, 'times', [1, 20], 'An only copy weighs this many times as much; a copy that nobody asked about counts as the only one.'),
  lotOf10Factor: own(lotFactor(10), 'times', [1, 50], 'A lot of 10 to 49 pieces weighs this many times as much as one piece: more than one, and far less than ten, because one step serves them all.'),
  lotOf50Factor: own(lotFactor(50), 'times', [1, 50], 'The same for a lot of 50 to 199 pieces.'),
  lotOf200Factor: own(lotFactor(200), 'times', [1, 50], 'The same for a lot of 200 pieces and more.'),
  tagMin: minutes('tag', 'Hands-on minutes to tag a thing, or a lot however many pieces it counts. With photograph: 8 things an hour and person, a working assumption. Time twenty and set it.'),
  photographMin: minutes('photograph', 'Hands-on minutes to photograph a thing, or a lot however many pieces it counts. See tagMin.'),
  assessMin: minutes('assess', 'Hands-on minutes to assess a thing, or a lot however many pieces it counts. A guess: time twenty and set it.'),
  colourTestMin: minutes('colour-test', 'Hands-on minutes of a colour test of one piece: 10 an hour and person, a working assumption.'),
  stabiliseMin: minutes('stabilise', 'Hands-on minutes to stabilise one piece of ordinary size; other sizes go in proportion. A guess: time twenty and set it.'),
  rinseMin: minutes('rinse', 'Hands-on minutes to rinse one piece of ordinary size; other sizes go in proportion, so that with blotting 10 small textiles take an hour and one large quilt takes two people half an hour. Working assumptions: no published rate was found.'),
  blotMin: minutes('blot', 'Hands-on minutes to blot one piece of ordinary size; other sizes go in proportion. See rinseMin.'),
  dryMin: minutes('dry', 'Hands-on minutes to lay out or hang one piece of ordinary size; other sizes go in proportion. The hours of drying are reckoned apart.'),
  checkMin: minutes('check', 'Hands-on minutes to look whether one piece is dry; other sizes go in proportion. A guess: time twenty and set it.'),
  surfaceCleanMin: minutes('surface-clean', 'Hands-on minutes to clean the surface of one piece of ordinary size; other sizes go in proportion. A guess: time twenty and set it.'),
  wrapMin: minutes('wrap', 'Hands-on minutes to wrap one piece for the freezer: 12 an hour and person, a working assumption; other sizes go in proportion.'),
  freezeMin: minutes('freeze', 'Hands-on minutes to put a thing, or a lot, into the freezer; other sizes go in proportion. A guess: time twenty and set it.'),
  referMin: minutes('refer', 'Hands-on minutes to hand a thing, or a lot, to a specialist. A guess: time twenty and set it.'),
  releaseMin: minutes('release', 'Hands-on minutes to record a thing, or a lot, and let it go with the agreement of its owner. A guess, and no place to hurry.'),
  packMin: minutes('pack', 'Hands-on minutes to pack one piece of ordinary size; other sizes go in proportion. A guess: time twenty and set it.'),
  handBackMin: minutes('hand-back', 'Hands-on minutes to give a thing, or a lot, back to its household with its papers. A guess, and no place to hurry.'),
} satisfies Record<string, CalibrationEntry>);

export type CareCalibrationKey = keyof typeof CARE_CALIBRATION;

const MINUTES_OF: Readonly<Record<TimedStep, CareCalibrationKey>> = {
  tag: 'tagMin', photograph: 'photographMin', assess: 'assessMin', 'colour-test': 'colourTestMin', stabilise: 'stabiliseMin', rinse: 'rinseMin', blot: 'blotMin', dry: 'dryMin',
  check: 'checkMin', 'surface-clean': 'surfaceCleanMin', wrap: 'wrapMin', freeze: 'freezeMin', refer: 'referMin', release: 'releaseMin', pack: 'packMin', 'hand-back': 'handBackMin',
};

const ORDERS: readonly (readonly [CareCalibrationKey, CareCalibrationKey])[] = [
  ['everydayWeight', 'valuedWeight'], ['valuedWeight', 'treasuredWeight'], ['treasuredWeight', 'irreplaceableWeight'], ['lotOf10Factor', 'lotOf50Factor'], ['lotOf50Factor', 'lotOf200Factor'],
];

/**
 * The calibration of the care library with a network's own values put over it; the default itself when there are none.
 * @throws RangeError for an unknown name, a value out of its limits, or a set that contradicts itself
 */
export function calibrateCare(overrides: Readonly<Record<string, number>> = {}): CareCalibration {
  const values = valuesOver(CARE_CALIBRATION, overrides, ORDERS);
  if (Object.keys(overrides).length === 0) return DEFAULT_CALIBRATION;
  const paced = <T extends Partial<Record<StepKind, Handling>>>(table: T): T =>
    Object.fromEntries(Object.entries(table).map(([step, handling]) => [step, { ...handling, minutes: handling.minutes * paceOf(step as StepKind, values) }])) as T;
  return {
    ...DEFAULT_CALIBRATION, canWaitHours: values.canWaitH, orderStretchMinutes: values.orderStretchMin,
    weight: {
      significance: { everyday: values.everydayWeight, valued: values.valuedWeight, treasured: values.treasuredWeight, irreplaceable: values.irreplaceableWeight },
      onlyCopyFactor: values.onlyCopyFactor,
      lotBands: weight.lotBands.map(({ fromCount, factor }) => ({ fromCount, factor: { 10: values.lotOf10Factor, 50: values.lotOf50Factor, 200: values.lotOf200Factor }[fromCount] ?? factor })),
    },
    handlingDefault: paced(handlingDefault),
    handlingBySize: Object.fromEntries(Object.entries(DEFAULT_CALIBRATION.handlingBySize).map(([size, table]) => [size, paced(table)])) as CareCalibration['handlingBySize'],
  };
}

/** How many times as long a step takes as by default. */
function paceOf(step: StepKind, values: Readonly<Record<CareCalibrationKey, number>>): number {
  return step === 'thaw' ? 1 : values[MINUTES_OF[step]] / handlingDefault[step].minutes;
}
