import { type AddShelf, type ChangeShelf } from '#contracts';
import type { Zone } from '#care';
import type { UseCaseCall } from '../call.js';
import type { ConfigStores } from '../ports/config-work.js';
import type { ShelfRecord } from '../ports/layout-store.js';
import { codeTaken, unknownReference } from './add-to-layout.js';
import { findUnchanged, openIncident, saveUnchanged, type VersionedTarget } from './change-versioned.js';

export interface ShelfView {
  shelf: ShelfRecord;
  zone: Zone;
}

/** Adds a shelf to a zone of a site. Nothing is planned by it: things that lie there wait for nothing. */
export async function addShelf(stores: ConfigStores, call: UseCaseCall, input: AddShelf & { incidentId: string }): Promise<ShelfView> {
  await openIncident(stores.layout, input.incidentId);
  if (!(await stores.layout.site(input.incidentId, input.siteId))) throw unknownReference('site', 'siteId');
  const zoneId = await stores.layout.zoneOf(input.siteId, input.zone);
  if (zoneId === null) throw unknownReference(`${input.zone} zone`, 'zone');
  const { zone, ...own } = input;
  const shelf = { id: call.env.newId(), ...own, zoneId, version: 1 };
  if (!(await stores.layout.insertShelf(shelf))) throw codeTaken('shelf of this site', input.code);
  return { shelf, zone };
}

/** Changes a shelf's name or volume. A volume below what lies there is taken: it is a fact, and only what comes next is refused. */
export async function changeShelf(stores: ConfigStores, _call: UseCaseCall, input: ChangeShelf & VersionedTarget): Promise<ShelfView> {
  const found = await findUnchanged(stores.layout, 'shelf', input);
  const shelf = await saveUnchanged(stores.layout, 'shelf', input, found, { name: input.name, volumeL: input.volumeL });
  return { shelf, zone: await stores.layout.zoneKind(shelf.zoneId) };
}
