import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

const inDays = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString();

const HOUR_MS = 3_600_000;

describe('rotateApiKey answers 201', () => {
  test('the successor has the same powers, and the old key works on for 24 hours unless told otherwise', async () => {
    const network = await server.network();
    const old = await network.post('/v1/keys', { label: 'Tablet', scopes: ['incident:read', 'item:read'], expiresAt: inDays(30) }).expect(201);
    const next = await network.post(`/v1/keys/${old.body.id}/rotate`).expect(201);
    expect(next.body).toMatchObject({ label: 'Tablet', scopes: ['incident:read', 'item:read'], replacesId: old.body.id, state: 'active' });
    expect(next.body.secret).not.toBe(old.body.secret);
    await network.as(next.body.secret).get('/v1/incidents').expect(200);
    await network.as(old.body.secret).get('/v1/incidents').expect(200);
    const { body } = await network.get('/v1/keys').expect(200);
    const ends = Date.parse(body.items.find((key: { id: string }) => key.id === old.body.id).expiresAt);
    expect(Math.abs(ends - Date.now() - 24 * HOUR_MS)).toBeLessThan(60_000);
    expect(Math.abs(Date.parse(next.body.expiresAt) - Date.now() - 720 * HOUR_MS)).toBeLessThan(60_000);
  });

  test('without overlap the old key ends at once', async () => {
    const network = await server.network();
    const old = await network.post('/v1/keys', { label: 'Tablet', scopes: ['incident:read'], expiresAt: inDays(30) }).expect(201);
    const next = await network.post(`/v1/keys/${old.body.id}/rotate`, { overlapHours: 0 }).expect(201);
    await network.as(old.body.secret).get('/v1/incidents').expect(401);
    await network.as(next.body.secret).get('/v1/incidents').expect(200);
  });

  test('an overlap never lengthens the life of the old key', async () => {
    const network = await server.network();
    const expiresAt = inDays(1 / 24);
    const old = await network.post('/v1/keys', { label: 'Tablet', scopes: ['incident:read'], expiresAt }).expect(201);
    await network.post(`/v1/keys/${old.body.id}/rotate`, { overlapHours: 720 }).expect(201);
    const { body } = await network.get('/v1/keys').expect(200);
    expect(body.items.find((key: { id: string }) => key.id === old.body.id).expiresAt).toBe(expiresAt);
  });
});
