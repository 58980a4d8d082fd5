/** A value is what really adding it saves: each is asked for, then added through the API, and the live plan made anew. */
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { type IncidentOnTest, startTestServer, type TestNetwork, type TestServer } from '#testing';
import { planNow } from '../../unit/plan-problem/support/runs.js';
import { ask, reckon, shortOfFreezer } from '../support/what-ifs.js';

let server: TestServer;
beforeAll(async () => { server = await startTestServer(); });
afterAll(() => server.close());

const shifts = [{ startsAt: '2026-05-09T08:00:00Z', endsAt: '2026-05-09T16:00:00Z' }];

interface Addition {
  change(incident: IncidentOnTest): object;
  really(network: TestNetwork, incident: IncidentOnTest): Promise<unknown>;
}

const ADDITIONS: [string, Addition][] = [
  ['a freezer of 40 L', {
    change: (incident) => ({ kind: 'freezer', siteId: incident.site(), volumeL: 40 }),
    really: (network, incident) => network.post(`/v1/incidents/${incident.id}/freezers`, { siteId: incident.site(), code: 'F2', name: 'Lent freezer', volumeL: 40, availableFrom: '2026-05-09T06:00:00Z' }).expect(201),
  }],
  ['a colour tester for a shift', {
    change: (incident) => ({ kind: 'people', siteId: incident.site(), count: 1, skills: ['colour-testing'], shifts }),
    really: (network, incident) => network.post(`/v1/incidents/${incident.id}/people`, { siteId: incident.site(), code: 'P8', displayName: 'Tester eight', skills: ['colour-testing'], shifts }).expect(201),
  }],
  ['20 m2 to dry on, which nothing waits for', {
    change: (incident) => ({ kind: 'drying-area', dryingRoomId: incident.room('ROOM'), areaM2: 20 }),
    really: (network, incident) => network.post(`/v1/incidents/${incident.id}/drying-places`, { dryingRoomId: incident.room('ROOM'), code: 'T1', name: 'Table', arrangement: 'table', areaM2: 20 }).expect(201),
  }],
];

test.each(ADDITIONS)('%s', async (_, { change, really }) => {
  const { network, incident } = await shortOfFreezer(server);
  const plan = async () => (await network.get(`/v1/incidents/${incident.id}/plan`).expect(200)).body;
  const id = await ask(network, incident, { changes: [change(incident)] });
  await reckon(server, network, id);
  const [value] = (await network.get(`/v1/plan-what-ifs/${id}`).expect(200)).body.result.values;
  const before = await plan();
  await really(network, incident);
  await planNow(server, network, incident);
  const after = await plan();
  expect(after.number).toBe(before.number + 1);
  const saved = before.notInTime.weight - after.notInTime.weight;
  expect({ least: saved >= value.weightSaved.least, greatest: saved <= value.weightSaved.greatest, saved }).toEqual({ least: true, greatest: true, saved });
  process.stdout.write(`really: ${value.inWords}: told ${value.weightSaved.least} to ${value.weightSaved.greatest}, saved ${saved}\n`);
});
