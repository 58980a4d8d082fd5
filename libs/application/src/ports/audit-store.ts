/** One command that was carried out, or one look at what is personal. Ids only: neither what was sent nor what was answered. */
export interface AuditEntry {
  id: string;
  /** The API key that sent it. */
  principalId: string;
  operation: string;
  subjectKind: string;
  subjectId: string | null;
  /** `read`: personal data of the subject were looked at. */
  outcome: 'done' | 'read';
  requestId: string;
  /** Real time, also under the clock of a demo. */
  atMs: number;
}

/** Sees the entries of one network; for a caller limited to one incident, only those of keys with the same limit. Entries are written by the unit of work. */
export interface AuditStore {
  /** Newest first; `beforeId` is exclusive. */
  page(limit: number, beforeId: string | null): Promise<AuditEntry[]>;
  /** Puts down that somebody looked at what is personal. */
  noteLook(look: NotedAct): Promise<void>;
  /** Puts down a command that does not come as one: by another protocol, say, in whose words nothing is repeated by a key. */
  noteDone(done: NotedAct): Promise<void>;
}

export interface NotedAct {
  principalId: string;
  operation: string;
  subjectKind: string;
  subjectId: string | null;
  requestId: string;
}
