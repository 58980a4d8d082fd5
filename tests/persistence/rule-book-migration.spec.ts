import { afterAll, beforeAll, expect, test } from '@jest/globals';
import pg from 'pg';
import { migrate, readMigrations } from '#persistence';
import { newId } from '#platform';
import { createEmptyDatabase } from '#testing';

const RULE_BOOK = '20261126140000_rule_book';
const RELEASE = '20261127103000_rule_book_release';
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

test('results of the first rule book are readable as those of today after the migration, whatever network they are of', async () => {
  const migrations = (await readMigrations()).filter(({ name }) => name <= RULE_BOOK);
  await migrate(database.url, migrations.filter(({ name }) => name < RULE_BOOK));
  await admin.query('grant all on _prisma_migrations to wl_owner');
  const ids = [await oldResult('textile-silk'), await oldResult('book-bound')];
  await migrate(asOwner(database.url), migrations);
  const { rows } = await admin.query<{ id: string; result: Record<string, unknown> }>('select id, result from triage_result');
  const results = ids.map((id) => rows.find((row) => row.id === id)?.result);
  expect(results).toEqual(['textile-silk', 'book-bound'].map((treatedAs) => ({ ruleBookVersion: '2026.1', options: [], apartFrom: [], freezer: null, storage: [], treatedAs })));
  const { rows: tables } = await admin.query("select relname, relrowsecurity and relforcerowsecurity as bound from pg_class where relname in ('assessment', 'triage_result', 'rule_book_choice') order by 1");
  expect(tables).toEqual(['assessment', 'rule_book_choice', 'triage_result'].map((relname) => ({ relname, bound: true })));
});

/** One thing of a network of its own with a triage as the first version stored it; without the rows that a real one has beside it. */
async function oldResult(materialClass: string): Promise<string> {
  const [network, incident, item, assessment, triage] = [newId(), newId(), newId(), newId(), newId()];
  const client = await admin.connect();
  try {
    await client.query("begin; set local session_replication_role = 'replica'");
    await client.query('insert into assessment (network_id, incident_id, id, item_id, observed, origin, assessed_by, assessed_at, recorded_at) values ($1, $2, $3, $4, $5, $6, $1, now(), now())', [network, incident, assessment, item, JSON.stringify({ materialClass }), 'person']);
    await client.query("insert into triage_result (network_id, incident_id, id, item_id, assessment_id, rule_book_version, urgency, start_by, result, created_at) values ($1, $2, $3, $4, $5, '2026.1', 'immediate', now(), $6, now())", [network, incident, triage, item, assessment, JSON.stringify({ ruleBookVersion: '2026.1', options: [] })]);
    await client.query('commit');
  } finally {
    client.release();
  }
  return triage;
}

test('networks and decisions from before the second release go on with the first; who makes a network names its release', async () => {
  const migrations = await readMigrations();
  const before = migrations.filter(({ name }) => name < RELEASE);
  await migrate(asOwner(database.url), before);
  const [network, decision] = [newId(), newId()];
  await admin.query("insert into network (network_id, name, created_at) values ($1, 'Old', now())", [network]);
  const client = await admin.connect();
  try {
    await client.query("begin; set local session_replication_role = 'replica'");
    await client.query(`insert into rule_book_choice (network_id, id, number, choices, version, reason, decided_by, decided_at, principal_id) values ($1, $2, 1, '{"mould-clock": "24h"}', '2026.2+mould-clock=24h', 'A hot week.', $2, now(), $2)`, [network, decision]);
    await client.query('commit');
  } finally {
    client.release();
  }
  await migrate(asOwner(database.url), migrations.filter(({ name }) => name <= RELEASE));
  const { rows } = await admin.query('select n.rule_book_release, c.release, c.version from network n join rule_book_choice c using (network_id) where network_id = $1', [network]);
  expect(rows).toEqual([{ rule_book_release: '2026.2', release: '2026.2', version: '2026.2+mould-clock=24h' }]);
  await expect(admin.query("update rule_book_choice set release = '2026.11'")).rejects.toThrow('append-only');
});
