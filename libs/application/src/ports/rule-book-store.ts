/** One decision of a network about the rule book: a release with the sides of its marked choices. Complete: what it leaves out stands at its default. */
export interface RuleBookChoiceRecord {
  id: string;
  /** From 1 without gaps; the highest is in force. */
  number: number;
  /** The release that the network follows from then on. */
  release: string;
  /** Option by choice, only what differs from the default. */
  choices: Readonly<Record<string, string>>;
  /** Version of the rule book with these choices, by the program that recorded it. */
  version: string;
  reason: string;
  decidedBy: string;
  decidedAtMs: number;
  principalId: string;
}

/** The same with the lead who answers for it; null for a caller who sees only another incident than the lead's. */
export type RuleBookDecision = RuleBookChoiceRecord & { lead: { id: string; name: string } | null };

export interface RuleBookStore {
  /** The decision in force, read once in a transaction; null while a network follows the release it began with at its defaults. */
  inForce(): Promise<RuleBookDecision | null>;
  /** The release that the network began with, which it follows until it decides otherwise. */
  startedWith(): Promise<string>;
  /** False, and nothing is written, when there is a decision of this number already. */
  append(record: RuleBookChoiceRecord): Promise<boolean>;
  /** Newest first; `beforeNumber` is exclusive. */
  page(limit: number, beforeNumber: number | null): Promise<RuleBookDecision[]>;
  /** Incidents that are open, in the order of their ids. */
  openIncidents(): Promise<string[]>;
  /** Things still here whose latest triage is not of this version, in the order of their ids; `afterId` is exclusive. */
  itemsBehind(incidentId: string, version: string, limit: number, afterId: string | null): Promise<string[]>;
  /** Waits for everybody who is taking something into the incident; who begins later sees the decisions of before. */
  awaitIntakes(incidentId: string): Promise<void>;
}
