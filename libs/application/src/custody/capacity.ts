import { sameKeeper, type Keeper } from '#custody';
import { Problem } from '#contracts';
import type { ItemRecord } from '../ports/item-store.js';
import type { PlaceRecord } from '../ports/place-store.js';
import type { Stores } from '../ports/work.js';
import { holdPath, refuseOffered, standsAt } from './containers.js';

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
  if (to.kind === 'same-thing') throw notAPlace(pointer);
  const from = await outermost(stores, item.keeper, !sameKeeper(item.keeper, to));
  if (to.kind === 'container') return claimRoomInside(stores, item, to, from, pointer);
  const limited = LIMITED.has(to.kind);
  const place = limited ? await stores.places.lock(item.incidentId, to) : await stores.places.find(item.incidentId, to);
  if (!place) throw unknownKeeper(to, pointer);
  // What lies there already, in a container or not, is counted there already.
  if (limited && place.capacity !== null && !sameKeeper(from, to)) await refuseOverfull(stores, item, place, place.capacity);
  return place;
}

/** What goes into a container takes room where the container stands. */
async function claimRoomInside(stores: Stores, item: Arriving, to: Keeper, from: Keeper | null, pointer: string): Promise<PlaceRecord> {
  const container = await stores.places.find(item.incidentId, to);
  if (!container) throw unknownKeeper(to, pointer);
  const stands = await outermost(stores, to, !sameKeeper(item.keeper, to));
  if (stands === null || !LIMITED.has(stands.kind)) return container;
  const place = await stores.places.lock(item.incidentId, stands);
  if (place !== null && place.capacity !== null && !sameKeeper(from, stands)) await refuseOverfull(stores, item, place, place.capacity);
  return container;
}

/**
 * Where a keeper is in the end. A container and those around it are held until the transaction ends, so that it does not go to
 * a fuller place meanwhile. @throws Problem hand_over_open when it is being handed over and the thing would come or go
 */
async function outermost(stores: Stores, keeper: Keeper | null, passes: boolean): Promise<Keeper | null> {
  if (keeper?.kind !== 'container') return keeper;
  const path = await holdPath(stores, keeper.id, 'share');
  if (passes) refuseOffered(path);
  return standsAt(path, keeper);
}

/** Places of which somebody measured what they take: by area where things hang, by volume where they are stacked. */
const LIMITED: ReadonlySet<Keeper['kind']> = new Set(['drying-place', 'freezer', 'shelf', 'vehicle']);

/** Two records become one by a command of its own, which looks at both. */
function notAPlace(pointer: string): Problem {
  return new Problem('command_refused', 'Another record cannot keep an item. If both are the same thing, join the records by their own command.', { errors: [{ detail: 'is not a place or a party', code: 'keeper_not_offered', pointer: `${pointer}/kind` }] });
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
  const [used, wanted, unit] = place.keeper.kind !== 'drying-place' ? [taken.volumeL, item.volumeL, 'L'] : [taken.areaDm2, item.areaDm2, 'dm2'];
  if (used + wanted > capacity) {
    throw new Problem('capacity_full', `${place.name} has ${capacity - used} ${unit} free and the item takes ${wanted} ${unit} (by its size class). Choose another place, or make room first.`, {
      members: { place: place.keeper, free: capacity - used, wanted, unit },
    });
  }
}
