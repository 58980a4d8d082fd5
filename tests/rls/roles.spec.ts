import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import pg from 'pg';
import { newId } from '#platform';
import { createTestDatabase, type TestDatabase, tenantTables } from '#testing';

let database: TestDatabase;
let app: pg.Pool;
let relay: pg.Pool;

beforeAll(async () => {
  database = await createTestDatabase();
  app = new pg.Pool({ connectionString: database.appUrl, max: 1 });
  relay = new pg.Pool({ connectionString: database.relayUrl, max: 1 });
});
afterAll(async () => {
  await Promise.all([app.end(), relay.end()]);
  await database.drop();
});

/** SQLSTATE of what the statement was refused with; null when it was not. */
async function refusal(pool: pg.Pool, sql: string, values: unknown[] = []): Promise<string | null> {
  return pool.query(sql, values).then(() => null, (error: { code?: string }) => error.code ?? 'no code');
}

const DENIED = '42501';

/** Privileges on tables as the catalogue has them, of a role or of everybody. */
async function granted(role: string): Promise<string[]> {
  const { rows } = await database.admin.query<{ grant: string }>(
    `select c.relname || ' ' || lower(a.privilege_type) as grant from pg_class c join pg_namespace n on n.oid = c.relnamespace cross join lateral aclexplode(c.relacl) a
     where n.nspname = 'public' and a.grantee = (case $1 when 'public' then 0 else (select oid from pg_roles where rolname = $1) end) order by 1`, [role]);
  return rows.map((row) => row.grant);
}

describe('wl_app', () => {
  test('cannot bypass row-level security, create roles or databases, or take on another role', async () => {
    const { rows } = await database.admin.query("select rolsuper, rolbypassrls, rolcreaterole, rolcreatedb, rolinherit, rolreplication from pg_roles where rolname = 'wl_app'");
    expect(rows).toEqual([{ rolsuper: false, rolbypassrls: false, rolcreaterole: false, rolcreatedb: false, rolinherit: false, rolreplication: false }]);
    const { rows: member } = await database.admin.query("select 1 from pg_auth_members where member in (select oid from pg_roles where rolname in ('wl_app', 'wl_relay'))");
    expect(member).toEqual([]);
    for (const role of ['wl_owner', 'wl_auth', 'wl_relay']) expect(await refusal(app, `set role ${role}`)).toBe(DENIED);
  });

  test('owns nothing', async () => {
    const { rows } = await database.admin.query("select relname from pg_class where relowner = 'wl_app'::regrole union all select proname from pg_proc where proowner = 'wl_app'::regrole union all select nspname from pg_namespace where nspowner = 'wl_app'::regrole");
    expect(rows).toEqual([]);
  });

  test('has no more than select, insert, update and delete on any table', async () => {
    const grants = await granted('wl_app');
    expect(grants.length).toBeGreaterThan(100);
    expect(grants.filter((grant) => !/ (select|insert|update|delete)$/.test(grant))).toEqual([]);
    expect(await granted('public')).toEqual([]);
  });

  test('can add to the custody chain and the audit but never change or remove what stands there', async () => {
    for (const table of ['custody_event', 'audit_entry']) {
      expect((await granted('wl_app')).filter((grant) => grant.startsWith(`${table} `))).toEqual([`${table} insert`, `${table} select`]);
      expect(await refusal(app, `update ${table} set network_id = network_id`)).toBe(DENIED);
      expect(await refusal(app, `delete from ${table}`)).toBe(DENIED);
    }
  });

  test('can read its network but not make, change or remove one', async () => {
    expect((await granted('wl_app')).filter((grant) => grant.startsWith('network '))).toEqual(['network select']);
  });

  test('cannot truncate any table', async () => {
    for (const table of await tenantTables(database.admin)) expect(await refusal(app, `truncate ${table} cascade`)).toBe(DENIED);
  });

  test('cannot create or alter anything, nor turn the policies off', async () => {
    const attempts = [
      'create table mine (id int)', 'create schema mine', 'create view mine as select 1 as one', 'create function mine() returns int language sql as $$ select 1 $$', 'create role mine',
      'alter table item disable row level security', 'alter table item no force row level security', 'drop policy of_network on item', 'create policy mine on item using (true)', 'alter table item owner to wl_app',
      'alter role wl_app bypassrls',
    ];
    for (const attempt of attempts) expect(`${attempt}: ${await refusal(app, attempt)}`).toBe(`${attempt}: ${DENIED}`);
    // Turning the policies off for a session makes a query fail instead of showing more.
    const client = await app.connect();
    await client.query('set row_security = off');
    await expect(client.query('select 1 from item')).rejects.toMatchObject({ code: DENIED });
    await client.query('reset row_security');
    client.release();
  });

  test('cannot read the migrations or the passwords', async () => {
    expect(await refusal(app, 'select 1 from _prisma_migrations')).toBe(DENIED);
    expect(await refusal(app, 'select 1 from pg_authid')).toBe(DENIED);
  });
});

test('the owner of the tables and the key look-up cannot log in, and neither can bypass the policies', async () => {
  const { rows } = await database.admin.query("select rolname, rolcanlogin, rolsuper, rolbypassrls from pg_roles where rolname in ('wl_owner', 'wl_auth') order by 1");
  expect(rows).toEqual(['wl_auth', 'wl_owner'].map((rolname) => ({ rolname, rolcanlogin: false, rolsuper: false, rolbypassrls: false })));
});

test('custody events and audit entries refuse change even from a superuser', async () => {
  const network = newId();
  await database.admin.query("insert into network (network_id, name, created_at) values ($1, 'n', now())", [network]);
  await database.admin.query("insert into audit_entry (network_id, principal_id, operation, subject_kind, outcome, request_id) values ($1, $1, 'o', 's', 'done', 'r')", [network]);
  for (const statement of ["update audit_entry set outcome = 'other'", 'delete from audit_entry', 'truncate audit_entry', 'truncate custody_event cascade']) expect(`${statement}: ${await refusal(database.admin, statement)}`).toBe(`${statement}: 23001`);
});

describe('wl_relay', () => {
  test('sees the outbox of every network and which answers are old, and nothing else', async () => {
    expect(await granted('wl_relay')).toEqual(['idempotency_record delete', 'outbox delete', 'outbox select', 'outbox update']);
    for (const [name, id] of [['a', newId()], ['b', newId()]]) {
      await database.admin.query('insert into network (network_id, name, created_at) values ($1, $2, now())', [id, name]);
      await database.admin.query("insert into outbox (network_id, id, incident_id, kind, subject_id) values ($1, $2, $2, 'plan.requested', $2)", [id, newId()]);
    }
    expect((await relay.query('select distinct network_id from outbox')).rows).toHaveLength(2);
    for (const table of await tenantTables(database.admin)) {
      if (table === 'outbox' || table === 'idempotency_record') continue;
      expect(`${table}: ${await refusal(relay, `select 1 from ${table}`)}`).toBe(`${table}: ${DENIED}`);
    }
    expect(await refusal(relay, 'insert into outbox (network_id, id, incident_id, kind, subject_id) values ($1, $1, $1, $2, $1)', [newId(), 'plan.requested'])).toBe(DENIED);
  });

  test('can remove answers that are a day old, none that is younger, and read none', async () => {
    const network = newId();
    await database.admin.query("insert into network (network_id, name, created_at) values ($1, 'n', now())", [network]);
    const answered = async (ago: string) => {
      const key = newId();
      await database.admin.query("insert into idempotency_record (network_id, principal_id, operation, idempotency_key, fingerprint, status, body, headers, created_at) values ($1, $1, 'o', $2, 'f', 201, '{}', '{}', now() - $3::interval)", [network, key, ago]);
      return key;
    };
    const [old, young] = [await answered('25 hours'), await answered('23 hours')];
    for (const column of ['body', 'body_sealed', 'headers', 'fingerprint', 'household_ids', 'status']) expect(`${column}: ${await refusal(relay, `select ${column} from idempotency_record`)}`).toBe(`${column}: ${DENIED}`);
    expect((await relay.query('select idempotency_key from idempotency_record where network_id = $1', [network])).rows).toEqual([{ idempotency_key: old }]);
    expect(await refusal(relay, "update idempotency_record set created_at = now() - interval '9 days'")).toBe(DENIED);
    await relay.query('delete from idempotency_record where network_id = $1', [network]);
    expect((await database.admin.query('select idempotency_key from idempotency_record where network_id = $1', [network])).rows).toEqual([{ idempotency_key: young }]);
  });

  test('can remove rows of the outbox that are done, and none that is not', async () => {
    const network = newId();
    const rows = { done: newId(), open: newId(), dead: newId() };
    await database.admin.query("insert into network (network_id, name, created_at) values ($1, 'n', now())", [network]);
    for (const id of Object.values(rows)) await database.admin.query("insert into outbox (network_id, id, incident_id, kind, subject_id) values ($1, $2, $2, 'plan.requested', $2)", [network, id]);
    await database.admin.query('update outbox set done_at = now() where id = $1', [rows.done]);
    await database.admin.query('update outbox set dead_at = now() where id = $1', [rows.dead]);
    expect((await relay.query('delete from outbox where network_id = $1', [network])).rowCount).toBe(1);
    const { rows: left } = await database.admin.query('select id from outbox where network_id = $1 order by id', [network]);
    expect(left.map((row) => row.id)).toEqual([rows.open, rows.dead].sort());
    expect(await refusal(relay, 'truncate outbox')).toBe(DENIED);
  });

  test('can neither look keys up nor run commands', async () => {
    expect(await refusal(relay, "select * from authenticate_key('x')")).toBe(DENIED);
    expect(await refusal(relay, "select * from begin_command($1, 'o', $1, 'f')", [newId()])).toBe(DENIED);
  });
});

describe('the look-up of keys', () => {
  test('is the only function that runs with the rights of its owner', async () => {
    const { rows } = await database.admin.query("select p.proname, pg_get_userbyid(p.proowner) as owner, p.proconfig as config from pg_proc p join pg_namespace n on n.oid = p.pronamespace where n.nspname = 'public' and p.prosecdef");
    expect(rows).toEqual([{ proname: 'authenticate_key', owner: 'wl_auth', config: ['search_path=public, pg_temp'] }]);
  });

  test('may be called by wl_app and its owner alone', async () => {
    const { rows } = await database.admin.query("select coalesce(r.rolname, 'public') as who from pg_proc p cross join lateral aclexplode(p.proacl) a left join pg_roles r on r.oid = a.grantee where p.proname = 'authenticate_key' order by 1");
    expect(rows.map((row) => row.who)).toEqual(['wl_app', 'wl_auth']);
  });

  test('answers one key by its whole prefix, and nothing but its own columns', async () => {
    const network = newId();
    await database.admin.query("insert into network (network_id, name, created_at) values ($1, 'Network with a name', now())", [network]);
    for (const prefix of ['aaaaaaa1', 'aaaaaaa2']) {
      await database.admin.query("insert into api_key (network_id, id, prefix, secret_sha256, label, scopes, expires_at, created_at) values ($1, $2, $3, '\\x00', 'A label', '{item:read}', now(), now())", [network, newId(), prefix]);
    }
    const found = await app.query("select * from authenticate_key('aaaaaaa1')");
    expect(found.fields.map((field) => field.name)).toEqual(['network_id', 'key_id', 'secret_sha256', 'scopes', 'limited_to_incident_id', 'expires_at', 'revoked_at', 'suspended_at']);
    expect(found.rows).toHaveLength(1);
    for (const prefix of ['', '%', 'aaaaaaa', 'aaaaaaa_', "' or true --"]) expect((await app.query('select * from authenticate_key($1)', [prefix])).rows).toEqual([]);
  });

  test('leaves no sight of keys behind: the tables themselves stay empty for wl_app', async () => {
    expect((await app.query('select (select count(*)::int from api_key) as keys, (select count(*)::int from network) as networks')).rows).toEqual([{ keys: 0, networks: 0 }]);
  });
});
