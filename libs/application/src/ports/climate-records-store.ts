import type { ReadingDoubt } from '#climate';

/** Where air is measured; `outdoors` is the open air of a site. */
export const CLIMATE_PLACE_KINDS = ['drying-room', 'freezer', 'zone', 'outdoors'] as const;
export type ClimatePlaceKind = (typeof CLIMATE_PLACE_KINDS)[number];

export interface ClimatePlace {
  kind: ClimatePlaceKind;
  /** Id of the drying room, freezer or zone; for `outdoors` that of the site. */
  id: string;
}

/** A place of the incident by its code. Zones and the open air have none of their own: theirs are kind and code of the site. */
export interface NamedClimatePlace extends ClimatePlace {
  siteId: string;
  code: string;
}

export const SENSOR_STATES = ['in-service', 'withdrawn'] as const;

export interface SensorRecord {
  id: string;
  incidentId: string;
  /** Unique in the incident; what a logger or a partner calls it. */
  code: string;
  name: string;
  place: ClimatePlace;
  state: (typeof SENSOR_STATES)[number];
  /** Since when it is out of use: what it measured before still counts. */
  withdrawnAtMs: number | null;
  /** How often it is expected to report; null when nobody has said. Its place is called silent by it. */
  expectedEveryMinutes: number | null;
  version: number;
  createdAtMs: number;
}

/** Who sent a reading: written down by hand, the sensor's own logger, or the system of a partner. */
export const READING_SOURCES = ['hand', 'sensor', 'partner'] as const;
export type ReadingSource = (typeof READING_SOURCES)[number];

/** A reading before it has its place in the order of recording. */
export interface NewReading {
  id: string;
  incidentId: string;
  place: ClimatePlace;
  /** null: read by hand. */
  sensorId: string | null;
  measuredAtMs: number;
  airTempC: number;
  /** null where only the temperature is measured, as in most freezers. */
  relativeHumidityPct: number | null;
  recordedAtMs: number;
  source: ReadingSource;
}

export interface ClimateReadingRecord extends NewReading {
  /**
   * Number in the order of recording at this place: from 1, without gaps, in the order of commits. Whoever has read up to a
   * number has read everything below it. A later judgement may still change `state` and `doubt` of a lower one.
   */
  sequence: number;
  state: 'accepted' | 'doubtful';
  /** Why it is in doubt; null for what is accepted. */
  doubt: ReadingDoubt | null;
}

/** The moments around which the readings of one sensor are judged again, as spans with both ends included. */
export interface SensorSpan {
  sensorId: string;
  fromMs: number;
  toMs: number;
}

export interface ReadingFilter {
  place?: ClimatePlace;
  sensorId?: string;
  /** Both by the time of measuring: from this moment, to before that one. */
  fromMs?: number;
  toMs?: number;
  state?: ClimateReadingRecord['state'];
}

/** A position in a list by time of measuring. */
export interface AfterReading {
  measuredAtMs: number;
  id: string;
}

/** Air that a plan may be reckoned in. */
export interface CurrentAir {
  airTempC: number;
  relativeHumidityPct: number;
  measuredAtMs: number;
}

/** A drying room as readings concern it. */
export interface CurrentRoomAir extends CurrentAir {
  id: string;
  code: string;
  humidityCapPct: number;
}

/** Outdoor air of the incident before and after. */
export interface OutdoorAirChange {
  before: Omit<CurrentAir, 'measuredAtMs'> | null;
  now: CurrentAir;
}

/** Sensors and readings of air, of every kind of place. */
export interface ClimateRecordsStore {
  /** Answers false when the incident has one of this code. */
  insertSensor(sensor: SensorRecord): Promise<boolean>;
  sensor(incidentId: string, sensorId: string): Promise<SensorRecord | null>;
  /** Keyset page in the order of codes; `afterCode` is exclusive. */
  sensorPage(incidentId: string, filter: { place?: ClimatePlace; state?: SensorRecord['state'] }, limit: number, afterCode: string | null): Promise<SensorRecord[]>;
  /** The sensors of the incident that go by one of these codes or ids. */
  sensorsNamed(incidentId: string, names: readonly string[]): Promise<SensorRecord[]>;
  /** Saves the members given and raises the version; null when the version is another one. */
  saveSensor(incidentId: string, sensorId: string, expectedVersion: number, changed: Partial<Pick<SensorRecord, 'name' | 'state' | 'withdrawnAtMs' | 'expectedEveryMinutes'>>): Promise<SensorRecord | null>;

  /** All places of the incident where air can be measured. */
  places(incidentId: string): Promise<NamedClimatePlace[]>;
  /**
   * Keeps everybody else from recording at these places until the transaction ends. What is looked up afterwards (known
   * readings, neighbours, the next number) holds until then.
   */
  lockPlaces(places: readonly ClimatePlace[]): Promise<void>;
  /** Kept readings that one of these would repeat or contradict: of the same sensor, or by hand at the same place, at the same moment. */
  known(readings: readonly NewReading[]): Promise<ClimateReadingRecord[]>;
  /** Writes all in one statement, accepted, each with the next number of its place in the order given. */
  insertReadings(readings: readonly NewReading[]): Promise<ClimateReadingRecord[]>;
  /** Readings of sensors within the spans, by sensor and time of measuring. */
  around(spans: readonly SensorSpan[]): Promise<ClimateReadingRecord[]>;
  saveDoubts(changed: readonly Pick<ClimateReadingRecord, 'id' | 'doubt'>[]): Promise<void>;
  /** Of these rooms those in which a dehumidifier is running. */
  roomsWithRunningMachines(dryingRoomIds: readonly string[]): Promise<Set<string>>;

  /** Air of these drying rooms as the plan reckons with it now. */
  roomAir(incidentId: string, dryingRoomIds: readonly string[]): Promise<CurrentRoomAir[]>;
  /**
   * Makes the newest accepted reading with a humidity the air of each room; of two at the same moment the damper one, which is
   * the cautious side. Answers the rooms whose air changed.
   */
  refreshRoomAir(dryingRoomIds: readonly string[]): Promise<CurrentRoomAir[]>;
  /** Makes the newest observation outdoors, by weather or by a reading, the outdoor air of the incident; null when it stays as it is. */
  refreshOutdoorAir(incidentId: string, nowMs: number): Promise<OutdoorAirChange | null>;
  /** For each place the latest moment of measuring that is kept, doubtful ones included; minus infinity where there is none. */
  newestAt(places: readonly ClimatePlace[]): Promise<number[]>;

  /** Keyset page by time of measuring, newest first; `after` is the last row of the page before. */
  page(incidentId: string, filter: ReadingFilter, limit: number, after: AfterReading | null): Promise<ClimateReadingRecord[]>;
}
