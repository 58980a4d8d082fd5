import { TERMINAL_STAGES } from '#custody';
import { notFound, Problem, type ProblemError } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { momentOf } from '../care/claims.js';
import { writeReceipt, type HandedItem } from '../care/receipt.js';
import { triageContextOf } from '../care/retriage.js';
import { standingOf } from '../care/standing.js';
import { recordCustody } from '../custody/record-custody.js';
import type { HandBackRecord } from '../ports/hand-back-store.js';
import type { HouseholdRecord } from '../ports/household-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';
import { bookInForce } from '../rule-book/books.js';

export interface HandBackInput {
  householdId: string;
  items: { itemId: string; conditionNote: string }[];
  receiver: HandBackRecord['receiver'];
  identityCheck: HandBackRecord['identityCheck'];
  signatureRef: string;
  handedAtMs: number | null;
}

/** Hands things of one household back, all or none of those named, with a receipt; what is not named stays with us. */
export async function handBack(stores: Stores, call: UseCaseCall, input: HandBackInput): Promise<HandBackRecord> {
  const household = await stores.households.find(input.householdId);
  if (!household) throw notFound('household');
  const handedAtMs = momentOf(call, input.handedAtMs, '#/handedAt');
  const items = await ownItems(stores, household, input);
  const id = call.env.newId();
  const handed = await withStanding(stores, items, input);
  const ground = { book: await bookInForce(stores), context: await triageContextOf(stores, call, household.incidentId) };
  const receipt = writeReceipt(id, household, handedAtMs, handed, ground);
  const { receiver, identityCheck, signatureRef } = input;
  const record: HandBackRecord = {
    id, incidentId: household.incidentId, householdId: household.id, receiver, identityCheck, signatureRef, receipt,
    handedBy: call.context.principalId, handedAtMs, recordedAtMs: call.env.nowMs, items: input.items,
  };
  await stores.handBacks.insert(record);
  for (const item of items) await giveBack(stores, call, item, record);
  return record;
}

/** The named items, locked in id order so that two counters cannot block each other. @throws Problem reference_unknown, item_terminal, wrong_stage */
async function ownItems(stores: Stores, household: HouseholdRecord, input: HandBackInput): Promise<ItemRecord[]> {
  const items = await stores.items.lockMany(input.items.map(({ itemId }) => itemId));
  const faults = (test: (item: ItemRecord | undefined) => boolean, code: string, detail: string): ProblemError[] =>
    input.items.flatMap(({ itemId }, index) => (test(items.find((item) => item.id === itemId)) ? [{ detail, code, pointer: `#/items/${index}/itemId` }] : []));
  const strange = faults((item) => item?.householdId !== household.id, 'reference_unknown', 'is not an item of this household');
  if (strange.length > 0) throw new Problem('reference_unknown', 'Some items are not of this household; see errors. Nothing was handed back.', { errors: strange });
  const gone = faults((item) => item !== undefined && TERMINAL_STAGES.includes(item.stage), 'item_terminal', 'has left the network already');
  if (gone.length > 0) throw new Problem('item_terminal', 'Some items were handed back or released before; see errors. Nothing was handed back now. Leave them out, or tell the coordinator if one of them is in front of you.', { errors: gone });
  const busy = faults((item) => item?.stage === 'in-work', 'wrong_stage', 'is in work at a station');
  if (busy.length > 0) throw new Problem('wrong_stage', 'Some items are in work; see errors. Record how their step ended (or `work-ended`) first. Nothing was handed back.', { errors: busy });
  return items;
}

async function withStanding(stores: Stores, items: readonly ItemRecord[], input: HandBackInput): Promise<HandedItem[]> {
  const handed: HandedItem[] = [];
  for (const item of items) {
    const conditionNote = input.items.find(({ itemId }) => itemId === item.id)?.conditionNote ?? '';
    handed.push({ item, conditionNote, standing: await standingOf(stores, item) });
  }
  return handed;
}

async function giveBack(stores: Stores, call: UseCaseCall, item: ItemRecord, record: HandBackRecord): Promise<void> {
  await stores.steps.insert({
    id: call.env.newId(), incidentId: item.incidentId, itemId: item.id, step: 'hand-back', outcome: 'done', undoes: [], stationId: null, personId: null, note: '', startedAtMs: null, finishedAtMs: record.handedAtMs, recordedAtMs: call.env.nowMs,
  });
  await recordCustody(stores, call, item, { kind: 'handed-back', from: item.keeper, to: { kind: 'household', id: record.householdId }, refs: { handBackId: record.id }, occurredAtMs: record.handedAtMs });
  await stores.items.saveWork(item.id, { nextStep: null, waitingForOwner: false }, call.env.nowMs);
}
