import { sameKeeper, type Keeper } from '#custody';
import { Problem } from '#contracts';
import type { ItemRecord } from '../ports/item-store.js';
import type { PlaceRecord } from '../ports/place-store.js';
import type { Stores } from '../ports/work.js';

/** What a place must know of a thing that comes to it; nobody keeps it yet when it arrives. */
export type Arriving = Pick<ItemRecord, 'incidentId' | 'areaDm2' | 'volumeL'> & { keeper: Keeper | null };

/**
 * Locks the receiving place and makes sure that it exists in the incident and has room for the item; counting and
 * taking happen in one transaction, so two crews cannot fill the same last place. Every keeper is looked up: an id that
 * nobody checked must not read like a name of somebody who answers for the thing.
 * @throws Problem `reference_unknown`, `capacity_full` or, for a partner network, `command_refused`.
 */
export async function claimRoom(stores: Stores, item: Arriving, to: Keeper, pointer = '#/to'): Promise<PlaceRecord | null> {
  // Nobody keeps what is disposed of; the custody rules ask for the owner's agreement there.
  if (to.kind === 'disposed') return null;
  if (to.kind === 'partner-network') throw notOffered(pointer);
  const limited = to.kind === 'drying-place' || to.kind === 'freezer';
  const place = limited ? await stores.places.lock(item.incidentId, to) : await stores.places.find(item.incidentId, to);
  if (!place) throw unknownKeeper(to, pointer);
  // What lies there already is counted there already.
  if (limited && place.capacity !== null && !sameKeeper(item.keeper, to)) await refuseOverfull(stores, item, place, place.capacity);
  return place;
}

/** Custody passes to another network only by an agreed hand-over that both record, and there is none yet. */
function notOffered(pointer: string): Problem {
  const detail = 'is not offered: there is no agreed hand-over between networks yet';
  return new Problem('command_refused', 'A partner network cannot keep an item here yet, because nothing on its side would answer for it. Send the item to a specialist of the layout (POST /v1/items/{itemId}/referrals), or give it to a courier of the incident and keep it on record there.', {
    errors: [{ detail, code: 'keeper_not_offered', pointer: `${pointer}/kind` }],
  });
}

function unknownKeeper(to: Keeper, pointer: string): Problem {
  const errors = [{ detail: 'names nothing of this incident', code: 'reference_unknown', pointer: `${pointer}/id` }];
  if (to.kind === 'courier') return new Problem('reference_unknown', 'A courier is a person of the incident, and there is nobody with this id in it. Take the id from `people` of the layout, or add the driver there first (POST /v1/incidents/{incidentId}/people).', { errors });
  return new Problem('reference_unknown', `There is no ${to.kind} with this id in the incident. Take the id from the layout of the incident.`, { errors });
}

async function refuseOverfull(stores: Stores, item: Arriving, place: PlaceRecord, capacity: number): Promise<void> {
  const taken = await stores.places.takenBy(place.keeper);
  const isFreezer = place.keeper.kind === 'freezer';
  const [used, wanted, unit] = isFreezer ? [taken.volumeL, item.volumeL, 'L'] : [taken.areaDm2, item.areaDm2, 'dm2'];
  if (used + wanted > capacity) {
    throw new Problem('capacity_full', `${place.name} has ${capacity - used} ${unit} free and the item takes ${wanted} ${unit} (by its size class). Choose another place, or make room first.`, {
      members: { place: place.keeper, free: capacity - used, wanted, unit },
    });
  }
}
