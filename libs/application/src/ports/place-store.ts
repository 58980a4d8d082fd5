import type { Keeper } from '#custody';
import type { StepKind, Worker, Zone } from '#care';

/** A place that can keep an item, as the custody commands need it. */
export interface PlaceRecord {
  keeper: Keeper;
  siteId: string | null;
  zone: Zone | null;
  code: string;
  name: string;
  /** Steps of a station; empty otherwise. */
  steps: StepKind[];
  /** dm2 for a drying place, litres for a freezer, items at once for a station; null where no limit is kept. */
  capacity: number | null;
  /** How a drying place lets things hang or lie; null for others. */
  arrangement: 'rack' | 'line' | 'screen' | 'table' | null;
}

export interface IncidentFacts {
  id: string;
  floodAtMs: number;
  defaultWater: string;
  outdoorAirTempC: number | null;
  outdoorRelativeHumidityPct: number | null;
  state: 'open' | 'closed';
}

/** Somebody of the incident as the care rules need to know them, with all their shifts. */
export interface CrewMember extends Worker {
  id: string;
}

/** The same with the name that stands on lists. */
export interface SiteMember extends CrewMember {
  name: string;
}

export interface PlaceStore {
  incident(incidentId: string): Promise<IncidentFacts | null>;
  /** As `incident`, and nobody closes it until the transaction ends. */
  holdIncident(incidentId: string): Promise<IncidentFacts | null>;
  /** Finds a keeper of the incident, a courier among its people; null when there is none, and for partner networks and disposal. */
  find(incidentId: string, keeper: Keeper): Promise<PlaceRecord | null>;
  /** Locks the place so that room is counted and taken in one transaction. */
  lock(incidentId: string, keeper: Keeper): Promise<PlaceRecord | null>;
  /** Area (dm2) or volume (litres) taken by the items that the place keeps now, in containers or not, by their size class and count. */
  takenBy(keeper: Keeper): Promise<{ areaDm2: number; volumeL: number; items: number }>;
  /** Other places of the same kind at the same site, vehicles of the incident, in the order of their codes; not those of stations, containers or people. */
  othersLike(incidentId: string, place: PlaceRecord, limit: number): Promise<PlaceRecord[]>;
  /** The waiting area of a zone at a site (the first by code). */
  holdingArea(siteId: string, zone: Zone): Promise<PlaceRecord | null>;
  siteByCode(incidentId: string, code: string): Promise<{ id: string } | null>;
  site(siteId: string): Promise<{ id: string; incidentId: string } | null>;
  person(personId: string): Promise<{ id: string; incidentId: string; siteId: string; skills: string[] } | null>;
  /** People of the incident by id, in the order of the ids; absent ids are absent from the answer. */
  crew(incidentId: string, personIds: readonly string[]): Promise<CrewMember[]>;
  /** Everybody of a site, in the order of their codes. */
  siteMembers(siteId: string): Promise<SiteMember[]>;
}
