export const OUTBOX_KINDS = ['plan.requested', 'plan.what_if', 'intake_import.submitted', 'rule_book.chosen', 'climate.readings', 'climate.tick', 'custody.root', 'hand_over.due', 'sight.look', 'family.look', 'family.message', 'file.check', 'file.sweep', 'personal.seal', 'retention.run', 'retention.look', 'family.news'] as const;
export type OutboxKind = (typeof OUTBOX_KINDS)[number];
/** Kinds that are written ahead of their time. */
export type AheadKind = 'climate.tick' | 'hand_over.due' | 'sight.look' | 'family.look' | 'family.message' | 'family.news' | 'file.sweep';

export interface OutboxMessage {
  id: string;
  incidentId: string;
  kind: OutboxKind;
  subjectId: string;
  traceparent: string;
}

export interface OutboxStore {
  /** Writes a row; nobody is told of it before the delay is over. */
  append(message: OutboxMessage, delayMs?: number): Promise<void>;
  /**
   * As `append`, unless a row of this kind for the subject waits, not ahead of its time, and its work has not begun. Its work begins only after this
   * transaction has ended, so it sees what was written here. Call it while others are kept from writing about the subject.
   */
  appendUnlessWaiting(message: OutboxMessage, delayMs?: number): Promise<void>;
  /**
   * Writes a row ahead of its time; a look at air only where none of the subject lies ahead already, a look at a family only where none comes sooner. Until then it is not out, and takes no share of what is.
   */
  appendAhead(message: OutboxMessage & { kind: AheadKind }, aheadMs: number): Promise<void>;
  /**
   * Writes the next look for roots of the network ahead of its time, unless another one than the row named is open. Call it while
   * others are kept from it (`custodyRoots.lockLine`).
   */
  appendRootLook(message: OutboxMessage, besideId: string, aheadMs: number): Promise<void>;
  /** Writes the next look at what has had its time of an incident, or sets the one that lies ahead to this time. */
  appendRetentionLook(message: OutboxMessage & { kind: 'retention.look' }, aheadMs: number): Promise<void>;
  /** Shortens the delay of the subject's row so that at most this much of it is left; changes nothing once its work has begun. */
  hasten(subjectId: string, delayMs: number): Promise<void>;
  find(id: string): Promise<(OutboxMessage & { doneAt: Date | null }) | null>;
  /** Marks the work done, in the transaction of its effect. Answers false when another run had done it before. */
  markDone(id: string): Promise<boolean>;
  /**
   * Makes a row that was given up due again, with all its tries. `comes-anyway`: of work that writes its own successor the next one lies ahead, so this one
   * is closed. Answers null when it is not dead (any more).
   */
  revive(id: string): Promise<'revived' | 'comes-anyway' | null>;
}
