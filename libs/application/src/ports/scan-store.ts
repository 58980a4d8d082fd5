import type { CustodyEventKind, Keeper } from '#custody';
import type { ProblemCode, ProblemError } from '#contracts';

/** What one scan says; exactly one of the tags of a thing, and a tag of the place or the place itself. */
export interface Scanned {
  scanId: string;
  itemTag: string | null;
  containerTag: string | null;
  placeTag: string | null;
  place: Keeper | null;
  seenAtMs: number;
  /** Who scanned it. */
  personId: string | null;
  /** Number of the last event of the thing that the device knew; null where it keeps no record. */
  baseSeq: number | null;
}

export type ScanVerdict = 'applied' | 'seen-again' | 'seen-late' | 'disputed' | 'refused';

/** A problem as it is kept with a scan. */
export interface ScanProblem {
  code: ProblemCode;
  detail: string;
  errors?: ProblemError[];
  members?: Record<string, unknown>;
}

/** What became of a scan. It is kept for ever: the same scan again gets the same answer. */
export interface ScanResult {
  scanId: string;
  verdict: ScanVerdict;
  itemId: string | null;
  containerId: string | null;
  place: Keeper | null;
  event: { kind: CustodyEventKind; seq: number } | null;
  problem: ScanProblem | null;
}

export type SightingVerdict = 'seen-again' | 'seen-late' | 'claims-elsewhere' | 'found' | 'left-the-network';

/** A scan that moved nothing, as evidence. */
export interface SightingRecord {
  id: string;
  incidentId: string;
  thing: { itemId: string } | { containerId: string };
  place: Keeper;
  seenAtMs: number;
  recordedAtMs: number;
  personId: string | null;
  actorId: string;
  verdict: SightingVerdict;
  /** The last event of the record when it was reported. */
  atSeq: number;
  note: string;
}

export interface ScanStore {
  /** Takes the ids of new scans, in the order of ids; waits for who has just taken one of them. Answers which were new. */
  claim(incidentId: string, scans: readonly (Scanned & { fingerprint: string })[], deed: { actorId: string; nowMs: number }): Promise<ReadonlySet<string>>;
  /** What was said to scans that came before. */
  earlier(incidentId: string, scanIds: readonly string[]): Promise<(ScanResult & { fingerprint: string })[]>;
  settle(incidentId: string, results: readonly ScanResult[]): Promise<void>;
  /** Keeps a sighting, and moves on when the thing was last seen: never back, and never ahead of our clock. */
  sight(sighting: SightingRecord): Promise<void>;
  /** In the order of ids, which is that of the reports. */
  sightingsOf(thing: SightingRecord['thing'], limit: number, afterId: string | null): Promise<SightingRecord[]>;
}
