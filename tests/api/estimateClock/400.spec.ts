import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

const refused = async (body: object) => [...new Set<string>((await network.post('/v1/estimates/clock', body).expect(400)).body.errors.map(({ pointer }: { pointer: string }) => pointer))].sort();

test('numbers that cannot be are named by their place', async () => {
  const body = { start: 'yesterday', material: 'felt', startDose: -1, readings: [{ measuredAt: '2026-05-08T18:00:00Z', airTempC: 293, relativeHumidityPct: 120 }], stays: [{ from: '2026-05-08T18:00:00Z', placement: 'attic' }], damage: [{ clock: 'cheese' }] };
  expect(await refused(body)).toEqual(['#/damage/0/clock', '#/material', '#/readings/0/airTempC', '#/readings/0/relativeHumidityPct', '#/start', '#/startDose', '#/stays/0/placement']);
});

test('a history that ends before it starts, by its own end or by now, is refused where it can be mended', async () => {
  expect(await refused({ start: '2026-05-08T18:00:00Z', until: '2026-05-08T17:00:00Z' })).toEqual(['#/until']);
  expect(await refused({ start: '2026-05-09T08:00:00Z' })).toEqual(['#/start']);
});

test('a history of more than 400 days is refused with the way to send it', async () => {
  const { body } = await network.post('/v1/estimates/clock', { start: '2025-01-01T00:00:00Z', until: '2026-05-08T17:00:00Z' }).expect(400);
  expect(body.detail).toContain('startDose');
});
