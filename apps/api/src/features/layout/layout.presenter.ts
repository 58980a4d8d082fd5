import type { z } from 'zod';
import type {
  DehumidifierRecord, DryingPlaceRecord, DryingRoomRecord, FreezerRecord, LayoutRecords, LayoutView, PersonView, RoomReadingView, ShelfView, ShiftRecord, SiteRecord, SpecialistRecord, StationView, VehicleRecord,
} from '#application';
import type {
  DehumidifierBody, DryingPlaceBody, DryingRoomBody, FreezerBody, LayoutBody, PersonBody, RoomReadingBody, ShelfBody, ShiftBody, SiteBody, SpecialistBody, StationBody, VehicleBody,
} from '#contracts';
import { presentIncident } from '../../presenters/incident.presenter.js';
import { iso } from '../../presenters/time.js';

export function presentLayout({ incident, records }: LayoutView): z.output<typeof LayoutBody> {
  const shifts = grouped(records.shifts, (shift) => shift.personId);
  return {
    incident: presentIncident(incident),
    sites: records.sites.map((site) => presentSite(site, records)),
    people: records.people.map((person) => presentPerson({ person, shifts: shifts.get(person.id) ?? [] })),
    specialists: records.specialists.map(presentSpecialist),
    vehicles: records.vehicles.map(presentVehicle),
  };
}

function presentSite(site: SiteRecord, records: LayoutRecords): z.output<typeof SiteBody> {
  const here = <T extends { siteId: string }>(things: readonly T[]) => things.filter((thing) => thing.siteId === site.id);
  const zones = new Map(here(records.zones).map((zone) => [zone.id, zone.kind]));
  const kindOf = (zoneId: string) => {
    const kind = zones.get(zoneId);
    if (!kind) throw new Error('a place of the site stands in a zone of no site');
    return kind;
  };
  const openings = grouped(records.openings, (opening) => opening.stationId);
  return {
    id: site.id, code: site.code, name: site.name, place: site.place, version: site.version,
    zones: here(records.zones).map(({ id, kind }) => ({ id, kind })),
    stations: here(records.stations).map((station) => presentStation({ station, zone: kindOf(station.zoneId), openings: openings.get(station.id) ?? [] })),
    holdingAreas: here(records.holdingAreas).map(({ id, code, name, zoneId }) => ({ id, code, name, zone: kindOf(zoneId) })),
    dryingRooms: here(records.dryingRooms).map((room) => presentRoom(room, records)),
    freezers: here(records.freezers).map(presentFreezer),
    shelves: here(records.shelves).map((shelf) => presentShelf({ shelf, zone: kindOf(shelf.zoneId) })),
  };
}

export function presentStation({ station, zone, openings }: StationView): z.output<typeof StationBody> {
  const { id, code, name, steps, capacity, state, version } = station;
  return { id, code, name, zone, steps, capacity, state, version, openings: openings.map((opening) => ({ id: opening.id, opensAt: iso(opening.opensAtMs), closesAt: iso(opening.closesAtMs) })) };
}

function presentRoom(room: DryingRoomRecord, records: LayoutRecords): z.output<typeof DryingRoomBody> {
  const inside = <T extends { dryingRoomId: string }>(things: readonly T[]) => things.filter((thing) => thing.dryingRoomId === room.id);
  const { id, code, name, volumeM3, airChangesPerH, humidityCapPct, airTempC, relativeHumidityPct, measuredAtMs, version } = room;
  return {
    id, code, name, volumeM3, airChangesPerH, humidityCapPct, airTempC, relativeHumidityPct, measuredAt: iso(measuredAtMs), version,
    dehumidifiers: inside(records.dehumidifiers).map(presentDehumidifier),
    dryingPlaces: inside(records.dryingPlaces).map(presentDryingPlace),
  };
}

export function presentDehumidifier({ id, code, name, ratedLPerDay, ratedTempC, ratedRelativeHumidityPct, state, version }: DehumidifierRecord): z.output<typeof DehumidifierBody> {
  return { id, code, name, ratedLPerDay, ratedTempC, ratedRelativeHumidityPct, state, version };
}

export function presentDryingPlace({ id, dryingRoomId, code, name, arrangement, areaDm2, version }: DryingPlaceRecord): z.output<typeof DryingPlaceBody> {
  return { id, dryingRoomId, code, name, arrangement, areaM2: areaDm2 / 100, version };
}

export function presentFreezer({ id, siteId, code, name, volumeL, setPointC, availableFromMs, version }: FreezerRecord): z.output<typeof FreezerBody> {
  return { id, siteId, code, name, volumeL, setPointC, availableFrom: iso(availableFromMs), version };
}

export function presentShelf({ shelf, zone }: ShelfView): z.output<typeof ShelfBody> {
  const { id, siteId, code, name, volumeL, version } = shelf;
  return { id, siteId, code, name, zone, volumeL, version };
}

export function presentSpecialist({ id, code, name, field, piecesAtOnce, hoursPerPiece, materialClasses, openings, version }: SpecialistRecord): z.output<typeof SpecialistBody> {
  return { id, code, name, field, piecesAtOnce, hoursPerPiece, materialClasses, openings: openings.map(({ fromMs, toMs }) => ({ opensAt: iso(fromMs), closesAt: iso(toMs) })), version };
}

export function presentVehicle({ id, code, name, volumeL, maxLoadKg, rides, runs, version }: VehicleRecord): z.output<typeof VehicleBody> {
  return {
    id, code, name, volumeL, maxLoadKg, version,
    rides: rides?.map((ride) => ({ id: ride.id, fromSiteId: ride.fromSiteId, toSiteId: ride.toSiteId, minutes: ride.minutes })) ?? null,
    runs: runs.map(({ fromMs, toMs }) => ({ startsAt: iso(fromMs), endsAt: iso(toMs) })),
  };
}

export function presentShift({ id, startsAtMs, endsAtMs, version }: ShiftRecord): z.output<typeof ShiftBody> {
  return { id, startsAt: iso(startsAtMs), endsAt: iso(endsAtMs), version };
}

export function presentPerson({ person, shifts }: PersonView): z.output<typeof PersonBody> {
  const { id, siteId, code, displayName, skills, restrictions, respiratorFitUntil, version } = person;
  return { id, siteId, code, displayName, skills, restrictions, respiratorFitUntil, version, shifts: shifts.map(presentShift) };
}

export function presentReading({ reading, becameCurrent }: RoomReadingView): z.output<typeof RoomReadingBody> {
  const { id, dryingRoomId, airTempC, relativeHumidityPct, measuredAtMs, recordedAtMs } = reading;
  return { id, dryingRoomId, airTempC, relativeHumidityPct, measuredAt: iso(measuredAtMs), recordedAt: iso(recordedAtMs), becameCurrent };
}

function grouped<T>(things: readonly T[], by: (thing: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const thing of things) groups.set(by(thing), [...(groups.get(by(thing)) ?? []), thing]);
  return groups;
}
