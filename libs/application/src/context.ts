import type { ClaimLimits } from './claims/limits.js';
import type { FileLimits } from './files/limits.js';

/** Who calls, for which network, within which request. Made by the API from the key, by the worker from the job. */
export interface CallContext {
  networkId: string;
  /** A key may be limited to one incident; null for all of the network. */
  incidentLimit: string | null;
  principalId: string;
  requestId: string;
  traceparent: string;
}

/** What a command was about: the collection of the address under which the thing stands, such as `items`, and its id. */
export interface Subject {
  kind: string;
  id: string | null;
}

/** Identifies a command so that sending it twice does it once. */
export interface CommandIdentity {
  operation: string;
  key: string;
  /** SHA-256 of the canonical input. */
  fingerprint: string;
  /** For the audit; asked when the command is done, because a thing that it makes has no id before. */
  subjectOf(answer: Answer): Subject;
}

/** What the caller is told; stored with the command and replayed word for word. */
export interface Answer {
  status: number;
  body: unknown;
  headers: Record<string, string>;
}

export type Replayable = Answer & { replayed: boolean };

/** Things a use case needs besides stores: the time and new ids, as arguments so that tests can choose them. */
export interface Environment {
  nowMs: number;
  newId(): string;
  /** Real time that a reckoning of air waits for company, and until the next look; `CLIMATE_GATHER_MS` and `CLIMATE_TICK_MS` when left out. */
  climateGatherMs?: number;
  climateTickMs?: number;
  /** Sizes and times of files; `UPLOAD_LIMITS` where left out. */
  files?: Partial<FileLimits>;
  /** How often a household may claim found things; `CLAIM_LIMITS` where left out. */
  claims?: Partial<ClaimLimits>;
}
