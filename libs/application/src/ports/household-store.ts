import type { ContactWord, ContactWordKind } from '../households/contact-words.js';

export interface HouseholdRecord {
  networkId: string;
  incidentId: string;
  id: string;
  code: string;
  language: string;
  /** No family: the record of an incident that holds found things until their owner is known. It has no contact. */
  unknownOwner: boolean;
  version: number;
  createdAtMs: number;
  updatedAtMs: number;
}

/** Personal data: shown only to keys with a household scope, never put into events, jobs or logs. */
export interface HouseholdContact {
  name: string;
  phone: string;
  email: string;
  address: string;
}

export interface HouseholdStore {
  find(householdId: string): Promise<HouseholdRecord | null>;
  findByCode(incidentId: string, code: string): Promise<HouseholdRecord | null>;
  contact(householdId: string): Promise<HouseholdContact | null>;
  /** Without the record of unknown owners. */
  page(incidentId: string, limit: number, afterId: string | null): Promise<HouseholdRecord[]>;
  insert(household: HouseholdRecord, contact: HouseholdContact): Promise<void>;
  /** The incident's record of unknown owners; `fresh` where there is none yet. Of two that make one together both get the same. */
  unknownOwnerOf(fresh: HouseholdRecord): Promise<HouseholdRecord>;
  /** Households of the incident whose contact has any of these, those with most of them first. */
  findByWords(incidentId: string, words: readonly ContactWord[], limit: number): Promise<{ household: HouseholdRecord; matched: ContactWordKind[] }[]>;
}
