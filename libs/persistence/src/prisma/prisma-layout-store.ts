import type {
  DryingPlaceRecord, DryingRoomRecord, FreezerRecord, IncidentRecord, LayoutChanges, LayoutKind, LayoutKinds, LayoutRecords, LayoutStore, MachineStateRecord, PersonRecord, ShelfRecord, ShiftRecord, SiteRecord, StationOpeningRecord, VehicleRecord,
} from '#application';
import type { Zone } from '#care';
import { TERMINAL_STAGES, type Stage } from '#custody';
import { at } from '../stores/row.js';
import type { Transaction } from './client.js';
import { insertRows } from './insert-rows.js';
import {
  fromDay, fromDryingRoom, fromFreezer, fromIncident, fromOpening, fromShift, fromSpans, fromVehicleLists, toDehumidifier, toDryingPlace, toDryingRoom, toFreezer, toHoldingArea, toIncident, toOpening, toPerson, toShelf, toShift, toSite, toSpecialist, toStation, toVehicle, toZone,
} from './layout-rows.js';

/** Finds one thing of a kind, and saves it where it still has the version that was read. */
interface KindTable<K extends LayoutKind> {
  find(where: Key): Promise<LayoutKinds[K] | null>;
  save(where: Key & { version: number }, changed: LayoutChanges[K]): Promise<LayoutKinds[K][]>;
}

interface Key {
  networkId: string;
  incidentId: string;
  id: string;
}

const RAISE = { version: { increment: 1 } } as const;

export class PrismaLayoutStore implements LayoutStore {
  constructor(
    private readonly transaction: Transaction,
    private readonly networkId: string,
  ) {}

  async insertIncident(incident: IncidentRecord): Promise<void> {
    await this.transaction.incident.createMany({ data: [fromIncident(this.networkId, incident)] });
  }

  /** Parents before children, because every key is checked as it comes. */
  async insertLayout(layout: LayoutRecords): Promise<void> {
    const { transaction, networkId } = this;
    const own = (row: object) => ({ networkId, ...row });
    await insertRows(transaction, 'site', layout.sites.map(own));
    await insertRows(transaction, 'zone', layout.zones.map(own));
    await insertRows(transaction, 'station', layout.stations.map(own));
    await insertRows(transaction, 'station_opening', layout.openings.map((row) => fromOpening(networkId, row)));
    await insertRows(transaction, 'holding_area', layout.holdingAreas.map(own));
    await insertRows(transaction, 'drying_room', layout.dryingRooms.map((row) => fromDryingRoom(networkId, row)));
    await this.insertFirstReadings(layout.dryingRooms[0]?.incidentId);
    await insertRows(transaction, 'dehumidifier', layout.dehumidifiers.map(own));
    await insertRows(transaction, 'drying_place', layout.dryingPlaces.map(own));
    await insertRows(transaction, 'freezer', layout.freezers.map((row) => fromFreezer(networkId, row)));
    await insertRows(transaction, 'specialist', layout.specialists.map(({ openings, ...row }) => own({ ...row, openings: fromSpans(openings) })));
    await insertRows(transaction, 'person', layout.people.map(own));
    await insertRows(transaction, 'shift', layout.shifts.map((row) => fromShift(networkId, row)));
  }

  /** Nobody else knows the rooms yet, so the numbers need no lock. */
  private async insertFirstReadings(incidentId: string | undefined): Promise<void> {
    if (incidentId === undefined) return;
    await this.transaction.$executeRaw`
      insert into climate_reading (network_id, incident_id, id, place_kind, place_id, sequence, measured_at, air_temp_c, relative_humidity_pct, recorded_at, source)
      select d.network_id, d.incident_id, uuidv7(), 'drying-room', d.id, 1, d.measured_at, d.air_temp_c, d.relative_humidity_pct, i.created_at, 'hand'
      from drying_room d join incident i on i.network_id = d.network_id and i.id = d.incident_id
      where d.network_id = ${this.networkId}::uuid and d.incident_id = ${incidentId}::uuid`;
  }

  async incident(incidentId: string): Promise<IncidentRecord | null> {
    const row = await this.transaction.incident.findFirst({ where: { networkId: this.networkId, id: incidentId } });
    return row ? toIncident(row) : null;
  }

  async incidentPage(limit: number, beforeId: string | null): Promise<IncidentRecord[]> {
    const rows = await this.transaction.incident.findMany({ where: { networkId: this.networkId, ...(beforeId === null ? {} : { id: { lt: beforeId } }) }, orderBy: { id: 'desc' }, take: limit });
    return rows.map(toIncident);
  }

  async saveIncident(incidentId: string, expectedVersion: number, changed: Parameters<LayoutStore['saveIncident']>[2], nowMs: number): Promise<IncidentRecord | null> {
    const rows = await this.transaction.incident.updateManyAndReturn({
      where: { networkId: this.networkId, id: incidentId, version: expectedVersion },
      data: { ...changed, ...(changed.outdoorAirTempC === undefined && changed.outdoorRelativeHumidityPct === undefined ? {} : { outdoorAirAt: at(nowMs) }), ...RAISE, updatedAt: at(nowMs) },
    });
    return rows[0] ? toIncident(rows[0]) : null;
  }

  async heldItems(incidentId: string): Promise<{ stage: Stage; items: number }[]> {
    // Whoever takes something in holds the row `for key share` until the end; this waits for them all and keeps new ones waiting.
    await this.transaction.$queryRaw`select 1 as held from incident where network_id = ${this.networkId}::uuid and id = ${incidentId}::uuid for update`;
    const groups = await this.transaction.item.groupBy({ by: ['stage'], where: { networkId: this.networkId, incidentId, stage: { notIn: [...TERMINAL_STAGES] } }, _count: { _all: true }, orderBy: { stage: 'asc' } });
    return groups.map((group) => ({ stage: group.stage as Stage, items: group._count._all }));
  }

  async layout(incidentId: string): Promise<LayoutRecords> {
    const { transaction } = this;
    const where = { networkId: this.networkId, incidentId };
    const byCode = { where, orderBy: [{ code: 'asc' as const }, { id: 'asc' as const }] };
    return {
      sites: (await transaction.site.findMany(byCode)).map(toSite),
      zones: (await transaction.zone.findMany({ where, orderBy: { kind: 'asc' } })).map(toZone),
      stations: (await transaction.station.findMany(byCode)).map(toStation),
      openings: (await transaction.stationOpening.findMany({ where, orderBy: [{ opensAt: 'asc' }, { id: 'asc' }] })).map(toOpening),
      holdingAreas: (await transaction.holdingArea.findMany(byCode)).map(toHoldingArea),
      dryingRooms: (await transaction.dryingRoom.findMany(byCode)).map(toDryingRoom),
      dehumidifiers: (await transaction.dehumidifier.findMany(byCode)).map(toDehumidifier),
      dryingPlaces: (await transaction.dryingPlace.findMany(byCode)).map(toDryingPlace),
      freezers: (await transaction.freezer.findMany(byCode)).map(toFreezer),
      shelves: (await transaction.shelf.findMany(byCode)).map(toShelf),
      vehicles: (await transaction.vehicle.findMany(byCode)).map(toVehicle),
      specialists: (await transaction.specialist.findMany(byCode)).map(toSpecialist),
      people: (await transaction.person.findMany(byCode)).map(toPerson),
      shifts: (await transaction.shift.findMany({ where, orderBy: [{ startsAt: 'asc' }, { id: 'asc' }] })).map(toShift),
    };
  }

  async site(incidentId: string, siteId: string): Promise<SiteRecord | null> {
    const row = await this.transaction.site.findFirst({ where: this.key(incidentId, siteId) });
    return row ? toSite(row) : null;
  }

  async dryingRoom(incidentId: string, dryingRoomId: string): Promise<DryingRoomRecord | null> {
    const row = await this.transaction.dryingRoom.findFirst({ where: this.key(incidentId, dryingRoomId) });
    return row ? toDryingRoom(row) : null;
  }

  async insertFreezer(freezer: FreezerRecord): Promise<boolean> {
    const { count } = await this.transaction.freezer.createMany({ data: [fromFreezer(this.networkId, freezer)], skipDuplicates: true });
    return count === 1;
  }

  async insertDryingPlace(place: DryingPlaceRecord): Promise<boolean> {
    const { count } = await this.transaction.dryingPlace.createMany({ data: [{ networkId: this.networkId, ...place }], skipDuplicates: true });
    return count === 1;
  }

  async insertShelf(shelf: ShelfRecord): Promise<boolean> {
    const { count } = await this.transaction.shelf.createMany({ data: [{ networkId: this.networkId, ...shelf }], skipDuplicates: true });
    return count === 1;
  }

  async insertVehicle({ rides, runs, ...vehicle }: VehicleRecord): Promise<boolean> {
    const { count } = await this.transaction.vehicle.createMany({ data: [{ networkId: this.networkId, ...vehicle, ...fromVehicleLists({ rides, runs }) }], skipDuplicates: true });
    return count === 1;
  }

  async insertPerson(person: PersonRecord, shifts: readonly ShiftRecord[]): Promise<boolean> {
    const { count } = await this.transaction.person.createMany({ data: [{ networkId: this.networkId, ...person, respiratorFitUntil: fromDay(person.respiratorFitUntil) }], skipDuplicates: true });
    if (count !== 1) return false;
    await this.transaction.shift.createMany({ data: shifts.map((shift) => fromShift(this.networkId, shift)) });
    return true;
  }

  find<K extends LayoutKind>(kind: K, incidentId: string, id: string): Promise<LayoutKinds[K] | null> {
    return this.table(kind).find(this.key(incidentId, id));
  }

  async save<K extends LayoutKind>(kind: K, incidentId: string, id: string, expectedVersion: number, changed: LayoutChanges[K]): Promise<LayoutKinds[K] | null> {
    const saved = await this.table(kind).save({ ...this.key(incidentId, id), version: expectedVersion }, changed);
    return saved[0] ?? null;
  }

  async openings(stationId: string): Promise<StationOpeningRecord[]> {
    const rows = await this.transaction.stationOpening.findMany({ where: { networkId: this.networkId, stationId }, orderBy: [{ opensAt: 'asc' }, { id: 'asc' }] });
    return rows.map(toOpening);
  }

  async shifts(personId: string): Promise<ShiftRecord[]> {
    const rows = await this.transaction.shift.findMany({ where: { networkId: this.networkId, personId }, orderBy: [{ startsAt: 'asc' }, { id: 'asc' }] });
    return rows.map(toShift);
  }

  async recordMachineState({ id, incidentId, dehumidifierId, state, fromMs }: MachineStateRecord): Promise<void> {
    await this.transaction.dehumidifierState.createMany({ data: [{ networkId: this.networkId, id, incidentId, dehumidifierId, state, fromAt: at(fromMs) }] });
  }

  async zoneKind(zoneId: string): Promise<Zone> {
    return (await this.transaction.zone.findFirstOrThrow({ where: { networkId: this.networkId, id: zoneId } })).kind as Zone;
  }

  async zoneOf(siteId: string, kind: Zone): Promise<string | null> {
    return (await this.transaction.zone.findFirst({ where: { networkId: this.networkId, siteId, kind } }))?.id ?? null;
  }

  private key(incidentId: string, id: string): Key {
    return { networkId: this.networkId, incidentId, id };
  }

  private table<K extends LayoutKind>(kind: K): KindTable<K> {
    return this.tables()[kind];
  }

  private tables(): { [K in LayoutKind]: KindTable<K> } {
    const { station, dehumidifier, shift, freezer, person, shelf, specialist, vehicle } = this.transaction;
    return {
      station: {
        find: async (where) => optional(await station.findFirst({ where }), toStation),
        save: async (where, changed) => (await station.updateManyAndReturn({ where, data: { ...changed, ...RAISE } })).map(toStation),
      },
      dehumidifier: {
        find: async (where) => optional(await dehumidifier.findFirst({ where }), toDehumidifier),
        save: async (where, changed) => (await dehumidifier.updateManyAndReturn({ where, data: { ...changed, ...RAISE } })).map(toDehumidifier),
      },
      person: {
        find: async (where) => optional(await person.findFirst({ where }), toPerson),
        save: async (where, { respiratorFitUntil: until, ...changed }) =>
          (await person.updateManyAndReturn({ where, data: { ...changed, ...(until === undefined ? {} : { respiratorFitUntil: fromDay(until) }), ...RAISE } })).map(toPerson),
      },
      shift: {
        find: async (where) => optional(await shift.findFirst({ where }), toShift),
        save: async (where, { endsAtMs }) => (await shift.updateManyAndReturn({ where, data: { ...(endsAtMs === undefined ? {} : { endsAt: at(endsAtMs) }), ...RAISE } })).map(toShift),
      },
      shelf: {
        find: async (where) => optional(await shelf.findFirst({ where }), toShelf),
        save: async (where, changed) => (await shelf.updateManyAndReturn({ where, data: { ...changed, ...RAISE } })).map(toShelf),
      },
      specialist: {
        find: async (where) => optional(await specialist.findFirst({ where }), toSpecialist),
        save: async (where, { openings, ...changed }) => (await specialist.updateManyAndReturn({ where, data: { ...changed, ...(openings === undefined ? {} : { openings: fromSpans(openings) }), ...RAISE } })).map(toSpecialist),
      },
      vehicle: {
        find: async (where) => optional(await vehicle.findFirst({ where }), toVehicle),
        save: async (where, { rides, runs, ...changed }) =>
          (await vehicle.updateManyAndReturn({ where, data: { ...changed, ...fromVehicleLists({ ...(rides !== undefined && { rides }), ...(runs !== undefined && { runs }) }), ...RAISE } })).map(toVehicle),
      },
      freezer: {
        find: async (where) => optional(await freezer.findFirst({ where }), toFreezer),
        save: async (where, { availableFromMs, ...changed }) => (await freezer.updateManyAndReturn({ where, data: { ...changed, ...(availableFromMs === undefined ? {} : { availableFrom: at(availableFromMs) }), ...RAISE } })).map(toFreezer),
      },
    };
  }
}

function optional<Row, Kept>(row: Row | null, convert: (row: Row) => Kept): Kept | null {
  return row === null ? null : convert(row);
}
