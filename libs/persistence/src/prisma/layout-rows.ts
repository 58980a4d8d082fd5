import type {
  DehumidifierRecord, DryingPlaceRecord, DryingRoomRecord, FreezerRecord, HoldingAreaRecord, IncidentRecord, PersonRecord, ShelfRecord, ShiftRecord, SiteRecord, Span, SpecialistRecord, StationOpeningRecord, StationRecord, VehicleRecord, ZoneRecord,
} from '#application';
import {
  Prisma, type Dehumidifier, type DryingPlace, type DryingRoom, type Freezer, type HoldingArea, type Incident, type Person, type Shelf, type Shift, type Site, type Specialist, type Station, type StationOpening, type Vehicle, type Zone,
} from '../generated/prisma/client.js';
import { at, msOrNull } from '../stores/row.js';

// Rows of the ORM to records of the application and back. Columns with a CHECK are words of the domain by that check.

export const toIncident = (row: Incident): IncidentRecord => ({
  id: row.id, name: row.name, place: row.place, floodAtMs: row.floodAt.getTime(), defaultWater: row.defaultWater as IncidentRecord['defaultWater'], outdoorAirTempC: row.outdoorAirTempC,
  outdoorRelativeHumidityPct: row.outdoorRelativeHumidityPct, outdoorAirAtMs: msOrNull(row.outdoorAirAt), state: row.state as IncidentRecord['state'], planPublishing: row.planPublishing as IncidentRecord['planPublishing'], version: row.version, createdAtMs: row.createdAt.getTime(), updatedAtMs: row.updatedAt.getTime(),
});

export const fromIncident = (networkId: string, incident: IncidentRecord): Incident => ({
  networkId, id: incident.id, name: incident.name, place: incident.place, floodAt: at(incident.floodAtMs), defaultWater: incident.defaultWater, outdoorAirTempC: incident.outdoorAirTempC,
  outdoorRelativeHumidityPct: incident.outdoorRelativeHumidityPct, outdoorAirAt: at(incident.outdoorAirAtMs), state: incident.state, planPublishing: incident.planPublishing, version: incident.version, createdAt: at(incident.createdAtMs), updatedAt: at(incident.updatedAtMs),
  // Written by the trigger `incident_closed_since`, whatever stands here.
  closedAt: null,
});

export const toSite = ({ networkId: _, ...row }: Site): SiteRecord => row;

export const toZone = ({ networkId: _, ...row }: Zone): ZoneRecord => ({ ...row, kind: row.kind as ZoneRecord['kind'] });

export const toStation = ({ networkId: _, ...row }: Station): StationRecord => ({ ...row, steps: row.steps as StationRecord['steps'], state: row.state as StationRecord['state'] });

export const toOpening = (row: StationOpening): StationOpeningRecord => ({
  id: row.id, incidentId: row.incidentId, stationId: row.stationId, opensAtMs: row.opensAt.getTime(), closesAtMs: row.closesAt.getTime(),
});

export const fromOpening = (networkId: string, opening: StationOpeningRecord): StationOpening => ({
  networkId, incidentId: opening.incidentId, id: opening.id, stationId: opening.stationId, opensAt: at(opening.opensAtMs), closesAt: at(opening.closesAtMs),
});

export const toHoldingArea = ({ networkId: _, ...row }: HoldingArea): HoldingAreaRecord => row;

export const toDryingRoom = ({ networkId: _, measuredAt, ...row }: DryingRoom): DryingRoomRecord => ({ ...row, measuredAtMs: measuredAt.getTime() });

export const fromDryingRoom = (networkId: string, { measuredAtMs, ...room }: DryingRoomRecord): DryingRoom => ({ networkId, ...room, measuredAt: at(measuredAtMs) });

export const toDehumidifier = ({ networkId: _, ...row }: Dehumidifier): DehumidifierRecord => ({ ...row, state: row.state as DehumidifierRecord['state'] });

export const toDryingPlace = ({ networkId: _, ...row }: DryingPlace): DryingPlaceRecord => ({ ...row, arrangement: row.arrangement as DryingPlaceRecord['arrangement'] });

export const toFreezer = ({ networkId: _, availableFrom, ...row }: Freezer): FreezerRecord => ({ ...row, availableFromMs: availableFrom.getTime() });

export const fromFreezer = (networkId: string, { availableFromMs, ...freezer }: FreezerRecord): Freezer => ({ networkId, ...freezer, availableFrom: at(availableFromMs) });

export const toShelf = ({ networkId: _, ...row }: Shelf): ShelfRecord => row;

/** JSON of the columns as they were written; spans and rides are checked where they come in. */
export const toVehicle = ({ networkId: _, rides, runs, ...row }: Vehicle): VehicleRecord => ({
  ...row, rides: rides as unknown as VehicleRecord['rides'], runs: (runs as unknown as SpanRow[]).map(toSpan),
});

/** Columns of a vehicle whose members are lists; what is left out stays as it is. */
export const fromVehicleLists = ({ rides, runs }: Partial<Pick<VehicleRecord, 'rides' | 'runs'>>): { rides?: Prisma.InputJsonValue | typeof Prisma.DbNull; runs?: Prisma.InputJsonValue } => ({
  ...(rides === undefined ? {} : { rides: rides === null ? Prisma.DbNull : rides.map(({ id, fromSiteId, toSiteId, minutes }) => ({ id, fromSiteId, toSiteId, minutes })) }),
  ...(runs === undefined ? {} : { runs: fromSpans(runs) }),
});

export const toSpecialist = ({ networkId: _, openings, ...row }: Specialist): SpecialistRecord => ({ ...row, materialClasses: row.materialClasses as SpecialistRecord['materialClasses'], openings: (openings as unknown as SpanRow[]).map(toSpan) });

/** A span as it stands in a column of its specialist or vehicle. */
interface SpanRow {
  from: number;
  to: number;
}

const toSpan = ({ from, to }: SpanRow): Span => ({ fromMs: from, toMs: to });

export const fromSpans = (spans: readonly Span[]): SpanRow[] & Prisma.InputJsonValue => spans.map(({ fromMs, toMs }) => ({ from: fromMs, to: toMs }));

export const toPerson = ({ networkId: _, ...row }: Person): PersonRecord => ({
  ...row, skills: row.skills as PersonRecord['skills'], restrictions: row.restrictions as PersonRecord['restrictions'], respiratorFitUntil: row.respiratorFitUntil?.toISOString().slice(0, 10) ?? null,
});

/** A day of the calendar as the ORM takes it: midnight UTC, whatever the zone of this machine. */
export const fromDay = (day: string | null): Date | null => (day === null ? null : new Date(`${day}T00:00:00Z`));

export const toShift = (row: Shift): ShiftRecord => ({
  id: row.id, incidentId: row.incidentId, personId: row.personId, startsAtMs: row.startsAt.getTime(), endsAtMs: row.endsAt.getTime(), version: row.version,
});

export const fromShift = (networkId: string, shift: ShiftRecord): Shift => ({
  networkId, incidentId: shift.incidentId, id: shift.id, personId: shift.personId, startsAt: at(shift.startsAtMs), endsAt: at(shift.endsAtMs), version: shift.version,
});
