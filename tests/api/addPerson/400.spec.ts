import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('addPerson answers 400', () => {
  test('a shift that ends before it starts is refused, and nobody is added', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const person = { siteId: incident.site(), code: 'P9', displayName: 'Tester nine', shifts: [{ startsAt: '2026-05-09T18:00:00Z', endsAt: '2026-05-09T10:00:00Z' }] };
    const { body } = await network.post(`/v1/incidents/${incident.id}/people`, person).expect(400);
    expect(body.errors).toMatchObject([{ pointer: '#/shifts/0/endsAt' }]);
    expect((await network.get(`/v1/incidents/${incident.id}/layout`)).body.people).toHaveLength(4);
  });

  test('a name with a character that cannot be stored is refused', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const { body } = await network.post(`/v1/incidents/${incident.id}/people`, { siteId: incident.site(), code: 'P9', displayName: 'nul \u0000' }).expect(400);
    expect(body.errors).toMatchObject([{ pointer: '#/displayName' }]);
  });
});
