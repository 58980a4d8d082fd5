import { afterAll, beforeAll, expect, test } from '@jest/globals';
import pg from 'pg';
import { newId } from '#platform';
import { createTestDatabase, type TestDatabase } from '#testing';

let database: TestDatabase;
let app: pg.Client;
const networkId = newId();
const incidents = [newId(), newId()];

beforeAll(async () => {
  database = await createTestDatabase();
  await database.admin.query("insert into network (network_id, name, created_at) values ($1, 'n', now())", [networkId]);
  for (const id of incidents) await database.admin.query("insert into incident (network_id, id, name, flood_at, created_at, updated_at) values ($1, $2, 'i', now(), now(), now())", [networkId, id]);
  for (const limit of [null, ...incidents]) await database.admin.query(INSERT, [networkId, newId(), newId().slice(-8), limit]);
  app = new pg.Client({ connectionString: database.appUrl });
  await app.connect();
});
afterAll(async () => {
  await app.end();
  await database.drop();
});

const INSERT = "insert into api_key (network_id, id, prefix, secret_sha256, label, scopes, limited_to_incident_id, expires_at, created_at) values ($1, $2, $3, '', 'k', '{}', $4, now(), now())";

async function limited<T>(incidentId: string, work: () => Promise<T>): Promise<T> {
  await app.query('begin');
  try {
    await app.query("select set_config('app.network_id', $1, true), set_config('app.incident_id', $2, true)", [networkId, incidentId]);
    return await work();
  } finally {
    await app.query('rollback');
  }
}

test('below a limit to one incident the database shows only the keys with that limit', async () => {
  const { rows } = await limited(incidents[0] ?? '', () => app.query('select limited_to_incident_id as limit from api_key'));
  expect(rows).toEqual([{ limit: incidents[0] }]);
  expect((await limited('', () => app.query('select 1 from api_key'))).rows).toHaveLength(3);
});

test.each([['of the whole network', null], ['of another incident', incidents[1]]])('below a limit the database refuses a key %s', async (_what, limit) => {
  await expect(limited(incidents[0] ?? '', () => app.query(INSERT, [networkId, newId(), newId().slice(-8), limit]))).rejects.toMatchObject({ code: '42501' });
});

test('the look-up before the network is known still finds a limited key', async () => {
  const { rows: [row] } = await database.admin.query<{ prefix: string }>('select prefix from api_key where limited_to_incident_id = $1', [incidents[1]]);
  const found = await app.query('select limited_to_incident_id as limit from authenticate_key($1)', [row?.prefix]);
  expect(found.rows).toEqual([{ limit: incidents[1] }]);
});
