import { Problem } from '#contracts';
import type { ItemRecord } from '../ports/item-store.js';
import type { PlaceRecord } from '../ports/place-store.js';
import type { Stores } from '../ports/work.js';
import type { Keeper } from '#custody';

/**
 * Locks the receiving place and makes sure that it exists in the incident and has room for the item; counting and
 * taking happen in one transaction, so two crews cannot fill the same last place.
 * @throws Problem `reference_unknown` or `capacity_full`.
 */
export async function claimRoom(stores: Stores, item: ItemRecord, to: Keeper, pointer = '#/to'): Promise<PlaceRecord | null> {
  if (to.kind === 'disposed' || to.kind === 'courier' || to.kind === 'partner-network') return null;
  const limited = to.kind === 'drying-place' || to.kind === 'freezer';
  const place = limited ? await stores.places.lock(item.incidentId, to) : await stores.places.find(item.incidentId, to);
  if (!place) {
    throw new Problem('reference_unknown', `There is no ${to.kind} with this id in the incident. Take the id from the layout of the incident.`, { errors: [{ detail: 'names nothing of this incident', code: 'reference_unknown', pointer: `${pointer}/id` }] });
  }
  if (limited && place.capacity !== null) await refuseOverfull(stores, item, place, place.capacity);
  return place;
}

async function refuseOverfull(stores: Stores, item: ItemRecord, place: PlaceRecord, capacity: number): Promise<void> {
  const taken = await stores.places.takenBy(place.keeper);
  const isFreezer = place.keeper.kind === 'freezer';
  const [used, wanted, unit] = isFreezer ? [taken.volumeL, item.volumeL, 'L'] : [taken.areaDm2, item.areaDm2, 'dm2'];
  if (used + wanted > capacity) {
    throw new Problem('capacity_full', `${place.name} has ${capacity - used} ${unit} free and the item takes ${wanted} ${unit} (by its size class). Choose another place, or make room first.`, {
      members: { place: place.keeper, free: capacity - used, wanted, unit },
    });
  }
}
