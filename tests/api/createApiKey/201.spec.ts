import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

const inDays = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString();

describe('createApiKey answers 201', () => {
  test('the key works with the scopes it was given and no others', async () => {
    const network = await server.network();
    const made = await network.post('/v1/keys', { label: 'Tablet', scopes: ['incident:read'], expiresAt: inDays(30) }).expect(201);
    expect(made.body).toMatchObject({ label: 'Tablet', scopes: ['incident:read'], state: 'active', limitedToIncidentId: null, replacesId: null, revokedAt: null });
    expect(made.body.secret).toMatch(/^wk_[0-9a-z]{8}_[A-Za-z0-9_-]{43}$/);
    expect(made.body.secret.split('_')[1]).toBe(made.body.prefix);
    const tablet = network.as(made.body.secret);
    await tablet.get('/v1/incidents').expect(200);
    await tablet.get('/v1/keys').expect(403);
  });

  test('nothing in the database can be used as the key: neither its row nor the stored answer', async () => {
    const network = await server.network();
    const made = await network.post('/v1/keys', { label: 'Tablet', scopes: ['incident:read'], expiresAt: inDays(30) }).expect(201);
    const random = made.body.secret.slice(12);
    const { rows: keys } = await server.admin.query<{ text: string }>('select k::text as text from api_key k where id = $1', [made.body.id]);
    const { rows: answers } = await server.admin.query<{ text: string }>('select r::text as text from idempotency_record r where network_id = $1', [network.networkId]);
    expect(keys).toHaveLength(1);
    expect(answers).toHaveLength(1);
    for (const row of [...keys, ...answers]) expect(row.text).not.toContain(random);
  });

  test('sent again with its key it makes no second one and does not show the first again', async () => {
    const network = await server.network();
    const headers = { 'idempotency-key': '"7d0e2b0a-2f3c-4b57-9a38-3a7a1a0d9c13"' };
    const body = { label: 'Tablet', scopes: ['incident:read'], expiresAt: inDays(30) };
    const first = await network.post('/v1/keys', body, headers).expect(201);
    const again = await network.post('/v1/keys', body, headers).expect(201);
    expect(again.headers['idempotency-replayed']).toBe('true');
    expect(again.body).toEqual({ ...first.body, secret: null });
    const { rows } = await server.admin.query("select count(*)::int as n from api_key where network_id = $1 and label = 'Tablet'", [network.networkId]);
    expect(rows).toEqual([{ n: 1 }]);
  });

  test('a limited manager makes keys with the same limit, whether it says so or not', async () => {
    const network = await server.network();
    const [one, two] = [await network.incident(), await network.incident()];
    const limited = network.as(await network.newKey({ incidentId: one.id }));
    const made = await limited.post('/v1/keys', { label: 'Tablet', scopes: ['incident:read'], expiresAt: inDays(30) }).expect(201);
    expect(made.body.limitedToIncidentId).toBe(one.id);
    const tablet = network.as(made.body.secret);
    await tablet.get(`/v1/incidents/${one.id}`).expect(200);
    await tablet.get(`/v1/incidents/${two.id}`).expect(404);
  });
});
