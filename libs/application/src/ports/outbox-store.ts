export const OUTBOX_KINDS = ['plan.requested', 'intake_import.submitted'] as const;
export type OutboxKind = (typeof OUTBOX_KINDS)[number];

export interface OutboxMessage {
  id: string;
  incidentId: string;
  kind: OutboxKind;
  subjectId: string;
  traceparent: string;
}

export interface OutboxStore {
  append(message: OutboxMessage): Promise<void>;
  find(id: string): Promise<(OutboxMessage & { doneAt: Date | null }) | null>;
  /** Marks the work done, in the transaction of its effect. Answers false when another run had done it before. */
  markDone(id: string): Promise<boolean>;
}
