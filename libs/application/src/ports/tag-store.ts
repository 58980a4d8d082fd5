import type { Keeper, KeeperKind, TagKind } from '#custody';

/** Kinds of keeper that are places with tags of their own; a container has a tag of its own kind. */
export const TAGGED_PLACE_KINDS = ['station', 'holding', 'drying-place', 'freezer', 'shelf', 'vehicle'] as const satisfies readonly KeeperKind[];
export type TaggedPlaceKind = (typeof TAGGED_PLACE_KINDS)[number];
export type TaggedPlace = Keeper & { kind: TaggedPlaceKind };

/** What took the place of a tag that was lost or could not be read any more. */
export interface TagReplacement {
  /** The code of the tag that is in use now, or was until it was replaced in its turn. */
  by: string;
  reason: string;
  atMs: number;
  actorId: string;
}

export interface TagRecord {
  code: string;
  kind: TagKind;
  incidentId: string;
  itemId: string | null;
  containerId: string | null;
  place: TaggedPlace | null;
  personId: string | null;
  /** When and by whom it was tied; `tiedBy` is null for ties from before that was kept. */
  tiedAtMs: number | null;
  tiedBy: string | null;
  /** Null for a tag in use and for one that nobody tied. A replaced tag stays tied, leads to its thing, and is never used again. */
  replaced: TagReplacement | null;
}

/** One of the four, and of the kind of the tag. */
export interface TagTarget {
  itemId?: string;
  containerId?: string;
  place?: TaggedPlace;
  personId?: string;
}

/** Who does it, and when. */
export interface TagDeed {
  actorId: string;
  nowMs: number;
}

export interface TagBlockRecord {
  id: string;
  incidentId: string;
  kind: TagKind;
  firstSerial: number;
  lastSerial: number;
  reservedFor: string;
  createdAtMs: number;
}

/** A block with how many of its tags are tied to something, or were. */
export interface TagBlockUse extends TagBlockRecord {
  used: number;
}

/** A tag of a block as it is printed: the name of the place that it is tied to, if any. */
export interface PrintableTag {
  code: string;
  placeName: string | null;
}

export interface TagStore {
  /** Reserves the next `count` serials of a kind, locked, so that no two blocks overlap; answers the first. */
  reserveSerials(kind: TagKind, count: number): Promise<number>;
  insertBlock(block: TagBlockRecord, codes: readonly string[]): Promise<void>;
  block(blockId: string): Promise<TagBlockRecord | null>;
  /** Newest first; `before` is exclusive. */
  blocks(incidentId: string, limit: number, before: string | null): Promise<TagBlockUse[]>;
  /** The tags of a block that can be printed, in the order of their serials: `from` counts from 0. Replaced ones are left out. */
  printable(block: TagBlockRecord, from: number, count: number): Promise<PrintableTag[]>;
  find(code: string): Promise<TagRecord | null>;
  /** As `find`, and nobody else ties the tag until the transaction ends: who comes second sees it tied. */
  lock(code: string): Promise<TagRecord | null>;
  /** The tag in whose place this one was put. */
  predecessor(code: string): Promise<string | null>;
  /** The tag in use of a place or person; null when it has none. */
  liveOf(target: { place: TaggedPlace } | { personId: string }): Promise<TagRecord | null>;
  /** Which of these codes are reserved (tied or not), for the incident or, with null, for any of the network. */
  known(codes: readonly string[], incidentId: string | null): Promise<TagRecord[]>;
  /** Ties a reserved tag; answers false when it is or was tied already. */
  tie(code: string, to: TagTarget, deed: TagDeed): Promise<boolean>;
  /**
   * Puts a free tag in the place of a tied one: the old stays on record as replaced, the new is tied to the same thing, and an item or
   * container goes by its code from now on. Both must be locked. Answers false when the old one is replaced already or the new one tied.
   */
  replace(code: string, byCode: string, reason: string, deed: TagDeed): Promise<boolean>;
  /**
   * Ties each of two tags to the item of the other, and each item goes by the code of the other. All must be locked. Answers false when
   * one of them is not the tag in use of an item.
   */
  swap(code: string, otherCode: string, deed: TagDeed): Promise<boolean>;
}
