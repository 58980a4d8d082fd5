export const MESSAGE_TEMPLATES = ['taken-in', 'question', 'reminder', 'ready', 'handed-back', 'not-saved', 'let-go', 'uncollected'] as const;
export type MessageTemplate = (typeof MESSAGE_TEMPLATES)[number];
export const MESSAGE_STATES = ['waiting', 'sending', 'sent', 'unclear', 'given-up'] as const;
export type MessageState = (typeof MESSAGE_STATES)[number];
export type MessageChannel = 'email' | 'sms';
/** Why a message was not sent; codes of ours, because the words of a server may hold addresses. */
export const MESSAGE_FAILURES = ['no-contact', 'no-sender', 'quiet-hours', 'day-full', 'unreachable', 'refused-for-now', 'refused', 'cut-off', 'erased', 'too-old', 'no-longer-true', 'not-wished', 'not-reached'] as const;
export type MessageFailure = (typeof MESSAGE_FAILURES)[number];

export interface FamilyMessageRecord {
  id: string;
  incidentId: string;
  householdId: string;
  template: MessageTemplate;
  subjectId: string;
  state: MessageState;
  tries: number;
  queuedAtMs: number;
  nextAtMs: number;
  attemptAtMs: number | null;
  endedAtMs: number | null;
  channel: MessageChannel | null;
  language: 'en' | 'es' | null;
  recipient: Uint8Array | null;
  linkId: string | null;
  failure: MessageFailure | null;
  /** Told by itself; only to a family that wishes it, and never where a server said that it takes nothing. */
  automatic: boolean;
}

export interface FamilyMessageStore {
  /** False when there is one of this template about this subject already. */
  insert(message: FamilyMessageRecord): Promise<boolean>;
  find(messageId: string): Promise<FamilyMessageRecord | null>;
  lock(messageId: string): Promise<FamilyMessageRecord | null>;
  /** Newest first. */
  ofHousehold(householdId: string, limit: number): Promise<FamilyMessageRecord[]>;
  /** How many attempts at the household began at or after the moment. Until the transaction ends nobody else counts for this household. */
  attemptsSince(householdId: string, sinceMs: number): Promise<number>;
  save(message: FamilyMessageRecord): Promise<void>;
}
