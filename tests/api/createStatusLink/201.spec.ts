import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { family, openPage } from '../support/families.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

test('tells path and pick-up code once: 32 random bytes and a code; a repeat of the request tells neither', async () => {
  const household = await family(network, incident);
  const key = { 'idempotency-key': crypto.randomUUID() };
  const first = await network.post(`/v1/households/${household.id}/status-links`, { forWhom: 'the daughter' }, key).expect(201);
  expect(first.body).toMatchObject({ householdId: household.id, forWhom: 'the daughter', expiresAt: '2026-05-23T07:00:00.000Z', revokedAt: null });
  expect(first.body.path).toMatch(/^\/s\/[A-Za-z0-9_-]{64}$/);
  expect(first.body.pickUpCode).toMatch(/^[2-9A-Z]{4}-[2-9A-Z]{4}$/);
  const again = await network.post(`/v1/households/${household.id}/status-links`, { forWhom: 'the daughter' }, key).expect(201);
  expect(again.body).toMatchObject({ id: first.body.id, path: null, pickUpCode: null });
  const { rows } = await server.admin.query('select secret_sha256, for_whom, t::text as row from status_link t where id = $1', [first.body.id]);
  expect(rows[0].secret_sha256).toHaveLength(32);
  expect(rows[0].row).not.toContain('daughter');
  await openPage(server, first.body.path).expect(200);
});
