import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

async function firstShift(network: TestNetwork, incidentId: string): Promise<{ id: string; startsAt: string; endsAt: string }> {
  const { body } = await network.get(`/v1/incidents/${incidentId}/layout`).expect(200);
  return body.people[0].shifts[0];
}

describe('changeShift answers 200', () => {
  test('somebody goes home at noon', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const shift = await firstShift(network, incident.id);
    const changed = await network.patch(`/v1/incidents/${incident.id}/shifts/${shift.id}`, { endsAt: '2026-05-09T12:00:00Z' }, { 'if-match': '"1"' }).expect(200);
    expect(changed.body).toEqual({ id: shift.id, startsAt: shift.startsAt, endsAt: '2026-05-09T12:00:00.000Z', version: 2 });
  });

  test('an end at the start says that nobody came', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const shift = await firstShift(network, incident.id);
    await network.patch(`/v1/incidents/${incident.id}/shifts/${shift.id}`, { endsAt: shift.startsAt }, { 'if-match': '"1"' }).expect(200);
  });
});
