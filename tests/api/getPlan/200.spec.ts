import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, takeInTestHousehold, takeInTestItem, type TestServer } from '#testing';
import { SOUND_COTTON } from '../support/workbench.js';
import { planNow, request, withBenches } from '../../unit/plan-problem/support/runs.js';

let server: TestServer;
beforeAll(async () => { server = await startTestServer(); });
afterAll(() => server.close());

test('what is short stands in it by name, with the weight that it costs', async () => {
  const network = await server.network();
  // Nobody can test colours, and the freezer holds one quilt.
  const incident = await network.incident((document) => {
    withBenches(document);
    for (const person of document.people ?? []) person.skills = person.skills?.filter((skill) => skill !== 'colour-testing');
    document.sites[0]!.freezers![0]!.volumeL = 40;
  });
  const household = await takeInTestHousehold(network, incident);
  for (let i = 0; i < 3; i += 1) {
    const { id } = await takeInTestItem(network, incident, household);
    await network.post(`/v1/items/${id}/assessments`, { personId: incident.person('P1'), ...SOUND_COTTON }).expect(201);
  }
  await planNow(server, network, incident);
  const { body } = await network.get(`/v1/incidents/${incident.id}/plan`).expect(200);
  expect(body).toMatchObject({ number: 1, plannedItems: 1, unplannedItems: 2, inTime: { items: 1 }, inTimeBy: [{ disposition: 'hold-frozen', items: 1 }], notInTime: { items: 2 } });
  expect(body.blocked).toMatchObject([{ kind: 'crew', what: 'colour-testing', items: 2, weight: body.notInTime.weight, text: 'nobody free with the skill “colour testing”' }]);
  expect(body.tight).toEqual(expect.arrayContaining([expect.objectContaining({ kind: 'freezer', what: 'Chest freezer 1', siteName: 'Weir Lane hall', inWords: 'volume of freezer Chest freezer 1' })]));
  expect(body.tight[0].usedPct).toBeGreaterThanOrEqual(80);
  expect(body.standing).toMatch(/nobody is promised/);
  const { body: spanish } = await network.get(`/v1/incidents/${incident.id}/plan`, { 'accept-language': 'es' }).expect(200);
  expect(spanish.blocked[0].text).toBe('no hay nadie libre con la habilidad «pruebas de color»');
  expect(spanish.tight.find(({ kind }: { kind: string }) => kind === 'freezer').inWords).toBe('volumen del congelador Chest freezer 1');
  // A revision of an earlier version holds an English sentence beside the code: the code is what is read.
  await server.admin.query(`update plan_revision set summary = jsonb_set(summary, '{blocked,0,text}', '"nobody free with the skill \\"colour-testing\\""') where incident_id = $1`, [incident.id]);
  expect((await network.get(`/v1/incidents/${incident.id}/plan`, { 'accept-language': 'es' }).expect(200)).body).toEqual(spanish);
});

test('a run that waits is named, as its plan will replace this one', async () => {
  const network = await server.network();
  const incident = await network.incident();
  await planNow(server, network, incident);
  const { runId } = await request(server, network, incident);
  expect((await network.get(`/v1/incidents/${incident.id}/plan`).expect(200)).body.openRunId).toBe(runId);
});
