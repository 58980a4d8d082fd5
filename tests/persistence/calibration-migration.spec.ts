import { afterAll, beforeAll, expect, test } from '@jest/globals';
import pg from 'pg';
import { migrate, readMigrations } from '#persistence';
import { newId } from '#platform';
import { createEmptyDatabase } from '#testing';

const CALIBRATION = '20261127100000_calibration';
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

test('steps by the wrong people from before name their step after the migration, whatever network they are of, and still nobody changes them', async () => {
  const migrations = (await readMigrations()).filter(({ name }) => name <= CALIBRATION);
  await migrate(database.url, migrations.filter(({ name }) => name < CALIBRATION));
  await admin.query('grant all on _prisma_migrations to wl_owner');
  const ids = [await oldStep('rinse'), await oldStep('wrap')];
  await migrate(asOwner(database.url), migrations);
  const { rows } = await admin.query<{ id: string; step: string }>('select id, step from unsuited_step');
  expect(ids.map((id) => rows.find((row) => row.id === id)?.step)).toEqual(['rinse', 'wrap']);
  expect((await admin.query('select rest_minutes from step_result')).rows).toEqual([{ rest_minutes: 0 }, { rest_minutes: 0 }]);
  const { rows: tables } = await admin.query("select relname, relrowsecurity and relforcerowsecurity as bound from pg_class where relname in ('calibration_value', 'step_result', 'unsuited_step') order by 1");
  expect(tables).toEqual(['calibration_value', 'step_result', 'unsuited_step'].map((relname) => ({ relname, bound: true })));
  await expect(admin.query("update unsuited_step set step = 'pack'")).rejects.toThrow('append-only');
});

/** A report of a network of its own that stands on the list, without the rows that a real one has beside it. */
async function oldStep(step: string): Promise<string> {
  const [network, incident, item, result, unsuited] = [newId(), newId(), newId(), newId(), newId()];
  const client = await admin.connect();
  try {
    await client.query("begin; set local session_replication_role = 'replica'");
    await client.query("insert into step_result (network_id, incident_id, id, item_id, step, outcome, person_id, note, finished_at, recorded_at) values ($1, $2, $3, $4, $5, 'failed', $1, '', now(), now())", [network, incident, result, item, step]);
    await client.query("insert into unsuited_step (network_id, incident_id, id, step_result_id, item_id, people, recorded_at) values ($1, $2, $3, $4, $5, '[]', now())", [network, incident, unsuited, result, item]);
    await client.query('commit');
  } finally {
    client.release();
  }
  return unsuited;
}
