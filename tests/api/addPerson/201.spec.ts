import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('addPerson answers 201', () => {
  test('somebody joins with skills, restrictions and shifts', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const person = { siteId: incident.site(), code: 'P9', displayName: 'Tester nine', skills: ['colour-testing'], restrictions: ['no-lifting'], shifts: [{ startsAt: '2026-05-09T10:00:00Z', endsAt: '2026-05-09T18:00:00Z' }] };
    const added = await network.post(`/v1/incidents/${incident.id}/people`, person).expect(201);
    const layout = await network.get(`/v1/incidents/${incident.id}/layout`);
    expect(layout.body.people.find((entry: { code: string }) => entry.code === 'P9')).toEqual(added.body);
    expect(added.body).toMatchObject({ skills: ['colour-testing'], restrictions: ['no-lifting'], shifts: [{ endsAt: '2026-05-09T18:00:00.000Z', version: 1 }] });
  });
});
