import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { planNow } from '../../unit/plan-problem/support/runs.js';

let server: TestServer;
let ours: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  ours = await server.network();
  incident = await ours.incident();
  await planNow(server, ours, incident);
});
afterAll(() => server.close());

const ROUTES = ['plan-load', 'plan-load/plot'];
const path = (query: string, route = 'plan-load', id = incident.id) => `/v1/incidents/${id}/${route}?${query}`;

test.each(ROUTES)("%s: another network's incident and one that never was answer the same 404", async (route) => {
  const theirs = await server.network();
  const query = `resource=crew&siteId=${incident.site()}`;
  const [strange, none] = [await theirs.get(path(query, route)).expect(404).expect('content-type', /application\/problem\+json/), await ours.get(path(query, route, newId())).expect(404)];
  expect(strange.body.detail).toBe(none.body.detail);
});

test.each(ROUTES)('%s: a site, room or step that the plan does not know answers 422, that of others word for word as none', async (route) => {
  const theirs = await (await server.network()).incident();
  const other = await ours.incident();
  const of = async (query: string) => {
    const { code, detail, errors } = (await ours.get(path(query, route)).expect(422).expect('content-type', /application\/problem\+json/)).body;
    return { code, detail, errors };
  };
  for (const query of [(id: string) => `resource=crew&siteId=${id}`, (id: string) => `resource=station&what=rinse&siteId=${id}`]) {
    const answers = [await of(query(theirs.site())), await of(query(other.site())), await of(query(newId()))];
    expect(new Set(answers.map((answer) => JSON.stringify(answer))).size).toBe(1);
    expect(answers[0]).toMatchObject({ code: 'reference_unknown', errors: [{ parameter: 'siteId' }] });
  }
  for (const [kind, id] of [['drying-area', theirs.room('ROOM')], ['room-air', other.room('ROOM')], ['freezer', theirs.freezer('F1')], ['service', other.person('P1')]]) {
    expect(await of(`resource=${kind}&what=${id}`)).toEqual(await of(`resource=${kind}&what=${newId()}`));
  }
  expect(await of(`resource=station&what=juggle&siteId=${incident.site()}`)).toMatchObject({ code: 'reference_unknown', errors: [{ parameter: 'what' }] });
});

test.each(['', 'resource=water', 'resource=crew', 'resource=station&what=rinse', 'resource=freezer', `resource=freezer&what=${'x'.repeat(61)}`, 'resource=freezer&what=x&hours=121', 'resource=freezer&what=x&hours=0', 'resource=freezer&what=x&from=soon', 'resource=freezer&what=x&siteId=S1'])('a question that cannot be answered is refused with what is missing: %s', async (query) => {
  const { body } = await ours.get(path(query)).expect(400);
  expect(body).toMatchObject({ code: 'validation_failed', errors: expect.arrayContaining([expect.objectContaining({ parameter: expect.any(String) })]) });
});

test('before the first plan, and where what a plan was made from is not kept, 404 says what to do', async () => {
  const empty = await ours.incident();
  expect((await ours.get(path(`resource=crew&siteId=${empty.site()}`, 'plan-load', empty.id)).expect(404)).body.detail).toMatch(/plan/);
  await server.admin.query('delete from plan_ground where incident_id = $1', [incident.id]);
  expect((await ours.get(path(`resource=crew&siteId=${incident.site()}`)).expect(404)).body.detail).toMatch(/Ask for a new plan first/);
});
