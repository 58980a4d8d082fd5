import type { PreparedIncident } from '#testing';
import { ofIncident, type Table } from '../row.js';

let codes = 0;
const room = (incident: PreparedIncident) => incident.places.room('ROOM');
/** A sensor of the drying room under a code that nobody has. */
export const sensorOf = (incident: PreparedIncident) => ({ code: `T${(codes += 1)}`, name: incident.text('Logger by the stage'), placeKind: 'drying-room', placeId: room(incident), expectedEveryMinutes: 15 });
export const readingsOf = (incident: PreparedIncident) => ({ readings: [{ sensor: incident.the('sensor'), measuredAt: '2026-05-09T06:50:00Z', airTempC: 20.5, relativeHumidityPct: 66 }, { placeKind: 'freezer', place: 'F1', measuredAt: '2026-05-09T06:50:00Z', airTempC: -17 }] });
export const weatherOf = (incident: PreparedIncident) => ({ kind: 'observed', source: incident.text('Weather office'), records: [{ validAt: '2026-05-09T06:00:00Z', airTempC: 22, relativeHumidityPct: 88 }] });
export const weighingOf = (incident: PreparedIncident) => ({ scaleKg: 6, weighedAt: '2026-05-09T07:00:00Z', note: incident.text('In the grey tub') });

const ofSite = (incident: PreparedIncident) => ({ incidentId: incident.id, siteId: incident.places.site() });

export const climateRecordRows: Table = {
  registerSensor: ofIncident({ body: sensorOf, references: { '#/placeId': { values: (incident) => [room(incident)] } } }),
  listSensors: {
    request: (incident) => ({ params: { incidentId: incident.id }, query: { placeKind: 'drying-room', placeId: room(incident) } }),
    references: { '?placeId': { values: (incident) => [room(incident)], answers: ['nothing found'] } },
  },
  changeSensor: {
    request: async (incident) => {
      const { body } = await incident.network.get(`/v1/incidents/${incident.id}/sensors?limit=200`).expect(200);
      const version = body.items.find(({ id }: { id: string }) => id === incident.the('sensor'))?.version;
      return { params: { incidentId: incident.id, sensorId: incident.the('sensor') }, body: { name: incident.text('By the door') }, ifMatch: `"${version}"` };
    },
  },
  // Sensors and places are named by code or id in each row, and a row is refused by itself: tests/api/recordReadings/404.spec.ts.
  recordReadings: ofIncident({ body: readingsOf }),
  listReadings: {
    request: (incident) => ({ params: { incidentId: incident.id }, query: { placeKind: 'drying-room', placeId: room(incident) } }),
    references: {
      '?placeId': { values: (incident) => [room(incident)], answers: ['nothing found'] },
      '?sensorId': { values: (incident) => [incident.the('sensor')], answers: ['nothing found'] },
    },
  },
  recordWeighing: {
    request: async (incident) => ({ params: { itemId: (await incident.newItem()).id }, body: { ...weighingOf(incident), personId: incident.places.person('P1'), dryingPlaceId: incident.places.place('R1') } }),
    references: {
      '#/personId': { values: (incident) => [incident.places.person('P1')] },
      '#/dryingPlaceId': { values: (incident) => [incident.places.place('R1')] },
    },
  },
  recordWeighings: {
    request: async (incident) => ({ params: { incidentId: incident.id }, body: { weighings: [{ item: (await incident.newItem()).id, ...weighingOf(incident) }] } }),
    notReferences: {
      '#/weighings/0/personId': 'a row is refused by itself: tests/api/recordWeighings/200.foreign.spec.ts',
      '#/weighings/0/dryingPlaceId': 'a row is refused by itself: tests/api/recordWeighings/200.foreign.spec.ts',
    },
  },
  listWeighings: { request: (incident) => ({ params: { itemId: incident.the('worked') } }) },
  recordWeather: { request: (incident) => ({ params: ofSite(incident), body: weatherOf(incident) }) },
  listWeather: { request: (incident) => ({ params: ofSite(incident) }) },
};
