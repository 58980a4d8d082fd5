import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { incidentDocument, startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

type Fault = { pointer: string; code: string };

async function pointersOf(network: TestNetwork, document: object): Promise<string[]> {
  const { body } = await network.post('/v1/incidents', document).expect(400);
  expect(body.code).toBe('validation_failed');
  return (body.errors as Fault[]).map((error) => error.pointer).sort();
}

async function expectNothingRegistered(network: TestNetwork): Promise<void> {
  const { rows } = await server.admin.query('select count(*)::int as n from incident where network_id = $1', [network.networkId]);
  expect(rows).toEqual([{ n: 0 }]);
}

describe('registerIncident answers 400', () => {
  test('faults of form and of reference are answered together, each with its pointer, and nothing is registered', async () => {
    const network = await server.network();
    const document = structuredClone(incidentDocument()) as unknown as { sites: Record<string, never>[]; people: Record<string, unknown>[] };
    const site = document.sites[0] as unknown as Record<string, Record<string, unknown>[]>;
    Object.assign(site['stations']?.[0] ?? {}, { steps: ['assess', 'ironing'] });
    Object.assign(site['stations']?.[1] ?? {}, { openings: [{ opensAt: '2026-05-09T20:00:00Z', closesAt: '2026-05-09T07:00:00Z' }] });
    Object.assign(site['stations']?.[2] ?? {}, { code: 'TEST' });
    Object.assign(document.people[0] ?? {}, { site: 'BARN' });
    Object.assign(document.people[1] ?? {}, { skills: ['juggling'] });
    Object.assign(document.people[2] ?? {}, { shifts: [{ startsAt: '2026-05-09T12:00:00Z', endsAt: '2026-05-09T08:00:00Z' }] });
    expect(await pointersOf(network, document)).toEqual([
      '#/people/0/site', '#/people/1/skills/0', '#/people/2/shifts/0/endsAt',
      '#/sites/0/stations/0/steps/1', '#/sites/0/stations/1/openings/0/closesAt', '#/sites/0/stations/2/code',
    ]);
    await expectNothingRegistered(network);
  });

  test('a station in a zone that its site does not name is refused', async () => {
    const network = await server.network();
    const document = incidentDocument();
    if (document.sites[0]) document.sites[0].zones = ['dirty', 'clean', 'quarantine'];
    expect(await pointersOf(network, document)).toEqual(['#/sites/0/stations/3/zone']);
  });

  test('the code of an automatic waiting area is kept for its zone', async () => {
    const network = await server.network();
    const document = incidentDocument();
    if (document.sites[0]) document.sites[0].holdingAreas = [{ code: 'HOLD-clean', name: 'Yard', zone: 'dirty' }];
    expect(await pointersOf(network, document)).toEqual(['#/sites/0/holdingAreas/0/code']);
  });

  test('outdoor humidity without temperature is refused', async () => {
    const network = await server.network();
    expect(await pointersOf(network, { ...incidentDocument(), outdoorAirTempC: null })).toEqual(['#/outdoorAirTempC']);
  });

  test('a year that no flood of ours can have is a fault of the document, not of the server', async () => {
    const network = await server.network();
    expect(await pointersOf(network, { ...incidentDocument(), floodAt: '0000-01-01T00:00:00Z' })).toEqual(['#/floodAt']);
  });

  test('a member that we do not know is refused, so that a typing error is not lost', async () => {
    const network = await server.network();
    const { body } = await network.post('/v1/incidents', { ...incidentDocument(), floodAd: '2026-05-08T18:00:00Z' }).expect(400);
    expect(body.errors[0]).toMatchObject({ code: 'unrecognized_keys' });
    await expectNothingRegistered(network);
  });

  test('without an Idempotency-Key nothing is registered', async () => {
    const network = await server.network();
    const { body } = await network.post('/v1/incidents', incidentDocument(), { 'idempotency-key': '' }).expect(400);
    expect(body.code).toMatch(/^idempotency_key_/);
    await expectNothingRegistered(network);
  });
});
