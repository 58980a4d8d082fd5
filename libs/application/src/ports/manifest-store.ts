import type { Keeper } from '#custody';

export type ManifestState = 'loading' | 'departed' | 'arrived';

export interface ManifestLine {
  thing: 'item' | 'container';
  id: string;
  tagCode: string;
  expected: boolean;
  loadedAtMs: number | null;
  loadedBy: string | null;
  unloadedAtMs: number | null;
  unloadedBy: string | null;
  /** Who keeps it now; null for a container without a record. */
  keeper: Keeper | null;
}

export interface ManifestRecord {
  id: string;
  incidentId: string;
  carrier: Keeper;
  fromSiteId: string;
  toSiteId: string;
  personId: string;
  state: ManifestState;
  createdAtMs: number;
  departedAtMs: number | null;
  departedBy: string | null;
  arrivedAtMs: number | null;
  arrivedBy: string | null;
  version: number;
  /** In the order of ids. */
  lines: ManifestLine[];
}

export const EXCEPTION_KINDS = ['not-loaded', 'not-expected', 'missing', 'extra'] as const;
export type ManifestExceptionKind = (typeof EXCEPTION_KINDS)[number];

export interface ManifestExceptionRecord {
  id: string;
  incidentId: string;
  manifestId: string;
  thing: 'item' | 'container';
  thingId: string;
  tagCode: string;
  kind: ManifestExceptionKind;
  reason: string;
  /** Who works it off. */
  ownerId: string;
  openedAtMs: number;
  settledAtMs: number | null;
  settledBy: string | null;
  settlement: string;
}

export interface ManifestStore {
  insert(manifest: ManifestRecord): Promise<void>;
  find(manifestId: string): Promise<ManifestRecord | null>;
  /** As `find`, and nobody else loads, departs or unloads it until the transaction ends. */
  lock(manifestId: string): Promise<ManifestRecord | null>;
  /** The manifest that is being loaded onto this carrier, if any. */
  loadingOf(carrier: Keeper): Promise<string | null>;
  /** What the record has directly on or in this carrier: open things, not what is inside containers of it. In the order of ids. */
  thingsOn(carrier: Keeper): Promise<Pick<ManifestLine, 'thing' | 'id' | 'tagCode'>[]>;
  /** Saves state, times and every line. Answers the new version. */
  save(manifest: ManifestRecord): Promise<number>;
  insertExceptions(exceptions: readonly ManifestExceptionRecord[]): Promise<void>;
  exceptionsOf(manifestId: string): Promise<ManifestExceptionRecord[]>;
  lockException(exceptionId: string): Promise<ManifestExceptionRecord | null>;
  settle(exception: ManifestExceptionRecord): Promise<void>;
  /** Unsettled ones first, the oldest first; `after` is the last of the page before. */
  exceptionsPage(incidentId: string, onlyOpen: boolean, limit: number, after: { open: boolean; id: string } | null): Promise<ManifestExceptionRecord[]>;
}
