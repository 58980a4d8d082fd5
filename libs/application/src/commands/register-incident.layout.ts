import { automaticHoldingCode, type RegisterIncident } from '#contracts';
import type { LayoutRecords } from '../ports/layout-store.js';
import type { Span } from '../ports/plan-input.js';

type Site = RegisterIncident['sites'][number];
type Room = Site['dryingRooms'][number];
type Ids = { incidentId: string; newId: () => string };

/** The rows of a document whose codes are known to be right; ids are made here, in the order of the document. */
export function layoutOf(document: RegisterIncident, incidentId: string, newId: () => string): LayoutRecords {
  const ids = { incidentId, newId };
  const layout: LayoutRecords = { sites: [], zones: [], stations: [], openings: [], holdingAreas: [], dryingRooms: [], dehumidifiers: [], dryingPlaces: [], freezers: [], shelves: [], vehicles: [], specialists: [], people: [], shifts: [] };
  for (const site of document.sites) addSite(layout, site, ids);
  const siteIds = new Map(layout.sites.map((site) => [site.code, site.id]));
  for (const person of document.people) {
    const personId = newId();
    layout.people.push({ id: personId, incidentId, siteId: named(siteIds, person.site), code: person.code, displayName: person.displayName, skills: person.skills, restrictions: person.restrictions, respiratorFitUntil: person.respiratorFitUntil, version: 1 });
    for (const shift of person.shifts) layout.shifts.push({ id: newId(), incidentId, personId, startsAtMs: Date.parse(shift.startsAt), endsAtMs: Date.parse(shift.endsAt), version: 1 });
  }
  for (const specialist of document.specialists) {
    const { materialClasses, openings, ...own } = specialist;
    layout.specialists.push({ id: newId(), incidentId, ...own, materialClasses: materialClasses ?? [], openings: (openings ?? []).map(spanOf), version: 1 });
  }
  return layout;
}

/** An opening as it is kept. */
export function spanOf({ opensAt, closesAt }: { opensAt: string; closesAt: string }): Span {
  return { fromMs: Date.parse(opensAt), toMs: Date.parse(closesAt) };
}

function addSite(layout: LayoutRecords, site: Site, { incidentId, newId }: Ids): void {
  const siteId = newId();
  const zoneIds = new Map(site.zones.map((kind) => [kind, newId()]));
  layout.sites.push({ id: siteId, incidentId, code: site.code, name: site.name, place: site.place, version: 1 });
  for (const [kind, id] of zoneIds) layout.zones.push({ id, incidentId, siteId, kind });
  for (const station of site.stations) {
    const stationId = newId();
    const { code, name, steps, capacity } = station;
    layout.stations.push({ id: stationId, incidentId, siteId, zoneId: named(zoneIds, station.zone), code, name, steps, capacity, state: 'open', version: 1 });
    for (const opening of station.openings) layout.openings.push({ id: newId(), incidentId, stationId, opensAtMs: Date.parse(opening.opensAt), closesAtMs: Date.parse(opening.closesAt) });
  }
  for (const area of holdingAreasOf(site)) layout.holdingAreas.push({ id: newId(), incidentId, siteId, zoneId: named(zoneIds, area.zone), code: area.code, name: area.name });
  for (const room of site.dryingRooms) addRoom(layout, siteId, room, { incidentId, newId });
  for (const { availableFrom, ...freezer } of site.freezers) layout.freezers.push({ id: newId(), incidentId, siteId, ...freezer, availableFromMs: Date.parse(availableFrom), version: 1 });
}

/** Every zone has a waiting area: a thing that has arrived stands somewhere, and that place has a name. */
function holdingAreasOf(site: Site): Site['holdingAreas'] {
  const bare = site.zones.filter((zone) => !site.holdingAreas.some((area) => area.zone === zone));
  return [...site.holdingAreas, ...bare.map((zone) => ({ code: automaticHoldingCode(zone), name: `Waiting area, ${zone} zone`, zone }))];
}

function addRoom(layout: LayoutRecords, siteId: string, room: Room, { incidentId, newId }: Ids): void {
  const dryingRoomId = newId();
  const { dehumidifiers, dryingPlaces, measuredAt, ...own } = room;
  layout.dryingRooms.push({ id: dryingRoomId, incidentId, siteId, ...own, measuredAtMs: Date.parse(measuredAt), version: 1 });
  for (const dehumidifier of dehumidifiers) layout.dehumidifiers.push({ id: newId(), incidentId, dryingRoomId, ...dehumidifier, version: 1 });
  for (const { areaM2, ...place } of dryingPlaces) layout.dryingPlaces.push({ id: newId(), incidentId, dryingRoomId, ...place, areaDm2: squareDecimetres(areaM2), version: 1 });
}

/** Whole square decimetres, the unit in which areas are counted. */
export function squareDecimetres(areaM2: number): number {
  return Math.max(1, Math.round(areaM2 * 100));
}

function named<K>(ids: ReadonlyMap<K, string>, name: K): string {
  const id = ids.get(name);
  if (id === undefined) throw new Error('a name of the document stands for nothing although the document was checked');
  return id;
}
