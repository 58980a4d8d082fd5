import { timingSafeEqual } from 'node:crypto';
import { Inject, Injectable } from '@nestjs/common';
import { Problem, type Scope } from '#contracts';
import type { Pool } from '#persistence';
import { parseApiKey } from '#platform';
import type { ApiRequest, Caller } from './call.js';
import { POOL } from './tokens.js';

interface KeyRow {
  network_id: string;
  key_id: string;
  secret_sha256: Buffer;
  scopes: Scope[];
  limited_to_incident_id: string | null;
  expires_at: Date;
  revoked_at: Date | null;
  suspended_at: Date | null;
}

/** A revoked key works for at most this long in a process that has just used it. */
const CACHE_MS = 3_000;
const CACHE_SIZE = 2_000;

/** Turns the bearer token into a caller. Unknown, expired and revoked keys get one and the same answer. */
@Injectable()
export class KeyRing {
  private readonly cache = new Map<string, { rows: KeyRow[]; untilMs: number }>();

  constructor(@Inject(POOL) private readonly pool: Pool) {}

  async callerOf(request: ApiRequest): Promise<Caller> {
    const header = request.headers.authorization;
    if (header === undefined) throw new Problem('key_missing', 'Send your API key as "Authorization: Bearer wk_...". Keys never go into the address.');
    const token = /^Bearer (\S+)$/i.exec(header)?.[1];
    const key = token === undefined ? null : parseApiKey(token);
    const row = key ? (await this.rows(key.prefix)).find((candidate) => timingSafeEqual(candidate.secret_sha256, Buffer.from(key.secretSha256Hex, 'hex'))) : undefined;
    // Key expiry is a matter of security: it goes by real time, never by the clock of the demo.
    if (!row || row.revoked_at !== null || row.expires_at.getTime() <= Date.now()) throw new Problem('key_invalid', 'The key is unknown, expired or revoked. Ask a manager of your network for a new one.');
    if (row.suspended_at !== null) throw new Problem('network_suspended', 'The network is suspended. Its data is kept; ask the operator of the service.');
    return {
      context: { networkId: row.network_id, incidentLimit: row.limited_to_incident_id, principalId: row.key_id, requestId: request.id, traceparent: request.traceparent },
      scopes: new Set(row.scopes),
    };
  }

  private async rows(prefix: string): Promise<KeyRow[]> {
    const cached = this.cache.get(prefix);
    const nowMs = Date.now();
    if (cached && cached.untilMs > nowMs) return cached.rows;
    const { rows } = await this.pool.query<KeyRow>({ name: 'authenticate_key', text: 'select * from authenticate_key($1)', values: [prefix] });
    if (this.cache.size >= CACHE_SIZE) this.cache.clear();
    this.cache.set(prefix, { rows, untilMs: nowMs + CACHE_MS });
    return rows;
  }
}
