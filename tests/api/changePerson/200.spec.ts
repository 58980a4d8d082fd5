import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestNetwork, type TestServer } from '#testing';
import { waitingRuns } from '../support/plan-requests.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

interface Person {
  id: string;
  code: string;
  version: number;
}

async function people(network: TestNetwork, incidentId: string): Promise<Person[]> {
  return (await network.get(`/v1/incidents/${incidentId}/layout`).expect(200)).body.people;
}

describe('changePerson answers 200', () => {
  test('a skill that was learned and a day of fit stand in the layout, the rest stays, and the planner is told', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const before = (await people(network, incident.id)).find(({ code }) => code === 'P3');
    const changed = await network.patch(`/v1/incidents/${incident.id}/people/${before?.id}`, { skills: ['rinsing', 'mould-work'], respiratorFitUntil: '2027-04-30' }, { 'if-match': '"1"' }).expect(200);
    expect(changed.body).toEqual({ ...before, skills: ['rinsing', 'mould-work'], respiratorFitUntil: '2027-04-30', version: 2 });
    expect((await people(network, incident.id)).find(({ code }) => code === 'P3')).toEqual(changed.body);
    expect(await waitingRuns(server, incident.id)).toHaveLength(1);
  });

  test('a day of fit asks for a plan as well, null takes it away, and the day is that of the calendar wherever the server stands', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const path = `/v1/incidents/${incident.id}/people/${incident.person('P1')}`;
    const set = await network.patch(path, { respiratorFitUntil: '2026-12-31' }, { 'if-match': '"1"' }).expect(200);
    expect(set.body.respiratorFitUntil).toBe('2026-12-31');
    const { rows } = await server.admin.query('select respirator_fit_until::text as day from person where id = $1', [incident.person('P1')]);
    expect(rows).toEqual([{ day: '2026-12-31' }]);
    expect((await network.patch(path, { respiratorFitUntil: null }, { 'if-match': '"2"' }).expect(200)).body.respiratorFitUntil).toBeNull();
    expect(await waitingRuns(server, incident.id)).toEqual([{ reason: 'person P1 changed', bells: 1, delayed: true }]);
  });
});
