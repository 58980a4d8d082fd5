/** A private link to the status page of one household. Its secret is kept by nobody. */
export interface StatusLinkRecord {
  id: string;
  incidentId: string;
  householdId: string;
  /** Who of the family has it, sealed. */
  forWhom: Uint8Array | null;
  /** True when it came with a pick-up code. */
  hasCode: boolean;
  codeMisses: number;
  createdBy: string;
  createdAtMs: number;
  expiresAtMs: number;
  revokedAtMs: number | null;
}

/** A pick-up code as it is kept: salted and hashed slowly, because it is short. */
export interface KeptCode {
  salt: Uint8Array;
  hash: Uint8Array;
}

export interface StatusLinkStore {
  insert(link: StatusLinkRecord, secretSha256: Uint8Array, code: KeptCode | null): Promise<void>;
  /** By the hash of its secret, of a network that is not suspended; null when the network has no such link. Whether it still opens anything is `opens`. */
  findBySecret(secretSha256: Uint8Array): Promise<StatusLinkRecord | null>;
  lock(linkId: string): Promise<(StatusLinkRecord & { code: KeptCode | null }) | null>;
  ofHousehold(householdId: string): Promise<StatusLinkRecord[]>;
  revoke(linkId: string, atMs: number): Promise<void>;
  setCodeMisses(linkId: string, misses: number): Promise<void>;
  /** A link that never reached anybody gets another secret. */
  renew(linkId: string, secretSha256: Uint8Array): Promise<void>;
}
