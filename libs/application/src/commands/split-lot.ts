import { NO_MATTERS, beforeIntake, decide, isCountFault, isRefusal, splitExtent, type LotExtent } from '#custody';
import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { momentOf, personOf } from '../care/claims.js';
import { copyRecord } from '../care/copy-record.js';
import { retriage } from '../care/retriage.js';
import { chosenBy, lockOpenItem, standingOf, workSoFar, type Standing } from '../care/standing.js';
import { wayBegun } from '../care/way-begun.js';
import { recordCustody, toProblem } from '../custody/record-custody.js';
import { PLAN_REASONS } from '../planning/plan-reasons.js';
import { requestPlan } from '../planning/request-plan.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';
import { checkedTag, deedOf } from '../tags/checked-tag.js';
import { staleVersion } from './change-versioned.js';

export interface SplitLotInput {
  incidentId: string;
  itemId: string;
  /** The version of the lot that its reader saw. */
  expectedVersion: number;
  /** Pieces that are taken out. */
  count: number;
  /** A reserved tag that is tied to nothing, for the part; as typed or scanned. */
  tag: string;
  personId: string | null;
  splitAtMs: number | null;
}

export interface LotSplit {
  part: ItemRecord;
  /** What stays under the old tag. */
  lot: ItemRecord;
  planRunId: string;
}

/**
 * Takes counted pieces out of a lot as an item of its own, where the lot lies and with all that is on record about it.
 * Counts, areas, volumes and masses of both add up to what the lot was; both are triaged anew for what they count.
 */
export async function splitLot(stores: Stores, call: UseCaseCall, input: SplitLotInput): Promise<LotSplit> {
  const lot = await unchangedLot(stores, input);
  const shares = sharesOf(lot, input.count);
  const how = { atMs: momentOf(call, input.splitAtMs, '#/splitAt'), refs: await lastingRefs(stores, lot, input.personId) };
  const tagCode = await checkedTag(stores, input.tag, lot.incidentId);
  const standing = await standingOf(stores, lot);
  const partId = call.env.newId();
  const rest = await lessen(stores, call, lot, partId, shares, how);
  const part = await startPart(stores, call, lot, { partId, tagCode, extent: shares.part }, how);
  await copyRecord(stores, call, lot, standing, partId);
  const triaged = { part: await triageFor(stores, call, part, standing), lot: await triageFor(stores, call, rest, standing) };
  const run = await requestPlan(stores, call, lot.incidentId, PLAN_REASONS.lotSplit);
  return { ...triaged, planRunId: run.id };
}

/** When it happened, and the references that both events carry. */
interface How {
  atMs: number;
  refs: Record<string, string>;
}

async function unchangedLot(stores: Stores, input: SplitLotInput): Promise<ItemRecord> {
  if (!(await stores.places.incident(input.incidentId))) throw notFound('incident');
  const found = await stores.items.find(input.itemId);
  if (found?.incidentId !== input.incidentId) throw notFound('item');
  const lot = await lockOpenItem(stores, input.itemId);
  if (lot.version !== input.expectedVersion) throw staleVersion('item', lot.version);
  if (lot.kind === 'lot') return lot;
  throw new Problem('command_refused', 'This is one thing and not a counted lot, so nothing can be taken out of it. If several things lie under this tag, take the others in with tags of their own.', { members: { reason: 'not_a_lot' } });
}

function sharesOf(lot: ItemRecord, pieces: number): { part: LotExtent; rest: LotExtent } {
  const shares = splitExtent(lot, pieces);
  if (!isCountFault(shares)) return shares;
  throw new Problem('command_refused', shares.text, { errors: [{ detail: shares.text, code: shares.fault, pointer: '#/count' }], members: { reason: shares.fault, pieces: lot.count } });
}

/** Who split it; and when the work or the drying that goes on began and who does it, for a split is no new beginning of it. */
async function lastingRefs(stores: Stores, lot: ItemRecord, personId: string | null): Promise<Record<string, string>> {
  if (personId !== null) await personOf(stores, lot.incidentId, personId);
  const refs: Record<string, string> = personId === null ? {} : { splitBy: personId };
  if (lot.stage !== 'in-work' && lot.stage !== 'drying') return refs;
  const [last] = await stores.custody.chain(lot.id, lot.seq - 1, 1);
  if (!last) throw new Error('an item without its last custody event');
  const worker = last.refs['personId'];
  return { ...refs, begunAt: last.refs['begunAt'] ?? new Date(last.occurredAtMs).toISOString(), ...(worker === undefined ? {} : { personId: worker }) };
}

/** The lot counts less from here on; the event that says so names the part. */
async function lessen(stores: Stores, call: UseCaseCall, lot: ItemRecord, partId: string, { part, rest }: { part: LotExtent; rest: LotExtent }, how: How): Promise<ItemRecord> {
  const refs = { ...how.refs, splitTo: partId, pieces: String(part.count), left: String(rest.count) };
  const { item } = await recordCustody(stores, call, lot, { kind: 'lot-split', from: lot.keeper, to: lot.keeper, refs, occurredAtMs: how.atMs });
  return { ...item, ...rest, version: await stores.items.saveExtent(lot.id, rest, call.env.nowMs) };
}

/** The part lies where the lot lies, in the same stage; its record begins by naming the lot. */
async function startPart(stores: Stores, call: UseCaseCall, lot: ItemRecord, { partId, tagCode, extent }: { partId: string; tagCode: string; extent: LotExtent }, how: How): Promise<ItemRecord> {
  const refs = { ...how.refs, splitFrom: lot.id, stage: lot.stage, householdId: lot.householdId, tag: tagCode, pieces: String(extent.count) };
  const first = decide(
    beforeIntake(lot.networkId, partId),
    { commandId: call.env.newId(), kind: 'split-off', from: null, to: lot.keeper, actorId: call.context.principalId, occurredAtMs: how.atMs, refs },
    call.env.nowMs,
  );
  if (isRefusal(first)) throw toProblem(first, lot);
  const part: ItemRecord = {
    ...lot, ...extent, id: partId, tagCode, kind: extent.count > 1 ? 'lot' : 'item', splitFromId: lot.id,
    seq: first.seq, headHash: first.hash, keeper: first.to, stage: first.stage, matters: NO_MATTERS, version: 1, createdAtMs: call.env.nowMs, updatedAtMs: call.env.nowMs,
  };
  await stores.items.insert(part);
  await stores.custody.appendFirst([first], lot.incidentId);
  if (!(await stores.tags.tie(tagCode, { itemId: partId }, deedOf(call)))) throw new Error('the tag was tied although it was locked');
  return part;
}

/**
 * Triages one side of the split by what was seen of the lot, for what this side counts. Work that has begun stays on its
 * way; what nobody has begun may take another, because a small lot may be dried where a large one had to be frozen.
 */
function triageFor(stores: Stores, call: UseCaseCall, item: ItemRecord, standing: Standing): Promise<ItemRecord> {
  const { observed, origin, assessedAtMs, assessedBy, seenAgain = null } = standing.assessment;
  return retriage(stores, call, item, { ...observed, count: item.count }, { origin, assessedAtMs, assessedBy, seenAgain, ...workSoFar(standing), chosen: chosenBy(standing) ?? wayBegun(item, standing.done, observed.consents) });
}
