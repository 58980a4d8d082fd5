import { incidentDocument, type PreparedIncident } from '#testing';
import { ofIncident, type Parts, type Reference, type Table } from '../row.js';

interface LayoutThing {
  id: string;
  version: number;
}

/** A thing of the layout with its version now, found by a path through the lists of the layout. */
async function now(incident: PreparedIncident, pick: (layout: LayoutNow) => LayoutThing | undefined): Promise<LayoutThing> {
  const { body } = await incident.network.get(`/v1/incidents/${incident.id}/layout`).expect(200);
  const thing = pick(body as LayoutNow);
  if (!thing) throw new Error('the layout lacks a thing that the matrix changes');
  return thing;
}

interface LayoutNow {
  sites: { stations: LayoutThing[]; freezers: LayoutThing[]; dryingRooms: { dehumidifiers: LayoutThing[] }[] }[];
  people: (LayoutThing & { shifts: LayoutThing[] })[];
  specialists: LayoutThing[];
}

const etag = (thing: LayoutThing) => `"${thing.version}"`;
let codes = 0;
const freshCode = () => `X${(codes += 1)}`;

/** Both ends of a ride. The incident has one site, so the ride is one only with the site that is put in. */
function ridesNaming(request: (incident: PreparedIncident) => Parts | Promise<Parts>): Record<string, Reference> {
  const reference: Reference = {
    values: (incident) => [incident.places.site()],
    request: async (incident) => {
      const { body, ...parts } = await request(incident);
      return { ...parts, body: { ...(body as object), rides: [{ fromSiteId: incident.places.site(), toSiteId: incident.places.site(), minutes: 20 }] } };
    },
  };
  return { '#/rides/0/fromSiteId': reference, '#/rides/0/toSiteId': reference };
}

export const incidentRows: Table = {
  registerIncident: {
    request: () => ({ body: incidentDocument() }),
    unbound: { otherNetwork: 'own rows', otherIncident: 'scope_missing' },
    limitedKeyRefused: 'scope_missing',
  },
  listIncidents: { request: () => ({}), unbound: { otherNetwork: 'own rows', otherIncident: 'own rows' } },
  getIncident: ofIncident(),
  changeIncident: {
    request: async (incident) => ({ params: { incidentId: incident.id }, body: { place: incident.text('Moved') }, ifMatch: await incident.etagOf(`/v1/incidents/${incident.id}`) }),
  },
  getLayout: ofIncident(),
  addFreezer: ofIncident({
    body: (incident) => ({ siteId: incident.places.site(), code: freshCode(), name: incident.text('Trailer'), volumeL: 6_000, availableFrom: '2026-05-09T16:00:00Z' }),
    references: { '#/siteId': { values: (incident) => [incident.places.site()] } },
  }),
  addDryingPlace: ofIncident({
    body: (incident) => ({ dryingRoomId: incident.places.room('ROOM'), code: freshCode(), name: incident.text('Rack'), arrangement: 'rack', areaM2: 3 }),
    references: { '#/dryingRoomId': { values: (incident) => [incident.places.room('ROOM')] } },
  }),
  addPerson: ofIncident({
    body: (incident) => ({ siteId: incident.places.site(), code: freshCode(), displayName: incident.text('Helper'), skills: ['intake'], restrictions: [], shifts: [] }),
    references: { '#/siteId': { values: (incident) => [incident.places.site()] } },
  }),
  addShelf: ofIncident({
    body: (incident) => ({ siteId: incident.places.site(), code: freshCode(), name: incident.text('Shelf'), zone: 'clean', volumeL: 400 }),
    references: { '#/siteId': { values: (incident) => [incident.places.site()] } },
  }),
  changeShelf: {
    request: async (incident) => {
      const shelf = await incident.create(`/v1/incidents/${incident.id}/shelves`, { siteId: incident.places.site(), code: freshCode(), name: incident.text('Shelf'), zone: 'clean' });
      return { params: { incidentId: incident.id, shelfId: shelf.id }, body: { volumeL: 300 }, ifMatch: etag(shelf) };
    },
  },
  addVehicle: ofIncident({
    body: (incident) => ({ code: freshCode(), name: incident.text('Van'), volumeL: 6_000, maxLoadKg: 900 }),
    references: ridesNaming((incident) => ({ params: { incidentId: incident.id }, body: { code: freshCode(), name: incident.text('Van'), maxLoadKg: 900 } })),
  }),
  changeVehicle: {
    request: async (incident) => {
      const vehicle = await incident.create(`/v1/incidents/${incident.id}/vehicles`, { code: freshCode(), name: incident.text('Van') });
      return { params: { incidentId: incident.id, vehicleId: vehicle.id }, body: { volumeL: 5_000 }, ifMatch: etag(vehicle) };
    },
    references: ridesNaming(async (incident) => {
      const vehicle = await incident.create(`/v1/incidents/${incident.id}/vehicles`, { code: freshCode(), name: incident.text('Van') });
      return { params: { incidentId: incident.id, vehicleId: vehicle.id }, body: {}, ifMatch: etag(vehicle) };
    }),
  },
  recordRoomReading: {
    request: (incident) => ({ params: { incidentId: incident.id, dryingRoomId: incident.places.room('ROOM') }, body: { airTempC: 22, relativeHumidityPct: 70, measuredAt: '2026-05-09T06:50:00Z' } }),
  },
  changeStation: {
    request: async (incident) => {
      const station = await now(incident, (layout) => layout.sites[0]?.stations[0]);
      return { params: { incidentId: incident.id, stationId: station.id }, body: { capacity: 3 }, ifMatch: etag(station) };
    },
  },
  changeDehumidifier: {
    request: async (incident) => {
      const dehumidifier = await now(incident, (layout) => layout.sites[0]?.dryingRooms[0]?.dehumidifiers[0]);
      return { params: { incidentId: incident.id, dehumidifierId: dehumidifier.id }, body: { state: 'tripped' }, ifMatch: etag(dehumidifier) };
    },
  },
  changeShift: {
    request: async (incident) => {
      const shift = await now(incident, (layout) => layout.people[0]?.shifts[0]);
      return { params: { incidentId: incident.id, shiftId: shift.id }, body: { endsAt: '2026-05-09T12:00:00Z' }, ifMatch: etag(shift) };
    },
  },
  changePerson: {
    request: async (incident) => {
      const person = await now(incident, (layout) => layout.people[0]);
      return { params: { incidentId: incident.id, personId: person.id }, body: { respiratorFitUntil: '2027-04-30' }, ifMatch: etag(person) };
    },
  },
  changeFreezer: {
    request: async (incident) => {
      const freezer = await now(incident, (layout) => layout.sites[0]?.freezers[0]);
      return { params: { incidentId: incident.id, freezerId: freezer.id }, body: { volumeL: 2_000 }, ifMatch: etag(freezer) };
    },
  },
  changeSpecialist: {
    request: async (incident) => {
      const specialist = await now(incident, (layout) => layout.specialists[0]);
      return { params: { incidentId: incident.id, specialistId: specialist.id }, body: { name: incident.text('Studio'), piecesAtOnce: 2, hoursPerPiece: 6 }, ifMatch: etag(specialist) };
    },
  },
};
