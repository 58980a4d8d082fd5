import type { Keeper } from '#custody';
import type { UseCaseCall } from '../call.js';
import type { Stores } from '../ports/work.js';

/** How long the reckoning of a room waits for company, in milliseconds of real time. Own calibration: a rack is hung in one go. */
const ROOM_GATHERS_MS = 5_000;

/** Asks for a new reckoning of a room, in the transaction of what changed it. One that waits takes this in. */
export async function ringRoom(stores: Pick<Stores, 'outbox'>, call: UseCaseCall, incidentId: string, roomId: string): Promise<void> {
  await stores.outbox.appendUnlessWaiting({ id: call.env.newId(), incidentId, kind: 'climate.readings', subjectId: roomId, traceparent: call.context.traceparent }, ROOM_GATHERS_MS);
}

/** The same for the rooms of drying places that a thing came to or left, and for freezers. */
export async function ringPlaces(stores: Pick<Stores, 'outbox' | 'roomClimate'>, call: UseCaseCall, incidentId: string, keepers: readonly (Keeper | null)[]): Promise<void> {
  const subjects = new Set<string>();
  for (const keeper of keepers) {
    if (keeper?.kind === 'freezer') subjects.add(keeper.id);
    const roomId = keeper?.kind === 'drying-place' ? await stores.roomClimate.roomOfPlace(keeper.id) : null;
    if (roomId !== null) subjects.add(roomId);
  }
  for (const id of [...subjects].sort()) await ringRoom(stores, call, incidentId, id);
}

/** The same for every drying room of a site: the weather outside has changed, or what is foreseen of it. */
export async function ringSite(stores: Pick<Stores, 'outbox' | 'climateRecords'>, call: UseCaseCall, incidentId: string, siteId: string): Promise<void> {
  const rooms = (await stores.climateRecords.places(incidentId)).filter((place) => place.kind === 'drying-room' && place.siteId === siteId);
  for (const id of rooms.map((room) => room.id).sort()) await ringRoom(stores, call, incidentId, id);
}
