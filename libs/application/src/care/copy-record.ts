import type { UseCaseCall } from '../call.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';
import type { Standing } from './standing.js';

/**
 * Gives a part of a lot what is on record about the lot: readings, results, the owner's word about it, and a lead's choice
 * that still stands. Who said it and when stays as it was; ids are new, in the order of the old ones, because that order
 * tells what came before what. A question that was answered is not asked again.
 */
export async function copyRecord(stores: Stores, call: UseCaseCall, lot: ItemRecord, standing: Standing, partId: string): Promise<void> {
  const copies: { id: string; insert: (id: string) => Promise<void> }[] = [];
  for (const test of await stores.assessments.colourTests(lot.id)) copies.push({ id: test.id, insert: (id) => stores.assessments.insertColourTest({ ...test, id, itemId: partId }) });
  for (const result of standing.results) {
    if (result.outcome === 'owner-must-decide' && !standing.ownerAsked) continue;
    copies.push({ id: result.id, insert: (id) => stores.steps.insert({ ...result, id, itemId: partId }) });
  }
  for (const consent of await stores.consents.ofHousehold(lot.householdId)) {
    if (consent.itemId === lot.id) copies.push({ id: consent.id, insert: (id) => stores.consents.insert([{ ...consent, id, itemId: partId }]) });
  }
  const { override } = standing;
  if (override !== null) copies.push({ id: override.id, insert: (id) => stores.assessments.insertOverride({ ...override, id, itemId: partId }) });
  for (const copy of copies.sort((a, b) => (a.id < b.id ? -1 : 1))) await copy.insert(call.env.newId());
}
