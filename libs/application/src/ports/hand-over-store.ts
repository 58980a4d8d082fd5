import type { Keeper } from '#custody';

export const HAND_OVER_STATES = ['open', 'accepted', 'declined', 'withdrawn', 'expired'] as const;
export type HandOverState = (typeof HAND_OVER_STATES)[number];
/** Why a receiver did not take a line although the rest was taken. */
export const LINE_EXCEPTIONS = ['not-received', 'damaged', 'wrong-thing', 'no-room', 'other'] as const;
export type LineException = (typeof LINE_EXCEPTIONS)[number];
export type LineState = 'offered' | 'accepted' | 'excepted' | 'declined' | 'withdrawn' | 'expired';

export interface HandOverLine {
  lineNo: number;
  thing: 'item' | 'container';
  id: string;
  tagCode: string;
  /** Items in the container when it was offered, in containers inside it, too; null for an item. */
  itemsInside: number | null;
  state: LineState;
  exception: LineException | null;
  note: string;
}

/** A hand-over without its lines. */
export interface HandOverHead {
  id: string;
  incidentId: string;
  from: Keeper;
  to: Keeper;
  giverId: string;
  reason: string;
  state: HandOverState;
  offeredAtMs: number;
  expiresAtMs: number;
  endedAtMs: number | null;
  /** Null while it is open, and when its time ran out. */
  endedBy: string | null;
  endedNote: string;
  version: number;
  things: number;
}

export type HandOverRecord = HandOverHead & { lines: HandOverLine[] };

export interface HandOverStore {
  insert(handOver: HandOverRecord): Promise<void>;
  find(handOverId: string): Promise<HandOverRecord | null>;
  /** As `find`, and nobody else answers it until the transaction ends. */
  lock(handOverId: string): Promise<HandOverRecord | null>;
  /** Saves how it ended, with the state of each line. */
  end(handOver: HandOverRecord): Promise<void>;
  /** Open ones first, then by id; `after` is the last of the page before. */
  page(incidentId: string, state: HandOverState | null, limit: number, after: { open: boolean; id: string } | null): Promise<HandOverHead[]>;
}
