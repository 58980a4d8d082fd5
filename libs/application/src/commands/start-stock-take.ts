import type { Keeper, KeeperKind } from '#custody';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { personOf, unknownReference } from '../care/claims.js';
import { openIncidentOf } from '../custody/open-incident.js';
import type { StockTakeRecord } from '../ports/stock-take-store.js';
import type { Stores } from '../ports/work.js';
import { openOf, lockOpen, viewOf, type StockTakeView } from '../stock-takes/view.js';

/** Where somebody can stand and count. */
export const COUNTED_KINDS: ReadonlySet<KeeperKind> = new Set(['station', 'holding', 'drying-place', 'freezer', 'container', 'shelf', 'vehicle']);

export interface StartStockTakeInput {
  incidentId: string;
  siteId: string | null;
  places: Keeper[];
  personId: string;
}

/** Begins a stock-take: what the record says should be there now is kept, and is held against what people will see. */
export async function startStockTake(stores: Stores, call: UseCaseCall, input: StartStockTakeInput): Promise<StockTakeView> {
  const { incidentId, siteId, personId } = input;
  await openIncidentOf(stores, incidentId);
  await personOf(stores, incidentId, personId);
  const places = await placesOf(stores, input);
  const stockTake: StockTakeRecord = { id: call.env.newId(), incidentId, siteId, places, state: 'open', startedAtMs: call.env.nowMs, startedBy: personId, closedAtMs: null, closedBy: null, version: 1 };
  await stores.stockTakes.start(stockTake);
  return viewOf(stores, stockTake);
}

async function placesOf(stores: Stores, { incidentId, siteId, places }: StartStockTakeInput): Promise<Keeper[]> {
  if ((siteId === null) === (places.length === 0)) throw new Problem('command_refused', 'A stock-take is of one whole site or of single places: send `siteId` or `places`, and only one of the two.', { errors: [{ detail: 'is needed, and nothing beside it', code: 'one_of_two', pointer: '#/siteId' }] });
  if (siteId !== null) {
    if ((await stores.places.site(siteId))?.incidentId !== incidentId) throw unknownReference('site', '#/siteId');
    return stores.stockTakes.placesOf(siteId);
  }
  const known = new Map<string, Keeper>();
  for (const [index, place] of places.entries()) {
    await countedPlace(stores, incidentId, place, `#/places/${index}`);
    known.set(`${place.kind} ${place.id}`, place);
  }
  return [...known.values()];
}

/** A place of the incident where things can be counted. @throws Problem command_refused, reference_unknown */
export async function countedPlace(stores: Stores, incidentId: string, place: Keeper, pointer: string): Promise<void> {
  if (!COUNTED_KINDS.has(place.kind)) throw new Problem('command_refused', `Things are counted at places and in containers: ${[...COUNTED_KINDS].join(', ')}.`, { errors: [{ detail: 'is not a place where things are counted', code: 'keeper_not_offered', pointer: `${pointer}/kind` }] });
  if (!(await stores.places.find(incidentId, place))) throw unknownReference(place.kind, `${pointer}/id`);
}

export interface CloseStockTakeInput {
  stockTakeId: string;
  personId: string;
}

/** Closes a stock-take of which every difference is worked off. @throws Problem stock_take_differs with those that are not */
export async function closeStockTake(stores: Stores, call: UseCaseCall, { stockTakeId, personId }: CloseStockTakeInput): Promise<StockTakeView> {
  const stockTake = await lockOpen(stores, stockTakeId, 'update');
  await personOf(stores, stockTake.incidentId, personId);
  const view = await viewOf(stores, stockTake);
  const open = openOf(view);
  if (open.length > 0) {
    throw new Problem('stock_take_differs', `${open.length} differences are open; nothing was closed. Work off each of them first; what was not counted yet counts as missing.`, {
      members: { open: open.length, differences: open.slice(0, SHOWN).map(({ difference, tagCode }) => ({ id: difference.id, kind: difference.kind, tag: tagCode })) },
    });
  }
  const version = await stores.stockTakes.close(stockTake.id, personId, call.env.nowMs);
  return { ...view, stockTake: { ...stockTake, state: 'closed', closedAtMs: call.env.nowMs, closedBy: personId, version } };
}

/** Of the open differences, so many are named in the refusal. */
const SHOWN = 100;
