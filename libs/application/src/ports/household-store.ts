export interface HouseholdRecord {
  networkId: string;
  incidentId: string;
  id: string;
  code: string;
  language: string;
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
  page(incidentId: string, limit: number, afterId: string | null): Promise<HouseholdRecord[]>;
  insert(household: HouseholdRecord, contact: HouseholdContact): Promise<void>;
}
