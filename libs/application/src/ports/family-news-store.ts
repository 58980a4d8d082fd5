import type { MessageChannel } from './family-message-store.js';

export const NEWS_KINDS = ['taken-in', 'ready', 'handed-back', 'let-go', 'uncollected'] as const;
/** What families are told by themselves; the template of its message has the same name. */
export type NewsKind = (typeof NEWS_KINDS)[number];

export interface MessageWishRecord {
  id: string;
  incidentId: string;
  householdId: string;
  wish: 'messages' | 'no-messages';
  manner: 'spoken' | 'written';
  recordedBy: string;
  recordedAtMs: number;
}

export interface NewsRecord {
  id: string;
  incidentId: string;
  householdId: string;
  kind: NewsKind;
  subjectId: string;
  /** Number of the reminder, for `uncollected`; 0 elsewhere. */
  part: number;
  notedAtMs: number;
}

export interface UnreachedRecord {
  id: string;
  incidentId: string;
  householdId: string;
  channel: MessageChannel;
  /** Sealed; null where it was erased. */
  address: Uint8Array | null;
  messageId: string;
  refusedAtMs: number;
  reachedAtMs: number | null;
}

export interface FamilyNewsStore {
  insertWish(wish: MessageWishRecord): Promise<void>;
  /** Newest first. */
  wishes(householdId: string): Promise<MessageWishRecord[]>;
  /** Null while the family has said nothing of it. */
  wishInForce(householdId: string): Promise<MessageWishRecord['wish'] | null>;
  /** False when this was noted before. */
  note(news: NewsRecord): Promise<boolean>;
  /** What is not settled, oldest first, locked. */
  open(householdId: string): Promise<NewsRecord[]>;
  settle(ids: readonly string[], atMs: number, messageId: string | null): Promise<void>;
  markUnreached(record: UnreachedRecord): Promise<void>;
  /** Addresses that are not reached now. */
  unreached(householdId: string): Promise<UnreachedRecord[]>;
  markReached(id: string, atMs: number): Promise<void>;
}
