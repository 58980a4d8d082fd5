import type { Disposition, StepKind } from '#care';
import { formatTagCode } from '#custody';
import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { refuseNoLead, stationOf } from '../care/claims.js';
import { doneAmong } from '../care/done-steps.js';
import { lockOpenItem } from '../care/standing.js';
import { wishReason } from '../planning/plan-reasons.js';
import { requestPlan } from '../planning/request-plan.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { PlannedStep, WishKind } from '../ports/plan-input.js';
import type { AssignmentRecord } from '../ports/plan-store.js';
import type { PlanWishRecord, PlanWishView } from '../ports/plan-wish-store.js';
import type { Stores } from '../ports/work.js';

export interface PlanWishInput {
  itemId: string;
  kind: WishKind;
  stationId: string | null;
  step: StepKind | null;
  disposition: Disposition | null;
  notBeforeMs: number | null;
  reason: string;
  personId: string;
}

/** More steps than any way has. */
const ALL_STEPS = 200;

/** A coordinator wants something of the plan for one item. It stands until somebody withdraws it or it cannot hold any more. */
export async function recordPlanWish(stores: Stores, call: UseCaseCall, input: PlanWishInput & { incidentId: string }): Promise<PlanWishView> {
  const item = await lockOpenItem(stores, input.itemId);
  if (item.incidentId !== input.incidentId) throw notFound('item');
  await refuseNoLead(stores, { incidentId: item.incidentId, personId: input.personId, may: 'say what the plan is to heed. Ask a lead to decide.' });
  return keepWish(stores, call, item, { ...input, askedAtStationId: null });
}

/** The lead of a station's site refuses a piece of work there, puts it off, or takes it before the others. */
export async function recordStationWish(stores: Stores, call: UseCaseCall, input: Omit<PlanWishInput, 'stationId' | 'disposition'> & { atStationId: string }): Promise<PlanWishView> {
  const station = await stores.plans.station(input.atStationId);
  if (!station) throw notFound('station');
  const item = await lockOpenItem(stores, input.itemId);
  if (item.incidentId !== station.incidentId) throw notFound('item');
  await refuseNoLead(stores, { incidentId: station.incidentId, personId: input.personId, may: 'refuse or reorder the work of a station. Ask the lead of the site to decide.' });
  const person = await stores.places.person(input.personId);
  if (person?.siteId !== station.siteId) throw new Problem('command_refused', 'This lead is of another site. Ask a lead of the site of the station, or the coordinator.', { errors: [{ detail: 'is not of the site of the station', code: 'not_of_the_site', pointer: '#/personId' }] });
  return keepWish(stores, call, item, { ...input, stationId: input.kind === 'bar-station' ? station.id : null, disposition: null, askedAtStationId: station.id });
}

async function keepWish(stores: Stores, call: UseCaseCall, item: ItemRecord, input: PlanWishInput & { askedAtStationId: string | null }): Promise<PlanWishView> {
  await refuseImpossible(stores, call, item, input);
  const { itemId, kind, stationId, step, disposition, notBeforeMs, reason, askedAtStationId } = input;
  const wish: PlanWishRecord = {
    id: call.env.newId(), incidentId: item.incidentId, itemId, kind, stationId, step, disposition, notBeforeMs, pinned: kind === 'pin' ? await plannedSteps(stores, call, item) : null, reason, askedAtStationId,
    wishedBy: input.personId, wishedAtMs: call.env.nowMs,
  };
  if (!(await stores.planWishes.insert(wish))) throw new Problem('already_exists', 'This is wished of the plan already. Withdraw what stands first if it is to be otherwise; the list of wishes of the item names it.');
  await requestPlan(stores, call, item.incidentId, wishReason(kind, formatTagCode(item.tagCode)));
  const kept = await stores.planWishes.find(wish.id);
  if (!kept) throw new Error('a wish went while it was recorded');
  return kept;
}

async function refuseImpossible(stores: Stores, call: UseCaseCall, item: ItemRecord, { notBeforeMs, stationId, step }: PlanWishInput): Promise<void> {
  if (notBeforeMs !== null && notBeforeMs <= call.env.nowMs) {
    throw new Problem('command_refused', 'The moment has passed already, so there is nothing to wait for. Give one that lies ahead.', { errors: [{ detail: 'lies before the present time', code: 'time_passed', pointer: '#/notBefore' }] });
  }
  if (stationId === null) return;
  const station = await stationOf(stores, item.incidentId, stationId);
  if (step === null || station.steps.includes(step)) return;
  throw new Problem('command_refused', `Nobody does \`${step}\` at ${station.code}: its steps are ${station.steps.map((one) => `\`${one}\``).join(', ')}.`, { errors: [{ detail: 'is no step of the station', code: 'step_not_done_there', pointer: '#/step' }] });
}

/** What the published plan holds of the item and nobody has begun. */
async function plannedSteps(stores: Stores, call: UseCaseCall, item: ItemRecord): Promise<PlannedStep[]> {
  const revision = await stores.plans.currentRevision(item.incidentId);
  const planned = revision === null ? [] : await stores.plans.assignments(revision.id, { itemId: item.id }, ALL_STEPS, null);
  const begun = new Set(doneAmong(await stores.steps.ofItem(item.id)));
  if ((item.stage === 'in-work' || item.stage === 'drying') && item.nextStep !== null) begun.add(item.nextStep);
  const here = await stores.places.find(item.incidentId, item.keeper);
  const isDone = ({ step, ride }: AssignmentRecord): boolean => (step === 'carry' ? ride !== null && ride.from.id !== here?.siteId : begun.has(step));
  const ahead = planned.filter((one) => !isDone(one)).sort((a, b) => a.position - b.position);
  const [first] = ahead;
  if (first === undefined) throw new Problem('command_refused', 'The plan in force holds nothing of this item that is still ahead, so there is nothing to pin. Put it first instead, or ask why it is not planned.', { errors: [{ detail: 'has no step ahead in the plan in force', code: 'not_planned', pointer: '#/itemId' }] });
  if (first.startsAtMs < call.env.nowMs) throw new Problem('command_refused', `Its step \`${first.step}\` was planned for ${new Date(first.startsAtMs).toISOString()}, which has passed, so it cannot be done just so any more. Ask for a new plan first.`, { errors: [{ detail: 'was to begin before the present time', code: 'time_passed', pointer: '#/itemId' }] });
  return ahead.map(({ itemId: _, tagCode: _tag, option: _option, batchId: _batch, together: _together, serviceName: _name, ride: _ride, ...step }) => step);
}
