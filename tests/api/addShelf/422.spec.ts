import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('addShelf answers 422', () => {
  test('a site of another incident is unknown here, and so is a zone that the site does not have', async () => {
    const network = await server.network();
    const [incident, other] = [await network.incident((document) => void (document.sites[0]!.zones = ['dirty', 'clean', 'quarantine', 'cold'])), await network.incident()];
    const body = { siteId: incident.site(), code: 'A', name: 'Any', zone: 'dirty' };
    const foreign = await network.post(`/v1/incidents/${incident.id}/shelves`, { ...body, siteId: other.site() }).expect(422);
    expect(foreign.body).toMatchObject({ code: 'reference_unknown', errors: [{ pointer: '#/siteId' }] });
    const small = await network.incident((document) => {
      document.sites.push({ code: 'YARD', name: 'Yard', zones: ['dirty'] });
    });
    const zone = await network.post(`/v1/incidents/${small.id}/shelves`, { ...body, siteId: small.site('YARD'), zone: 'clean' }).expect(422);
    expect(zone.body).toMatchObject({ code: 'reference_unknown', errors: [{ pointer: '#/zone' }] });
  });
});
