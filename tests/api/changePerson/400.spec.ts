import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('changePerson refuses', () => {
  test('words that are none or stand twice, days that are none, and everything that is no member; nothing changes', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const path = `/v1/incidents/${incident.id}/people/${incident.person('P1')}`;
    const before = (await network.get(`/v1/incidents/${incident.id}/layout`)).body.people;
    const wrong: [object, string][] = [
      [{ skills: ['juggling'] }, '#/skills/0'], [{ skills: ['rinsing', 'rinsing'] }, '#/skills'], [{ restrictions: ['asthma'] }, '#/restrictions/0'], [{ respiratorFitUntil: '2027-02-30' }, '#/respiratorFitUntil'], [{ respiratorFitUntil: '0001-01-01' }, '#/respiratorFitUntil'],
    ];
    for (const [body, pointer] of wrong) expect((await network.patch(path, body, { 'if-match': '"1"' }).expect(400)).body.errors).toMatchObject([{ pointer }]);
    await network.patch(path, { diagnosis: 'asthma' }, { 'if-match': '"1"' }).expect(400);
    expect((await network.get(`/v1/incidents/${incident.id}/layout`)).body.people).toEqual(before);
  });

  test('a version that is stale, and a person of another network', async () => {
    const [network, strangers] = [await server.network(), await server.network()];
    const incident = await network.incident();
    const path = `/v1/incidents/${incident.id}/people/${incident.person('P1')}`;
    expect((await network.patch(path, { skills: [] }, { 'if-match': '"7"' }).expect(412)).body.currentEtag).toBe('"1"');
    await network.patch(path, { skills: [] }).expect(428);
    await strangers.patch(path, { skills: [] }, { 'if-match': '"1"' }).expect(404);
  });
});
