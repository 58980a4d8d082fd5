import { STAGE_KEEPERS, type Keeper, type KeeperKind, type Stage, type StockTakeResolution } from '#custody';
import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { personOf } from '../care/claims.js';
import { claimRoom } from '../custody/capacity.js';
import { refuseClosed } from '../custody/open-incident.js';
import { recordCustody } from '../custody/record-custody.js';
import { agreementToRefer } from '../custody/refer-out.js';
import { carryOn, recordTruePlace } from '../custody/true-place.js';
import { PLAN_REASONS } from '../planning/plan-reasons.js';
import { freesDryingSpace, requestPlan } from '../planning/request-plan.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { StockTakeRecord, StockTakeResolutionRecord } from '../ports/stock-take-store.js';
import type { Stores } from '../ports/work.js';
import { lockOpen, viewOf, type DifferenceView } from '../stock-takes/view.js';
import { reportMissing } from './report-missing.js';

export interface ResolveDifferenceInput {
  stockTakeId: string;
  differenceId: string;
  resolution: StockTakeResolution;
  personId: string;
  reason: string;
}

/** Works off one difference: the record follows the thing, the thing follows the record, it is looked for, given to the coordinator, or counted anew. All in one transaction. */
export async function resolveStockTakeDifference(stores: Stores, call: UseCaseCall, input: ResolveDifferenceInput): Promise<StockTakeResolutionRecord> {
  const stockTake = await lockOpen(stores, input.stockTakeId, 'update');
  await refuseClosed(stores, stockTake);
  const view = await viewOf(stores, stockTake);
  const found = view.differences.find(({ difference }) => difference.id === input.differenceId);
  if (!found) throw notFound('difference');
  await personOf(stores, stockTake.incidentId, input.personId);
  refuseUnfit(found, input.resolution);
  const done = await carryOut(stores, call, stockTake, found, input);
  const record: StockTakeResolutionRecord = {
    id: call.env.newId(), differenceId: found.difference.id, subject: found.subject, kind: found.difference.kind, resolution: input.resolution, personId: input.personId, reason: input.reason,
    resolvedAtMs: call.env.nowMs, afterOrder: view.lastOrder, eventSeq: done,
  };
  await stores.stockTakes.resolve(stockTake, record);
  return record;
}

function refuseUnfit({ settled, resolutions, difference }: DifferenceView, resolution: StockTakeResolution): void {
  if (settled !== null) throw new Problem('already_exists', 'This difference is worked off already. Look at it again; if the thing turns up, scan it.', { members: { resolution: settled.resolution } });
  if (!resolutions.includes(resolution)) {
    throw new Problem('command_refused', `A ${difference.kind} thing is worked off by one of: ${resolutions.join(', ')}.`, { errors: [{ detail: 'does not go with this difference', code: 'resolution_unfit', pointer: '#/resolution' }] });
  }
}

/** Answers the number of the custody event that it made, null for none. */
async function carryOut(stores: Stores, call: UseCaseCall, stockTake: StockTakeRecord, { difference, recorded }: DifferenceView, input: ResolveDifferenceInput): Promise<number | null> {
  const { itemId, scan } = difference;
  switch (input.resolution) {
    case 'move-on-record':
      return itemId === null || scan === null ? null : moveOnRecord(stores, call, stockTake, itemId, scan.at, input);
    case 'reported-missing':
      return itemId === null ? null : (await reportMissing(stores, call, { itemId, personId: input.personId, lookedAtMs: null })).event.seq;
    case 'put-back':
      // A person says that they have put it where the record has it: that is a look like any other, and the latest.
      if (itemId !== null && recorded !== null) await stores.stockTakes.addScans(stockTake, [{ scanId: call.env.newId(), tag: await tagOf(stores, itemId), standing: 'ours', itemId, at: recorded, seenAtMs: Math.max(call.env.nowMs, scan?.seenAtMs ?? 0), recordedAtMs: call.env.nowMs, personId: input.personId }]);
      return null;
    case 'foreign-to-coordinator':
    case 'recount':
      return null;
    default:
      return input.resolution satisfies never;
  }
}

async function tagOf(stores: Stores, itemId: string): Promise<string> {
  return (await stores.items.find(itemId))?.tagCode ?? '';
}

/** Puts the item on record where it was seen, by the kind of event that its record calls for. */
async function moveOnRecord(stores: Stores, call: UseCaseCall, stockTake: StockTakeRecord, itemId: string, at: Keeper, { personId, reason }: ResolveDifferenceInput): Promise<number> {
  const item = await stores.items.lock(itemId);
  if (!item) throw notFound('item');
  const stage = stageAt(item.stage, at.kind);
  if (item.matters.missing || item.matters.disputed) {
    const kind = item.matters.missing ? 'found-again' : 'location-settled';
    return (await recordTruePlace(stores, call, kind, { itemId, at, personId, stage: stage === item.stage ? null : stage, seenAtMs: null })).event.seq;
  }
  await claimRoom(stores, item, at, '#/resolution');
  const refs = { personId, stockTakeId: stockTake.id, ...(stage === item.stage ? {} : { stage }), ...(await agreementIfAway(stores, item, stage)) };
  const { event, item: placed } = await recordCustody(stores, call, item, { kind: 'correction', from: item.keeper, to: at, refs, why: reason, corrects: { seq: item.seq, reason: 'stock-take' }, occurredAtMs: call.env.nowMs });
  const put = await carryOn(stores, call, item, placed, call.env.nowMs);
  if (freesDryingSpace(item.keeper, put.keeper)) await requestPlan(stores, call, item.incidentId, PLAN_REASONS.placeFree, 'eased');
  return event.seq;
}

async function agreementIfAway(stores: Stores, item: ItemRecord, stage: Stage): Promise<Record<string, string>> {
  return stage === 'referred-out' ? { consentId: await agreementToRefer(stores, item) } : {};
}

/** What is being done with a thing where it was seen: as on record where that can be, else what the place means. Our own design. */
export function stageAt(stage: Stage, at: KeeperKind): Stage {
  if (STAGE_KEEPERS[stage].includes(at)) return stage;
  if (at === 'drying-place') return 'drying';
  return at === 'freezer' ? 'held-frozen' : 'waiting';
}
