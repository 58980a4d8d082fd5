import type { MaterialClass, Restriction, Skill, StepKind, WaterKind, Zone } from '#care';
import type { Stage } from '#custody';
import type { Span } from './plan-input.js';

// Rows of the configuration as the use cases see them. Times are epoch milliseconds, units stand in the names.

export interface IncidentRecord {
  id: string;
  name: string;
  place: string;
  floodAtMs: number;
  defaultWater: WaterKind;
  outdoorAirTempC: number | null;
  outdoorRelativeHumidityPct: number | null;
  /** When the outdoor air was so; null while nobody has said any. */
  outdoorAirAtMs: number | null;
  state: 'open' | 'closed';
  /** `by-hand`: a new plan is a proposal until a coordinator publishes it. */
  planPublishing: 'automatic' | 'by-hand';
  version: number;
  createdAtMs: number;
  updatedAtMs: number;
}

interface OfIncident {
  id: string;
  incidentId: string;
}

export interface SiteRecord extends OfIncident {
  code: string;
  name: string;
  place: string;
  version: number;
}

export interface ZoneRecord extends OfIncident {
  siteId: string;
  kind: Zone;
}

export interface StationRecord extends OfIncident {
  siteId: string;
  zoneId: string;
  code: string;
  name: string;
  steps: StepKind[];
  /** Items in work at once. */
  capacity: number;
  state: 'open' | 'closed';
  version: number;
}

export interface StationOpeningRecord extends OfIncident {
  stationId: string;
  opensAtMs: number;
  closesAtMs: number;
}

export interface HoldingAreaRecord extends OfIncident {
  siteId: string;
  zoneId: string;
  code: string;
  name: string;
}

export interface DryingRoomRecord extends OfIncident {
  siteId: string;
  code: string;
  name: string;
  volumeM3: number;
  airChangesPerH: number;
  humidityCapPct: number;
  airTempC: number;
  relativeHumidityPct: number;
  measuredAtMs: number;
  version: number;
}

export interface DehumidifierRecord extends OfIncident {
  dryingRoomId: string;
  code: string;
  name: string;
  ratedLPerDay: number;
  ratedTempC: number;
  ratedRelativeHumidityPct: number;
  state: 'running' | 'tripped' | 'off';
  version: number;
}

/** Since when a dehumidifier is in a state; what its room was reckoned with before stays as it was. */
export interface MachineStateRecord extends OfIncident {
  dehumidifierId: string;
  state: DehumidifierRecord['state'];
  fromMs: number;
}

export interface DryingPlaceRecord extends OfIncident {
  dryingRoomId: string;
  code: string;
  name: string;
  arrangement: 'rack' | 'line' | 'screen' | 'table';
  areaDm2: number;
  version: number;
}

export interface FreezerRecord extends OfIncident {
  siteId: string;
  code: string;
  name: string;
  volumeL: number;
  setPointC: number;
  availableFromMs: number;
  version: number;
}

/** A numbered place of storage. */
export interface ShelfRecord extends OfIncident {
  siteId: string;
  zoneId: string;
  code: string;
  name: string;
  /** Litres; null where no limit is kept. */
  volumeL: number | null;
  version: number;
}

/** A ride of a vehicle from one site to another; the way back is a ride of its own. */
export interface VehicleRide {
  /** Stays as long as the vehicle rides between these two: plans name it. */
  id: string;
  fromSiteId: string;
  toSiteId: string;
  minutes: number;
}

/** What carries things between sites. */
export interface VehicleRecord extends OfIncident {
  code: string;
  name: string;
  volumeL: number | null;
  maxLoadKg: number | null;
  /** In the order in which it makes them; null where nobody has said. */
  rides: VehicleRide[] | null;
  /** When it runs, [fromMs, toMs); none for whenever people work. */
  runs: Span[];
  version: number;
}

export interface SpecialistRecord extends OfIncident {
  code: string;
  name: string;
  field: string;
  /** Things on the bench at once, and hours that each is there; both null where nobody has said. */
  piecesAtOnce: number | null;
  hoursPerPiece: number | null;
  /** Empty for every material. */
  materialClasses: MaterialClass[];
  /** When a thing can be on the bench; empty for whenever. */
  openings: Span[];
  version: number;
}

export interface PersonRecord extends OfIncident {
  siteId: string;
  code: string;
  displayName: string;
  skills: Skill[];
  restrictions: Restriction[];
  /** Last day, `2027-04-30`, on which medical fitness and fit test for a tight respirator are valid; null for none on record. */
  respiratorFitUntil: string | null;
  version: number;
}

export interface ShiftRecord extends OfIncident {
  personId: string;
  startsAtMs: number;
  endsAtMs: number;
  version: number;
}

/** Everything of one incident's layout, table by table. */
export interface LayoutRecords {
  sites: SiteRecord[];
  zones: ZoneRecord[];
  stations: StationRecord[];
  openings: StationOpeningRecord[];
  holdingAreas: HoldingAreaRecord[];
  dryingRooms: DryingRoomRecord[];
  dehumidifiers: DehumidifierRecord[];
  dryingPlaces: DryingPlaceRecord[];
  freezers: FreezerRecord[];
  shelves: ShelfRecord[];
  vehicles: VehicleRecord[];
  specialists: SpecialistRecord[];
  people: PersonRecord[];
  shifts: ShiftRecord[];
}

/** What of a thing may change after it was registered. */
export interface LayoutChanges {
  station: Partial<Pick<StationRecord, 'name' | 'state' | 'capacity'>>;
  dehumidifier: Partial<Pick<DehumidifierRecord, 'state'>>;
  shift: Partial<Pick<ShiftRecord, 'endsAtMs'>>;
  person: Partial<Pick<PersonRecord, 'skills' | 'restrictions' | 'respiratorFitUntil'>>;
  freezer: Partial<Pick<FreezerRecord, 'volumeL' | 'availableFromMs'>>;
  shelf: Partial<Pick<ShelfRecord, 'name' | 'volumeL'>>;
  specialist: Partial<Pick<SpecialistRecord, 'name' | 'field' | 'piecesAtOnce' | 'hoursPerPiece' | 'materialClasses' | 'openings'>>;
  vehicle: Partial<Pick<VehicleRecord, 'name' | 'volumeL' | 'maxLoadKg' | 'rides' | 'runs'>>;
}

export interface LayoutKinds {
  station: StationRecord;
  dehumidifier: DehumidifierRecord;
  shift: ShiftRecord;
  person: PersonRecord;
  freezer: FreezerRecord;
  shelf: ShelfRecord;
  vehicle: VehicleRecord;
  specialist: SpecialistRecord;
}

export type LayoutKind = keyof LayoutKinds;

export interface LayoutStore {
  insertIncident(incident: IncidentRecord): Promise<void>;
  /** Inserts all rows of a new incident, one statement a table; the air of its rooms is their first reading. */
  insertLayout(layout: LayoutRecords): Promise<void>;
  incident(incidentId: string): Promise<IncidentRecord | null>;
  /** Newest first; `beforeId` is exclusive. */
  incidentPage(limit: number, beforeId: string | null): Promise<IncidentRecord[]>;
  /** Saves the members given and raises the version; null when the version is another one (or the incident is gone). Outdoor air that is given is that of now. */
  saveIncident(incidentId: string, expectedVersion: number, changed: Partial<Pick<IncidentRecord, 'name' | 'place' | 'state' | 'planPublishing' | 'outdoorAirTempC' | 'outdoorRelativeHumidityPct'>>, nowMs: number): Promise<IncidentRecord | null>;
  /** Counts what the network still holds of the incident, by stage, once all who take something in have ended; nobody else begins to until the transaction ends. */
  heldItems(incidentId: string): Promise<{ stage: Stage; items: number }[]>;
  /** The whole layout in the order of codes and times. */
  layout(incidentId: string): Promise<LayoutRecords>;

  site(incidentId: string, siteId: string): Promise<SiteRecord | null>;
  dryingRoom(incidentId: string, dryingRoomId: string): Promise<DryingRoomRecord | null>;
  /** Answers false when its site or room has one of this code. */
  insertFreezer(freezer: FreezerRecord): Promise<boolean>;
  insertDryingPlace(place: DryingPlaceRecord): Promise<boolean>;
  insertShelf(shelf: ShelfRecord): Promise<boolean>;
  insertVehicle(vehicle: VehicleRecord): Promise<boolean>;
  insertPerson(person: PersonRecord, shifts: readonly ShiftRecord[]): Promise<boolean>;

  find<K extends LayoutKind>(kind: K, incidentId: string, id: string): Promise<LayoutKinds[K] | null>;
  /** Saves the members given and raises the version; null when the version is another one. */
  save<K extends LayoutKind>(kind: K, incidentId: string, id: string, expectedVersion: number, changed: LayoutChanges[K]): Promise<LayoutKinds[K] | null>;
  openings(stationId: string): Promise<StationOpeningRecord[]>;
  /** Shifts of one person in the order of their beginnings. */
  shifts(personId: string): Promise<ShiftRecord[]>;
  recordMachineState(record: MachineStateRecord): Promise<void>;
  /** Kind of a zone that a station names; throws when there is none, which the foreign key forbids. */
  zoneKind(zoneId: string): Promise<Zone>;
  /** Id of the zone of this kind at a site; null when the site has none. */
  zoneOf(siteId: string, kind: Zone): Promise<string | null>;
}
