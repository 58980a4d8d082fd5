import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type pg from 'pg';
import { tenantTables, TEST_MASTER_KEY } from '#testing';
import { refusalOf, type RlsWorld, startRlsWorld, under } from './world.js';

let world: RlsWorld;
let tables: string[];
const bearing: string[] = [];

beforeAll(async () => {
  world = await startRlsWorld();
  tables = await tenantTables(world.server.admin);
  for (const table of tables) {
    const columns = await world.server.admin.query("select 1 from information_schema.columns where table_name = $1 and column_name = 'incident_id'", [table]);
    if (columns.rowCount === 1) bearing.push(table);
  }
}, 400_000);
afterAll(() => world?.close());

const A = () => world.ours.network.networkId;
const B = () => world.theirs.network.networkId;
const count = async (client: pg.PoolClient | pg.Pool, table: string, where = 'true') => Number((await client.query(`select count(*) as n from ${table} where ${where}`)).rows[0].n);

/** Tables without a row in the prepared world; each with why there can be none. */
const EMPTY: Record<string, string> = {};

test('the prepared world has rows of both networks in every table', async () => {
  const empty: string[] = [];
  for (const table of tables) if ((await count(world.server.admin, table, `network_id = '${A()}'`)) === 0 || (await count(world.server.admin, table, `network_id = '${B()}'`)) === 0) empty.push(table);
  expect(empty).toEqual(Object.keys(EMPTY).filter((table) => empty.includes(table)));
});

describe('reading as wl_app', () => {
  test('without a network there is no row in any table', async () => {
    for (const table of tables) expect([table, await under(world.app, null, (client) => count(client, table))]).toEqual([table, 0]);
    for (const network of ['', '00000000-0000-0000-0000-000000000000']) for (const table of tables) expect([table, await under(world.app, { network }, (client) => count(client, table))]).toEqual([table, 0]);
  });

  test('under one network there is every row of it and none of the other, in every table', async () => {
    for (const table of tables) {
      const seen = await under(world.app, { network: A() }, (client) => client.query(`select count(*)::int as all, count(*) filter (where network_id <> $1)::int as foreign from ${table}`, [A()]));
      expect([table, seen.rows[0]]).toEqual([table, { all: await count(world.server.admin, table, `network_id = '${A()}'`), foreign: 0 }]);
    }
  });

  test('asking for the rows of the other network by name answers none', async () => {
    for (const table of tables) expect([table, await under(world.app, { network: A() }, (client) => count(client, table, `network_id = '${B()}'`))]).toEqual([table, 0]);
  });

  /** Rows without an incident are of the whole network, and every key of it works with them: sheets of labels are the same everywhere. */
  const ofTheNetwork = new Set(['label_template']);

  test('below a limit to one incident there is nothing of the other incident', async () => {
    expect(bearing.length).toBeGreaterThan(25);
    for (const table of bearing) {
      const seen = await under(world.app, { network: A(), incident: world.ours.first.id }, (client) => client.query(`select count(*)::int as all, count(*) filter (where incident_id <> $1)::int as foreign from ${table}`, [world.ours.first.id]));
      expect([table, seen.rows[0]]).toEqual([table, { all: await count(world.server.admin, table, `network_id = '${A()}' and (incident_id = '${world.ours.first.id}'${ofTheNetwork.has(table) ? ' or incident_id is null' : ''})`), foreign: 0 }]);
    }
  });
});

/** One row of a table as JSON. */
async function rowOf(table: string, where: string, values: unknown[]): Promise<unknown> {
  const { rows } = await world.server.admin.query(`select to_jsonb(t) as row from ${table} t where ${where} limit 1`, values);
  return rows[0]?.row;
}

/** Without the columns that the database works out itself: nobody may write those. */
async function copy(client: pg.PoolClient, table: string, row: unknown) {
  const { rows } = await world.server.admin.query<{ name: string }>("select attname as name from pg_attribute where attrelid = $1::regclass and attnum > 0 and not attisdropped and attgenerated = ''", [table]);
  const columns = rows.map(({ name }) => `"${name}"`).join(', ');
  return client.query(`insert into ${table} (${columns}) select ${columns} from jsonb_populate_record(null::${table}, $1)`, [JSON.stringify(row)]);
}

describe('writing as wl_app', () => {
  test("a row that names another network is refused in every table", async () => {
    for (const table of tables) {
      const row = (await rowOf(table, 'network_id = $1', [B()])) ?? (table in EMPTY ? { network_id: B() } : undefined);
      expect([table, row === undefined]).toEqual([table, false]);
      const refusal = await refusalOf(under(world.app, { network: A() }, (client) => copy(client, table, row)));
      expect([table, refusal?.code]).toEqual([table, '42501']);
      // By the policy, not for want of a grant: only `network` is closed to the application altogether.
      expect([table, refusal?.message.includes('row-level security')]).toEqual([table, table !== 'network']);
    }
  });

  test('a row without a network set is refused in every table', async () => {
    for (const table of tables) {
      const row = (await rowOf(table, 'network_id = $1', [B()])) ?? { network_id: B() };
      expect([table, (await refusalOf(under(world.app, null, (client) => copy(client, table, row))))?.code]).toEqual([table, '42501']);
    }
  });

  test('below a limit to one incident a row of another incident is refused in every table that has one', async () => {
    for (const table of bearing) {
      const row = await rowOf(table, 'network_id = $1 and incident_id = $2', [A(), world.ours.second.id]);
      const refusal = await refusalOf(under(world.app, { network: A(), incident: world.ours.first.id }, (client) => copy(client, table, row)));
      expect([table, refusal?.code, refusal?.message.includes('row-level security')]).toEqual([table, '42501', true]);
    }
  });

  // What waits for a root is only added and taken away; the drill shows that nothing of another network is taken.
  const appendOnly = new Set(['custody_key', 'custody_root', 'custody_root_block', 'custody_root_event', 'custody_root_waiting', 'custody_event', 'sighting', 'container_event', 'audit_entry', 'unsuited_step', 'rule_book_choice', 'calibration_value', 'unclaimed_decision', 'network']);

  /** In some tables the application changes nothing at all, by its grants. */
  const mayUpdate = async (table: string) => (await world.server.admin.query<{ may: boolean }>(`select has_any_column_privilege('wl_app', $1, 'update') as may`, [table])).rows[0]?.may === true;

  /** From some tables the application removes nothing at all. */
  const mayDelete = async (table: string) => (await world.server.admin.query<{ may: boolean }>(`select has_table_privilege('wl_app', $1, 'delete') as may`, [table])).rows[0]?.may === true;

  test('changing or removing rows of the other network touches none, in every table that can be changed', async () => {
    for (const table of tables.filter((name) => !appendOnly.has(name))) {
      const touched = await under(world.app, { network: A() }, async (client) => [
        (await mayUpdate(table)) ? (await client.query(`update ${table} set network_id = network_id where network_id = $1`, [B()])).rowCount : 0,
        (await mayDelete(table)) ? (await client.query(`delete from ${table} where network_id = $1`, [B()])).rowCount : 0,
      ]);
      expect([table, touched]).toEqual([table, [0, 0]]);
    }
  });

  test('no own row can be given to another network', async () => {
    for (const table of tables.filter((name) => !appendOnly.has(name))) {
      const refusal = await refusalOf(under(world.app, { network: A() }, (client) => client.query(`update ${table} set network_id = $1`, [B()])));
      expect([table, refusal?.code, refusal?.message.includes('row-level security')]).toEqual([table, '42501', await mayUpdate(table)]);
    }
  });

  test('a row of one network cannot name a thing of another, even for a superuser', async () => {
    const { rows } = await world.server.admin.query<{ table: string; columns: string[] }>(`
      select con.conrelid::regclass::text as table, array(select a.attname::text from unnest(con.conkey) with ordinality k(n, o) join pg_attribute a on a.attrelid = con.conrelid and a.attnum = k.n order by k.o) as columns
      from pg_constraint con join pg_namespace n on n.oid = con.connamespace where n.nspname = 'public' and con.contype = 'f' and cardinality(con.conkey) > 1`);
    const foreign = new Map<string, string>();
    for (const { table, columns } of rows) {
      const column = columns[1] ?? '';
      const own = await rowOf(table, `network_id = $1 and ${column} is not null`, [B()]) as Record<string, string> | undefined;
      if (own) foreign.set(`${table}.${column}`, own[column] ?? '');
    }
    expect(foreign.size).toBeGreaterThan(40);
    for (const [name, id] of foreign) {
      const [table = '', column = ''] = name.split('.');
      const refusal = await refusalOf(under(world.server.admin, null, (client) => client.query(`update ${table} set ${column} = $2 where network_id = $1 and ctid in (select ctid from ${table} where network_id = $1 order by ${column} is null limit 1)`, [A(), id])));
      // A row that names something already, so that no other rule of the table meets it first. 23503 is the foreign key; append-only tables refuse any change before that.
      expect([name, refusal?.code]).toEqual([name, ['custody_root', 'custody_root_block', 'custody_root_event', 'custody_event', 'sighting', 'container_event', 'unsuited_step', 'rule_book_choice', 'calibration_value', 'plan_wish', 'claim_decision', 'unclaimed_decision', 'mark_look'].includes(table) ? '23001' : '23503']);
    }
  });
});

describe('a connection that goes back to the pool', () => {
  test('remembers no network, neither after a commit nor after a failure', async () => {
    const { PgUnitOfWork, createPool } = await import('#persistence');
    const { parseMasterKeys } = await import('#platform');
    const pool = createPool({ connectionString: world.server.database.appUrl, max: 1, applicationName: 'rls-test', onError: () => undefined });
    const unitOfWork = new PgUnitOfWork(pool, parseMasterKeys(TEST_MASTER_KEY, 'test'));
    const context = { networkId: A(), incidentLimit: world.ours.first.id, principalId: A(), requestId: 'r', traceparent: '' };
    const backend = async () => (await pool.query("select pg_backend_pid() as pid, current_setting('app.network_id', true) as network, current_setting('app.incident_id', true) as incident, (select count(*)::int from item) as items")).rows[0];
    const { pid } = await backend();
    const seen = await unitOfWork.read(context, (stores) => stores.items.page(world.ours.first.id, {}, 200, null));
    expect(seen.length).toBeGreaterThan(0);
    expect(await backend()).toEqual({ pid, network: '', incident: '', items: 0 });
    await unitOfWork.write(context, () => Promise.reject(new Error('on purpose'))).catch(() => undefined);
    expect(await backend()).toEqual({ pid, network: '', incident: '', items: 0 });
    await pool.end();
  });

  test('remembers no network after the configuration used it', async () => {
    const { PrismaConfigWork, createPool } = await import('#persistence');
    const pool = createPool({ connectionString: world.server.database.appUrl, max: 1, applicationName: 'rls-test', onError: () => undefined });
    const work = new PrismaConfigWork(pool);
    const context = { networkId: A(), incidentLimit: null, principalId: A(), requestId: 'r', traceparent: '' };
    expect(await work.read(context, (stores) => stores.layout.incidentPage(10, null))).toHaveLength(2);
    expect((await pool.query("select current_setting('app.network_id', true) as network, (select count(*)::int from incident) as incidents")).rows).toEqual([{ network: '', incidents: 0 }]);
    await work.close();
    await pool.end();
  });
});
