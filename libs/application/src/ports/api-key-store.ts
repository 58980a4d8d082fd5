import type { Scope } from '#contracts';

/** A key without its secret; `secretSha256` goes in and never comes out. Times are real epoch milliseconds. */
export interface ApiKeyRecord {
  id: string;
  /** Public characters by which it is found. */
  prefix: string;
  label: string;
  scopes: Scope[];
  limitedToIncidentId: string | null;
  expiresAtMs: number;
  revokedAtMs: number | null;
  replacesId: string | null;
  createdAtMs: number;
}

/** Sees the keys of one network; for a caller limited to one incident, only keys with the same limit. */
export interface ApiKeyStore {
  insert(key: ApiKeyRecord, secretSha256: Uint8Array): Promise<void>;
  /** Newest first; `beforeId` is exclusive. */
  page(limit: number, beforeId: string | null): Promise<ApiKeyRecord[]>;
  /** Locks the key until the transaction ends. */
  lock(keyId: string): Promise<ApiKeyRecord | null>;
  /** Locks all unrevoked keys that can manage keys, so that two revocations cannot both leave the other as the last one. */
  lockManagers(): Promise<ApiKeyRecord[]>;
  saveEnd(keyId: string, changed: { expiresAtMs?: number; revokedAtMs?: number }): Promise<void>;
  /** True when the incident exists for the caller. */
  incidentExists(incidentId: string): Promise<boolean>;
}
