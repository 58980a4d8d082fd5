export const CALIBRATION_LIBRARIES = ['people', 'climate', 'alarms', 'planning', 'care', 'sight', 'retention', 'messages', 'found'] as const;
/** A library whose own calibration a network may set. */
export type CalibrationLibrary = (typeof CALIBRATION_LIBRARIES)[number];

/** One decision of a network about one number of our own calibration. */
export interface CalibrationRecord {
  id: string;
  /** From 1 without gaps over all numbers of the network. */
  number: number;
  library: CalibrationLibrary;
  key: string;
  /** In the unit of the library's table; null for the default again. */
  value: number | null;
  reason: string;
  decidedBy: string;
  decidedAtMs: number;
  principalId: string;
}

/** The same with the lead who answers for it; null for a caller who sees only another incident than the lead's. */
export type CalibrationDecision = CalibrationRecord & { lead: { id: string; name: string } | null };

/** What the network has decided, for use cases that reckon with it. */
export interface CalibrationInForce {
  /** The newest decision about each number, by library and key; read once in a transaction. */
  inForce(): Promise<CalibrationRecord[]>;
}

export interface CalibrationStore extends CalibrationInForce {
  inForce(): Promise<CalibrationDecision[]>;
  /** False, and nothing is written, when there is a decision of this number already. */
  append(record: CalibrationRecord): Promise<boolean>;
  /** Newest first; `beforeNumber` is exclusive. */
  page(limit: number, beforeNumber: number | null): Promise<CalibrationDecision[]>;
}
