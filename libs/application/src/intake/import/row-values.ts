/** What one row says, once it is read. */
import type { MaterialClass, Significance, WaterKind } from '#care';
import type { StandardItemKind } from '#climate';
import type { HouseholdContact } from '../../ports/household-store.js';
import type { RowRemarks } from './row-remarks.js';

/** The consents that a file can carry; null when the owner was not asked, or the cell says neither yes nor no. */
export interface RowConsents {
  treat: boolean | null;
  freeze: boolean | null;
  refer: boolean | null;
}

/** The contents of one row. */
export interface RowValues {
  /** As typed, repaired; it may still fail its check digits. */
  tag: string;
  householdCode: string;
  /** Blank members where the row says nothing. */
  contact: HouseholdContact;
  language: string | null;
  object: string;
  familyWords: string;
  photographRef: string;
  count: number;
  materialClass: MaterialClass;
  sizeClass: StandardItemKind;
  significance: Significance;
  wettedAtMs: number | null;
  arrivedAtMs: number;
  /** null: the incident's default. */
  water: WaterKind | null;
  consents: RowConsents;
}

/** A row after reading: values as far as they go, and everything there is to say. Refused already when there are refusals. */
export interface RowReading {
  rowNumber: number;
  cells: Record<string, string>;
  values: RowValues;
  remarks: RowRemarks;
}

/** What reading needs to know of the world. */
export interface ReadingFacts {
  floodAtMs: number;
  /** Nothing in the file can have happened later. */
  submittedAtMs: number;
  /** IANA zone of times without an offset. */
  timeZone: string;
}
