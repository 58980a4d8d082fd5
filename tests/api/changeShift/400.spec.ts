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

describe('changeShift answers 400', () => {
  test('an end before the start is refused with its pointer, and the shift stays', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const shift = await firstShift(network, incident.id);
    const { body } = await network.patch(`/v1/incidents/${incident.id}/shifts/${shift.id}`, { endsAt: '2026-05-09T06:59:59Z' }, { 'if-match': '"1"' }).expect(400);
    expect(body.errors).toMatchObject([{ pointer: '#/endsAt' }]);
    expect(await firstShift(network, incident.id)).toEqual(shift);
  });
});
