import { afterAll, beforeAll, expect, test } from '@jest/globals';
import pg from 'pg';
import { STEP_KINDS } from '#care';
import { migrate, readMigrations } from '#persistence';
import { newId } from '#platform';
import { createEmptyDatabase } from '#testing';

const ROUNDS = '20261127102000_rounds';
let database: Awaited<ReturnType<typeof createEmptyDatabase>>;
let admin: pg.Pool;
beforeAll(async () => {
  database = await createEmptyDatabase();
  admin = new pg.Pool({ connectionString: database.url, max: 1 });
  await admin.query(`alter database ${new URL(database.url).pathname.slice(1)} owner to wl_owner; alter schema public owner to wl_owner`);
});
afterAll(async () => {
  await admin.end();
  await database.drop();
});

/** A login that owns the tables and is no superuser is bound by their policies; a superuser would hide that. */
function asOwner(url: string): string {
  const owner = new URL(url);
  owner.searchParams.set('options', '-c role=wl_owner');
  return owner.toString();
}

test('thaws and stays with specialists of old undo every step that there is, in whatever network; nothing else does', async () => {
  const migrations = (await readMigrations()).filter(({ name }) => name <= ROUNDS);
  await migrate(database.url, migrations.filter(({ name }) => name < ROUNDS));
  await admin.query('grant all on _prisma_migrations to wl_owner');
  const old = [['thaw', 'done'], ['refer', 'done'], ['thaw', 'failed'], ['dry', 'done'], ['dry', 'mould-found']] as const;
  const ids = [];
  for (const [step, outcome] of old) ids.push(await oldResult(step, outcome));
  await migrate(asOwner(database.url), migrations);
  const { rows } = await admin.query<{ id: string; undoes: string[] }>('select id, undoes from step_result');
  const undoes = ids.map((id) => rows.find((row) => row.id === id)?.undoes.toSorted());
  expect(undoes).toEqual([[...STEP_KINDS].sort(), [...STEP_KINDS].sort(), [], [], []]);
  const { rows: tables } = await admin.query("select relrowsecurity and relforcerowsecurity as bound from pg_class where relname = 'step_result'");
  expect(tables).toEqual([{ bound: true }]);
});

/** A result in a network of its own, without the rows that a real one has beside it. */
async function oldResult(step: string, outcome: string): Promise<string> {
  const id = newId();
  const client = await admin.connect();
  try {
    await client.query("begin; set local session_replication_role = 'replica'");
    await client.query('insert into step_result (network_id, incident_id, id, item_id, step, outcome, finished_at, recorded_at) values ($1, $2, $3, $4, $5, $6, now(), now())', [newId(), newId(), id, newId(), step, outcome]);
    await client.query('commit');
  } finally {
    client.release();
  }
  return id;
}
