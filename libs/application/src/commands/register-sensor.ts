import { Problem, type RegisterSensor } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { ringSensed } from '../climate/ring-room.js';
import { openIncidentOf } from '../custody/open-incident.js';
import type { SensorRecord } from '../ports/climate-records-store.js';
import type { Stores } from '../ports/work.js';

/** Registers a sensor at a place. A sensor that is moved is another one: it is withdrawn and registered anew, so that its readings stay where they were taken. */
export async function registerSensor(stores: Stores, call: UseCaseCall, input: RegisterSensor & { incidentId: string }): Promise<SensorRecord> {
  const { incidentId, code, name, placeKind, placeId, expectedEveryMinutes } = input;
  await openIncidentOf(stores, incidentId);
  const places = await stores.climateRecords.places(incidentId);
  if (!places.some((place) => place.kind === placeKind && place.id === placeId)) {
    throw new Problem('reference_unknown', 'No place of this kind with this id belongs to the incident. Take the id from the layout; for the open air it is that of the site.', {
      errors: [{ detail: 'names no place of this kind of the incident', code: 'reference_unknown', pointer: '#/placeId' }],
    });
  }
  const sensor: SensorRecord = { id: call.env.newId(), incidentId, code, name, place: { kind: placeKind, id: placeId }, state: 'in-service', withdrawnAtMs: null, expectedEveryMinutes, version: 1, createdAtMs: call.env.nowMs };
  if (!(await stores.climateRecords.insertSensor(sensor))) {
    throw new Problem('already_exists', `Another sensor of this incident has the code "${code}". Choose another code, or change the one that is there.`, { errors: [{ detail: 'is taken', code: 'already_exists', pointer: '#/code' }] });
  }
  // How long its place may be silent has changed.
  if (expectedEveryMinutes !== null) await ringSensed(stores, call, sensor);
  return sensor;
}
