import pg from 'pg';
import { NEWEST_RELEASE } from '#care';
import { SCOPES, type Scope } from '#contracts';
import { makeApiKey, newId } from '#platform';

/** A network and its first key; the secret is in `key` and nowhere else. */
export interface NewNetwork {
  networkId: string;
  key: string;
}

const YEAR_MS = 365 * 24 * 3_600_000;

/** Makes a network that follows the newest release of the rule book, with one key that may do everything. Needs the owner's login, because no key can make a network. */
export async function createNetwork(ownerUrl: string, name: string, timeZone = 'UTC', scopes: readonly Scope[] = SCOPES): Promise<NewNetwork> {
  const client = new pg.Client({ connectionString: ownerUrl });
  await client.connect();
  try {
    const networkId = newId();
    const key = makeApiKey();
    await client.query('begin');
    await client.query(`select set_config('app.network_id', $1, true)`, [networkId]);
    await client.query('insert into network (network_id, name, time_zone, rule_book_release, created_at) values ($1, $2, $3, $4, now())', [networkId, name, timeZone, NEWEST_RELEASE]);
    await client.query(
      `insert into api_key (network_id, id, prefix, secret_sha256, label, scopes, expires_at, created_at) values ($1, $2, $3, $4, 'first key', $5, $6, now())`,
      [networkId, newId(), key.prefix, key.secretSha256, scopes, new Date(Date.now() + YEAR_MS)],
    );
    await client.query('commit');
    return { networkId, key: key.text };
  } finally {
    await client.end();
  }
}
