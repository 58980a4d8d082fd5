/** A text of a household and where it belongs. */
export interface PersonalText {
  /** Null for what belongs to no single household: it is sealed under the network's own key, and whoever erases must blank it. */
  householdId: string | null;
  /** Column, and the row where a household has several: `personalField('consent.note', consentId)`. What is sealed for one field opens in no other. */
  field: string;
  text: string;
}

export interface SealedText {
  householdId: string | null;
  field: string;
  /** As it came from the `bytea` column; null where nothing is. */
  sealed: Uint8Array | null;
}

/** Name of a field for `PersonalStore`: the column, and the id of the row where a household has more than one. */
export const personalField = (column: string, rowId?: string): string => (rowId === undefined ? column : `${column}:${rowId}`);

/**
 * Words, names, addresses and numbers of people, sealed for their household: AES-256-GCM under a key of the household, which is wrapped by a key of
 * the network, which is wrapped by the master key of the installation. Keys are made when they are first needed, in the transaction of the call.
 * Whoever erases the household destroys its key; from then on `open` gives null, and `seal` refuses.
 *
 * A new column for personal text is `bytea`, holds what `seal` gave, and is read through `open`:
 * ```ts
 * await stores.personal.seal(householdId, personalField('consent.note', consentId), note)   // -> bytes for the column
 * await stores.personal.open(householdId, personalField('consent.note', consentId), row.note_sealed)   // -> text, or null
 * ```
 */
export interface PersonalStore {
  /** @throws Problem `household_erased` (409) when the household's key was destroyed; `not_found` when there is no such household. */
  seal(householdId: string | null, field: string, text: string): Promise<Uint8Array>;
  /** In the order given; one look for all keys. Throws as `seal`. */
  sealAll(texts: readonly PersonalText[]): Promise<Uint8Array[]>;
  /** Null where nothing was sealed, or where the household was erased. @throws when the bytes were altered or belong elsewhere. */
  open(householdId: string | null, field: string, sealed: Uint8Array | null): Promise<string | null>;
  /** In the order given; one look for all keys. */
  openAll(texts: readonly SealedText[]): Promise<(string | null)[]>;
  /**
   * Blind words: 32 bytes each, by which a whole word is found without being readable (HMAC-SHA-256 under a key of the network).
   * The caller normalises the words (see `blindWordsOf`); `purpose` keeps the words of different columns apart.
   */
  blindToKeep(purpose: string, words: readonly string[]): Promise<Uint8Array[]>;
  /** The same, for looking: writes nothing. In a network that keeps no blind word yet the bytes find nothing. */
  blindToFind(purpose: string, words: readonly string[]): Promise<Uint8Array[]>;
  /** Households for which something was sealed or opened in this transaction so far, but for those that are erased. */
  touched(): string[];
  /** Destroys the household's key, once and for good; a household that never had one gets a destroyed one. */
  destroyKey(householdId: string, atMs: number): Promise<void>;
}
