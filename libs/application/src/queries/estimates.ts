/** Triage and order of things that are not on record; nothing is stored. */
import { compareUrgency, contradictionsIn, DEFAULT_CALIBRATION, orderedItem, triage, type Assessment, type CareCalibration, type OrderedItem, type ReleaseName, type TriageContext, type TriageResult } from '#care';
import type { UseCaseCall } from '../call.js';
import { careCalibrationInForce } from '../calibration/in-force.js';
import { contradictionErrors, refuseContradictions } from '../care/contradicted.js';
import { precedenceOf, rankOf, type Precedence, type Rank } from '../care/precedence.js';
import type { Stores } from '../ports/work.js';
import { bookOfRelease, judge } from '../rule-book/books.js';

/** The moment and the place that an estimate goes by; the present time where it names none. */
export interface EstimateMoment extends Omit<TriageContext, 'nowMs'> {
  nowMs: number | null;
}

const at = (call: UseCaseCall, moment: EstimateMoment): TriageContext => ({ ...moment, nowMs: moment.nowMs ?? call.env.nowMs });

/** What the rule book of the network, or another release as it would follow it, says of an assessment, with what to ask next. @throws Problem observations_contradict with every contradiction */
export async function estimateTriage(stores: Stores, call: UseCaseCall, input: { release?: ReleaseName | null; assessment: Assessment; moment: EstimateMoment }): Promise<{ result: TriageResult; nowMs: number }> {
  const context = at(call, input.moment);
  refuseContradictions(contradictionErrors(contradictionsIn(input.assessment, context), { observations: '#/assessment', moment: '#' }));
  return { result: triage(input.assessment, context, DEFAULT_CALIBRATION, await bookOfRelease(stores, input.release ?? null)), nowMs: context.nowMs };
}

/** One thing of an order that is asked for. */
export interface ThingToOrder {
  id: string;
  assessment: Assessment;
  /** The present time where it is not told. */
  arrivedAtMs: number | null;
  doneSteps: TriageContext['doneSteps'];
}

export interface OrderEstimate {
  atMs: number;
  ruleBookVersion: string;
  /** First things first; why each comes before the next one, null for the last. */
  places: (Rank & { before: Precedence | null })[];
}

/** The order in which scarce hands take things, and why. @throws Problem observations_contradict with every contradiction of every thing */
export async function estimateOrder(stores: Stores, call: UseCaseCall, input: { release?: ReleaseName | null; things: readonly ThingToOrder[]; moment: EstimateMoment }): Promise<OrderEstimate> {
  const moment = at(call, input.moment);
  const contextOf = ({ doneSteps = [] }: ThingToOrder): TriageContext => ({ ...moment, doneSteps });
  refuseContradictions(input.things.flatMap((thing, index) => contradictionErrors(contradictionsIn(thing.assessment, contextOf(thing)), { observations: `#/items/${index}/assessment`, moment: `#/items/${index}` })));
  const book = await bookOfRelease(stores, input.release ?? null);
  const items = input.things.map((thing) => orderedItem(thing.id, thing.assessment, judge(book, thing.assessment, contextOf(thing)), thing.arrivedAtMs ?? moment.nowMs));
  const numbers = await careCalibrationInForce(stores);
  const inOrder = items.toSorted((a, b) => compareUrgency(a, b, numbers.orderStretchMinutes));
  return { atMs: moment.nowMs, ruleBookVersion: book.version, places: inOrder.map((item, index) => ({ ...rankOf(item, moment.nowMs), before: nextAfter(item, inOrder[index + 1], moment.nowMs, numbers) })) };
}

function nextAfter(item: OrderedItem, next: OrderedItem | undefined, nowMs: number, numbers: CareCalibration): Precedence | null {
  return next === undefined ? null : precedenceOf(item, next, nowMs, numbers);
}
