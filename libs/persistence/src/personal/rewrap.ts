import type { MasterKeys } from '#platform';
import type { Pool } from '../pool.js';
import { openBytes, sealBytes } from './envelope.js';

/** Wraps the key of a network by the newest master key, unless it is; answers whether it did. What the key has sealed stays as it is. */
export async function rewrapNetworkKeys(pool: Pool, networkId: string, masters: MasterKeys): Promise<boolean> {
  const client = await pool.connect();
  try {
    await client.query('begin');
    await client.query(`select set_config('app.network_id', $1, true)`, [networkId]);
    const { rows } = await client.query<{ master_version: number; wrapped: Buffer }>('select master_version, wrapped from network_key where network_id = $1 for update', [networkId]);
    const [row] = rows;
    const newest = masters.keyOf(masters.newest);
    const changes = row !== undefined && row.master_version !== masters.newest && newest !== null;
    if (changes) {
      const before = masters.keyOf(row.master_version);
      if (before === null) throw new Error(`The key of network ${networkId} is wrapped by master key ${row.master_version}, which was not given.`);
      const wrapped = sealBytes(newest, ['network', networkId], openBytes(before, ['network', networkId], row.wrapped));
      await client.query('update network_key set master_version = $2, wrapped = $3 where network_id = $1', [networkId, masters.newest, wrapped]);
    }
    await client.query('commit');
    return changes;
  } catch (error) {
    await client.query('rollback').catch(() => undefined);
    throw error;
  } finally {
    client.release();
  }
}
