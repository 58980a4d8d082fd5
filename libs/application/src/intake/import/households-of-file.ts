/** What a whole file says about each household: the contact may stand in one row of many. */
import type { HouseholdContact } from '../../ports/household-store.js';
import type { RowConsents, RowReading } from './row-values.js';

/** One household as the file has it. */
export interface FileHousehold {
  contact: HouseholdContact;
  language: string;
  /**
   * Answers that every row of the household gives alike; null where rows differ or one is silent. Only such an answer is
   * taken for the household; all others count for the thing in whose row they stand, because a consent is never stretched.
   */
  consents: RowConsents;
}

const CONTACT = ['name', 'phone', 'email', 'address'] as const;
const SCOPES = ['treat', 'freeze', 'refer'] as const;

/** Codes that differ in case alone are one household. */
export function householdKey(code: string): string {
  return code.toLowerCase();
}

/** The households of a file by `householdKey`; of each word of a contact the first one in the file counts. */
export function householdsOf(readings: readonly RowReading[]): Map<string, FileHousehold> {
  const households = new Map<string, FileHousehold>();
  for (const { values } of readings) {
    if (values.householdCode === '') continue;
    const key = householdKey(values.householdCode);
    const known = households.get(key);
    if (known === undefined) {
      households.set(key, { contact: { ...values.contact }, language: values.language ?? 'en', consents: { ...values.consents } });
      continue;
    }
    for (const word of CONTACT) known.contact[word] ||= values.contact[word];
    for (const scope of SCOPES) if (known.consents[scope] !== values.consents[scope]) known.consents[scope] = null;
  }
  return households;
}

/** True when a row gives a contact that is not the one on record. Blank members say nothing. */
export function differsFrom(contact: HouseholdContact, onRecord: HouseholdContact): boolean {
  return CONTACT.some((word) => contact[word] !== '' && contact[word] !== onRecord[word]);
}
