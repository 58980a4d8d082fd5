/** Events that were recorded before there were roots wait for one, too, and their network has its look. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from '@jest/globals';
import { newId, projectRoot } from '#platform';
import { createTestDatabase } from '#testing';

const FOLDER = '20261129120000_custody_roots';

test('what was recorded before waits for a root, under the policies of the owner', async () => {
  const sql = await readFile(join(projectRoot(), 'prisma', 'migrations', FOLDER, 'migration.sql'), 'utf8');
  // The statements that move what is there, as they stand in the migration.
  const moved = sql.slice(sql.indexOf('-- What was recorded before waits, too.'), sql.indexOf('-- The policies of the first migration'));
  expect(moved).toContain('insert into custody_root_waiting');
  const database = await createTestDatabase();
  try {
    const { admin } = database;
    const [network, incident, item] = [newId(), newId(), newId()];
    const client = await admin.connect();
    try {
      await client.query("begin; set local session_replication_role = 'replica'");
      await client.query("insert into network (network_id, name, created_at) values ($1, 'n', now())", [network]);
      await client.query(
        `insert into custody_event (network_id, incident_id, item_id, seq, command_id, kind, to_kind, to_id, stage, actor_id, occurred_at, recorded_at, refs, prev_hash, hash, form)
         select $1, $2, $3, n, $2, 'taken-in', 'holding', $2, 'waiting', $2, now(), now(), '{}', 'p', 'h' || n, 1 from generate_series(1, 3) as n`, [network, incident, item]);
      await client.query(moved);
      const { rows } = await client.query('select chain_id, seq, hash from custody_root_waiting where network_id = $1 order by seq', [network]);
      expect(rows).toEqual([1, 2, 3].map((seq) => ({ chain_id: item, seq, hash: `h${seq}` })));
      const looks = await client.query("select incident_id, subject_id from outbox where network_id = $1 and kind = 'custody.root'", [network]);
      expect(looks.rows).toEqual([{ incident_id: incident, subject_id: network }]);
      await client.query('rollback');
    } finally {
      client.release();
    }
  } finally {
    await database.drop();
  }
});
