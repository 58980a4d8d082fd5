import pg from 'pg';
import { createPool, relayFaults, type Pool } from '#persistence';
import { type Config, ConfigError } from '#platform';

/**
 * Networks with anything in the outbox, which are all that have ever taken something in, and those that the owner sees. The
 * outbox can be emptied by whoever wants to hide a network: name yours with `--network`, or hand in a root of it.
 */
export async function networksOf(config: Config, ownerUrl: string | null): Promise<string[]> {
  const found = new Set<string>();
  if (config.relayDatabaseUrl !== null) {
    const relay = createPool({ connectionString: config.relayDatabaseUrl, max: 1, applicationName: 'wrackline-verify-relay', onError: () => undefined });
    try {
      const wrong = await relayFaults(relay);
      if (wrong.length > 0) throw new ConfigError(wrong.join(' '));
      for (const id of await distinctNetworks(relay)) found.add(id);
    } finally {
      await relay.end();
    }
  }
  if (ownerUrl !== null) for (const id of await networksOfOwner(ownerUrl)) found.add(id);
  if (config.relayDatabaseUrl === null && ownerUrl === null) throw new ConfigError('Set DATABASE_RELAY_URL to the login wl_relay, or name the networks with --network.');
  return [...found];
}

async function distinctNetworks(relay: Pool): Promise<string[]> {
  const { rows } = await relay.query<{ network_id: string }>('select distinct network_id from outbox');
  return rows.map((row) => row.network_id);
}

/** An owner that row-level security binds sees none here; the superuser of the embedded database sees all. */
async function networksOfOwner(ownerUrl: string): Promise<string[]> {
  const client = new pg.Client({ connectionString: ownerUrl });
  await client.connect();
  try {
    return (await client.query<{ network_id: string }>('select network_id from network')).rows.map((row) => row.network_id);
  } finally {
    await client.end();
  }
}
