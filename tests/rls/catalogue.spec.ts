import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { createTestDatabase, type TestDatabase } from '#testing';

let database: TestDatabase;
beforeAll(async () => {
  database = await createTestDatabase();
});
afterAll(() => database.drop());

interface Table {
  name: string;
  owner: string;
  secured: boolean;
  forced: boolean;
  keyed: boolean;
  incident: boolean;
}

interface Policy {
  table: string;
  name: string;
  permissive: boolean;
  roles: string;
  command: string;
  using: string | null;
  check: string | null;
}

async function tables(): Promise<Table[]> {
  const { rows } = await database.admin.query<Table>(`
    select c.relname as name, pg_get_userbyid(c.relowner) as owner, c.relrowsecurity as secured, c.relforcerowsecurity as forced,
           exists (select from pg_attribute a where a.attrelid = c.oid and a.attname = 'network_id' and a.attnotnull and a.atttypid = 'uuid'::regtype) as keyed,
           exists (select from pg_attribute a where a.attrelid = c.oid and a.attname = 'incident_id' and not a.attisdropped) as incident
    from pg_class c join pg_namespace n on n.oid = c.relnamespace
    where n.nspname = 'public' and c.relkind in ('r', 'p') and c.relname <> '_prisma_migrations' order by 1`);
  return rows;
}

async function policies(): Promise<Policy[]> {
  const { rows } = await database.admin.query<Policy>(`
    select tablename as table, policyname as name, permissive = 'PERMISSIVE' as permissive, array_to_string(roles, ',') as roles, cmd as command, qual as using, with_check as check
    from pg_policies where schemaname = 'public' order by 1, 2`);
  return rows;
}

/** Names of the tables for which something is not so. */
async function except(test: (table: Table) => boolean): Promise<string[]> {
  return (await tables()).filter((table) => !test(table)).map((table) => table.name);
}

const SETTING = /^\(network_id = \(?NULLIF\(current_setting\('app\.network_id'::text, true\), ''::text\)\)?::uuid\)$/;
/** Which column names the incident where it is not `incident_id`. */
const INCIDENT_COLUMN: Record<string, string> = { incident: 'id', api_key: 'limited_to_incident_id' };

describe('every table of the catalogue', () => {
  test('there are tables to look at', async () => {
    expect((await tables()).length).toBeGreaterThan(30);
  });

  test('has row-level security enabled and forced', async () => {
    expect(await except((table) => table.secured && table.forced)).toEqual([]);
  });

  test('has a network_id that cannot be null', async () => {
    expect(await except((table) => table.keyed)).toEqual([]);
  });

  test('belongs to wl_owner', async () => {
    expect(await except((table) => table.owner === 'wl_owner')).toEqual([]);
  });

  test('has the policy of the network, for reading and for writing', async () => {
    const all = await policies();
    expect(await except(({ name }) => all.some((policy) => policy.table === name && policy.name === 'of_network' && policy.permissive && policy.roles === 'public' && policy.command === 'ALL' && SETTING.test(policy.using ?? '') && SETTING.test(policy.check ?? '')))).toEqual([]);
  });

  test('that holds something of an incident has the restrictive policy of the incident', async () => {
    const all = await policies();
    const bearing = (await tables()).filter((table) => table.incident || table.name in INCIDENT_COLUMN);
    expect(bearing.length).toBeGreaterThan(25);
    const without = bearing.filter(({ name }) => {
      const column = INCIDENT_COLUMN[name] ?? 'incident_id';
      return !all.some((policy) => policy.table === name && policy.name === 'of_incident' && !policy.permissive && policy.roles === 'public' && policy.command === 'ALL' && policy.using?.includes(`(${column} = `) && policy.using.includes("current_setting('app.incident_id'::text, true)"));
    });
    expect(without.map((table) => table.name)).toEqual([]);
  });
});

test('the only policies beside these two let the relay see the outbox, keep it from removing what is not done, let it remove old answers, and let the key look-up see keys', async () => {
  const others = (await policies()).filter((policy) => policy.name !== 'of_network' && policy.name !== 'of_incident');
  expect(others.map(({ table, roles, command }) => `${table} to ${roles} for ${command}`)).toEqual(['api_key to wl_auth for SELECT', 'idempotency_record to wl_relay for DELETE', 'idempotency_record to wl_relay for SELECT', 'network to wl_auth for SELECT', 'outbox to wl_relay for ALL', 'outbox to wl_relay for DELETE']);
});

test('there is no view, materialised view, foreign table or partition that could go round the policies', async () => {
  const { rows } = await database.admin.query("select c.relname from pg_class c join pg_namespace n on n.oid = c.relnamespace where n.nspname = 'public' and (c.relkind in ('v', 'm', 'f') or c.relispartition)");
  expect(rows).toEqual([]);
});

test('there is no sequence: numbers that count over all networks would tell one about the other', async () => {
  const { rows } = await database.admin.query("select c.relname from pg_class c join pg_namespace n on n.oid = c.relnamespace where n.nspname = 'public' and c.relkind = 'S'");
  expect(rows).toEqual([]);
});

describe('keys between tables', () => {
  test('every foreign key leads with network_id on both sides', async () => {
    const { rows } = await database.admin.query<{ constraint: string; own: string; other: string }>(`
      select con.conrelid::regclass || '.' || con.conname as constraint,
             (select attname from pg_attribute where attrelid = con.conrelid and attnum = con.conkey[1]) as own,
             (select attname from pg_attribute where attrelid = con.confrelid and attnum = con.confkey[1]) as other
      from pg_constraint con join pg_namespace n on n.oid = con.connamespace where n.nspname = 'public' and con.contype = 'f'`);
    expect(rows.length).toBeGreaterThan(40);
    expect(rows.filter((row) => row.own !== 'network_id' || row.other !== 'network_id')).toEqual([]);
  });

  test('every table but the network itself is tied to its network through a foreign key, or is a log that outlives what it names', async () => {
    const { rows } = await database.admin.query<{ name: string }>(`
      select c.relname as name from pg_class c join pg_namespace n on n.oid = c.relnamespace
      where n.nspname = 'public' and c.relkind in ('r', 'p') and c.relname <> '_prisma_migrations' and not exists (select from pg_constraint f where f.conrelid = c.oid and f.contype = 'f') order by 1`);
    // The outbox, the answers to commands and the audit name things by id only and are kept when those go.
    expect(rows.map((row) => row.name)).toEqual(['audit_entry', 'idempotency_record', 'network', 'outbox']);
  });

  test('every unique index leads with network_id, so that no error tells of another network', async () => {
    const { rows } = await database.admin.query<{ index: string; first: string }>(`
      select i.indexrelid::regclass::text as index, (select attname from pg_attribute where attrelid = i.indrelid and attnum = i.indkey[0]) as first
      from pg_index i join pg_class c on c.oid = i.indrelid join pg_namespace n on n.oid = c.relnamespace
      where n.nspname = 'public' and i.indisunique and c.relname <> '_prisma_migrations'`);
    expect(rows.length).toBeGreaterThan(40);
    expect(rows.filter((row) => row.first !== 'network_id')).toEqual([]);
  });
});
