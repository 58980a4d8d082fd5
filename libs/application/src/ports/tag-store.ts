export interface TagRecord {
  code: string;
  kind: 'item' | 'container';
  incidentId: string;
  itemId: string | null;
  containerId: string | null;
}

export interface TagStore {
  /** Reserves the next `count` serials of a kind, locked, so that no two blocks overlap; answers the first. */
  reserveSerials(kind: 'item' | 'container', count: number): Promise<number>;
  insertBlock(block: { id: string; incidentId: string; kind: 'item' | 'container'; firstSerial: number; lastSerial: number; reservedFor: string; createdAtMs: number }, codes: readonly string[]): Promise<void>;
  find(code: string): Promise<TagRecord | null>;
  /** As `find`, and nobody else ties the tag until the transaction ends: who comes second sees it tied. */
  lock(code: string): Promise<TagRecord | null>;
  /** Which of these codes are reserved (tied or not), for the incident or, with null, for any of the network. */
  known(codes: readonly string[], incidentId: string | null): Promise<TagRecord[]>;
  /** Ties a reserved tag; answers false when it is tied already. */
  tie(code: string, to: { itemId?: string; containerId?: string }, nowMs: number): Promise<boolean>;
}
