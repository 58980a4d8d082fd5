import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { createPool, relayFaults, tenancyFaults } from '#persistence';
import { createLogger, loadConfig } from '#platform';
import { createTestDatabase, randomHex, TEST_MASTER_KEY, type TestDatabase } from '#testing';
import { composeApi } from '../../apps/api/src/compose.js';

let database: TestDatabase;
/** Logins that only these tests make, in the cluster of the tests. */
const logins: string[] = [];
const PASSWORD = 'start-up-test';

beforeAll(async () => {
  database = await createTestDatabase();
});
afterAll(async () => {
  const { admin } = database;
  for (const login of logins) await admin.query(`drop owned by ${login}; drop role ${login}`);
  await database.drop();
});

async function login(attributes: string, also: (name: string) => string[] = () => []): Promise<string> {
  const name = `wl_try_${randomHex(4)}`;
  await database.admin.query(`create role ${name} login password '${PASSWORD}' ${attributes}`);
  logins.push(name);
  for (const statement of also(name)) await database.admin.query(statement);
  const url = new URL(database.appUrl);
  url.username = name;
  url.password = PASSWORD;
  return url.toString();
}

async function faultsOf(url: string): Promise<string[]> {
  const pool = createPool({ connectionString: url, max: 1, applicationName: 'start-up', onError: () => undefined });
  return tenancyFaults(pool).finally(() => pool.end());
}

function start(url: string) {
  const config = loadConfig({ DATABASE_URL: url, QUEUE_DATABASE_URL: url, WRACKLINE_MASTER_KEY: TEST_MASTER_KEY, WRACKLINE_CURSOR_SECRET: 'a cursor secret for tests, 32 chars+' });
  return composeApi(config, createLogger('test', 'silent'));
}

describe('the API starts', () => {
  test('on the login wl_app', async () => {
    expect(await faultsOf(database.appUrl)).toEqual([]);
    const composed = await start(database.appUrl);
    await composed.close();
  });
});

describe('the API refuses to start', () => {
  test('on a superuser', async () => {
    expect((await faultsOf(database.adminUrl)).join(' ')).toMatch(/can bypass row-level security/);
    await expect(start(database.adminUrl)).rejects.toThrow(/Refusing to start: .*can bypass row-level security/);
  });

  test('on a login that may bypass row-level security', async () => {
    const url = await login('bypassrls');
    await expect(start(url)).rejects.toThrow(/Refusing to start: .*can bypass row-level security/);
  });

  test('on a login that owns a table', async () => {
    const own = await createTestDatabase();
    const url = new URL(await login('', (name) => [`grant ${name} to current_user`]));
    url.pathname = new URL(own.appUrl).pathname;
    await own.admin.query(`alter table freezer owner to ${url.username}`);
    await expect(start(url.toString())).rejects.toThrow(/Refusing to start: .*owns table freezer/);
    await own.drop();
  });

  test('on a login that can act as the owner of the tables', async () => {
    const url = await login('', (name) => [`grant wl_owner to ${name}`]);
    expect(await faultsOf(url)).not.toEqual([]);
    await expect(start(url)).rejects.toThrow(/Refusing to start/);
  });

  test('on a login that can act as a role which bypasses row-level security', async () => {
    const strong = new URL(await login('bypassrls')).username;
    const url = await login('noinherit', (name) => [`grant ${strong} to ${name}`]);
    expect(await faultsOf(url)).not.toEqual([]);
  });

  test.each([['wl_auth', 'api_key'], ['wl_relay', 'outbox']])('on a login that can act as %s, which sees every network', async (role, table) => {
    const url = await login('noinherit', (name) => [`grant wl_app to ${name}`, `grant ${role} to ${name}`]);
    expect((await faultsOf(url)).join(' ')).toContain(`can act as ${role}, which sees the rows of every network in table ${table}.`);
    await expect(start(url)).rejects.toThrow(/Refusing to start/);
  });
});

describe('the relay of a worker', () => {
  /** A login that has the rights of wl_relay, and what is granted beside. */
  const relayLogin = (attributes: string, ...granted: string[]) => login(attributes, (name) => ['wl_relay', ...granted].map((role) => `grant ${role} to ${name}`));

  async function relayFaultsOf(url: string): Promise<string> {
    const pool = createPool({ connectionString: url, max: 1, applicationName: 'start-up', onError: () => undefined });
    return (await relayFaults(pool).finally(() => pool.end())).join(' ');
  }

  test('starts on wl_relay, and on a login that has its rights and no others', async () => {
    expect(await relayFaultsOf(database.relayUrl)).toBe('');
    expect(await relayFaultsOf(await relayLogin(''))).toBe('');
  });

  test('refuses a login that has the rights of wl_relay only after SET ROLE: it would see no row and ring for nothing', async () => {
    expect(await relayFaultsOf(await relayLogin('noinherit'))).toMatch(/is not the role wl_relay/);
  });

  test('refuses the application login, a superuser, and a login that may bypass row-level security', async () => {
    expect(await relayFaultsOf(database.appUrl)).toMatch(/is not the role wl_relay/);
    expect(await relayFaultsOf(database.adminUrl)).toMatch(/can bypass row-level security/);
    expect(await relayFaultsOf(await relayLogin('bypassrls'))).toMatch(/can bypass row-level security/);
  });

  test('refuses a login that is a member of a role which bypasses row-level security, also through another role', async () => {
    const strong = new URL(await login('bypassrls')).username;
    expect(await relayFaultsOf(await relayLogin('', strong))).toMatch(new RegExp(`can act as ${strong}, which can bypass row-level security`));
    const between = new URL(await login('', (name) => [`grant ${strong} to ${name}`])).username;
    expect(await relayFaultsOf(await relayLogin('', between))).toMatch(new RegExp(`can act as ${strong}, which can bypass row-level security`));
  });

  test('refuses a login that owns a table, itself or as the role wl_owner', async () => {
    expect(await relayFaultsOf(await relayLogin('', 'wl_owner'))).toMatch(/can act as wl_owner, which owns table item/);
    const own = await createTestDatabase();
    const url = new URL(await relayLogin(''));
    await own.admin.query(`grant ${url.username} to current_user`);
    url.pathname = new URL(own.relayUrl).pathname;
    await own.admin.query(`alter table freezer owner to ${url.username}`);
    expect(await relayFaultsOf(url.toString())).toMatch(/relay's login \w+ owns table freezer/);
    await own.drop();
  });

  test('refuses a login that can read the keys of every network as wl_auth', async () => {
    expect(await relayFaultsOf(await relayLogin('', 'wl_auth'))).toMatch(/can act as wl_auth, which sees the rows of every network in table api_key/);
  });
});

describe('the API refuses to start on a database', () => {
  const broken: [string, string[], RegExp][] = [
    ['with a table whose policies are not forced', ['alter table item no force row level security'], /Table item has no forced policy/],
    ['with a table whose policies are off', ['alter table household_contact disable row level security'], /Table household_contact has no forced policy/],
    ['with a table that lost its policy', ['drop policy of_network on tag', 'drop policy of_incident on tag'], /Table tag has no forced policy/],
    ['with a table that was added without a policy', ['create table extra (network_id uuid not null, id uuid primary key)', 'alter table extra owner to wl_owner'], /Table extra has no forced policy/],
    ['with a table without a network', ['create table extra (id uuid primary key)', 'alter table extra enable row level security', 'alter table extra force row level security', 'create policy all_of_it on extra using (true)'], /Table extra has no forced policy/],
  ];
  test.each(broken)('%s', async (_, statements, said) => {
    const own = await createTestDatabase();
    try {
      for (const statement of statements) await own.admin.query(statement);
      await expect(start(own.appUrl)).rejects.toThrow(said);
    } finally {
      await own.drop();
    }
  });

  test('without tables', async () => {
    const { createEmptyDatabase } = await import('#testing');
    const empty = await createEmptyDatabase();
    const url = new URL(database.appUrl);
    url.pathname = new URL(empty.url).pathname;
    await expect(start(url.toString())).rejects.toThrow(/has no tables/);
    await empty.drop();
  });
});
