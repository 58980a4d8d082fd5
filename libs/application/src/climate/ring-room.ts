import type { Keeper } from '#custody';
import type { UseCaseCall } from '../call.js';
import type { SensorRecord } from '../ports/climate-records-store.js';
import type { Stores } from '../ports/work.js';
import { CLIMATE_GATHER_MS, HUNG_GATHERS_TIMES } from './pace.js';

/** Asks for a new reckoning of a room or freezer, in the transaction of what changed it. One that waits takes this in. */
export async function ringRoom(stores: Pick<Stores, 'outbox'>, call: UseCaseCall, incidentId: string, roomId: string): Promise<void> {
  await ring(stores, call, incidentId, roomId, HUNG_GATHERS_TIMES);
}

/** The same because of what was read there: others will send soon, too. */
export async function ringRead(stores: Pick<Stores, 'outbox'>, call: UseCaseCall, incidentId: string, placeId: string): Promise<void> {
  await ring(stores, call, incidentId, placeId, 1);
}

async function ring(stores: Pick<Stores, 'outbox'>, call: UseCaseCall, incidentId: string, subjectId: string, times: number): Promise<void> {
  await stores.outbox.appendUnlessWaiting({ id: call.env.newId(), incidentId, kind: 'climate.readings', subjectId, traceparent: call.context.traceparent }, Math.round((call.env.climateGatherMs ?? CLIMATE_GATHER_MS) * times));
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

/** The same for the place of a sensor, as far as anything is reckoned of it. */
export async function ringSensed(stores: Pick<Stores, 'outbox'>, call: UseCaseCall, { incidentId, place }: Pick<SensorRecord, 'incidentId' | 'place'>): Promise<void> {
  if (place.kind === 'drying-room' || place.kind === 'freezer') await ringRead(stores, call, incidentId, place.id);
}

/** The same for every drying room of a site: the weather outside has changed, or what is foreseen of it. */
export async function ringSite(stores: Pick<Stores, 'outbox' | 'climateRecords'>, call: UseCaseCall, incidentId: string, siteId: string): Promise<void> {
  const rooms = (await stores.climateRecords.places(incidentId)).filter((place) => place.kind === 'drying-room' && place.siteId === siteId);
  for (const id of rooms.map((room) => room.id).sort()) await ringRoom(stores, call, incidentId, id);
}
