import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { startTestServer, takeInTestHousehold, takeInTestItem, type TestServer } from '#testing';
import { shortOfFreezer, type ShortIncident } from '../support/what-ifs.js';

let server: TestServer;
let short: ShortIncident;
beforeAll(async () => {
  server = await startTestServer();
  short = await shortOfFreezer(server);
});
afterAll(() => server.close());

const path = (query = '') => `/v1/items/${short.quilts[0]}/plan-explanation${query}`;

test('an item of another network answers as one that never was', async () => {
  const theirs = await server.network();
  const details = [(await theirs.get(path()).expect(404)).body.detail, (await theirs.get(`/v1/items/${newId()}/plan-explanation`).expect(404)).body.detail];
  expect(new Set(details).size).toBe(1);
});

test('another item that is not of the incident answers 422, one of another network word for word as none', async () => {
  const other = await shortOfFreezer(server);
  const answers = await Promise.all([other.quilts[0], newId()].map(async (id) => (await short.network.get(path(`?before=${id}`)).expect(422)).body));
  expect(answers.map(({ code, errors }) => [code, errors[0].parameter])).toEqual([['reference_unknown', 'before'], ['reference_unknown', 'before']]);
  expect(answers[0].detail).toBe(answers[1].detail);
});

test('an item is not compared with itself: 400', async () => {
  expect((await short.network.get(path(`?before=${short.quilts[0]}`)).expect(400)).body).toMatchObject({ code: 'validation_failed', errors: [{ parameter: 'before', code: 'same_item' }] });
});

test('before the first plan, and where what a plan was made from is not kept, 404 says what to do', async () => {
  const network = await server.network();
  const incident = await network.incident();
  const { id } = await takeInTestItem(network, incident, await takeInTestHousehold(network, incident));
  expect((await network.get(`/v1/items/${id}/plan-explanation`).expect(404)).body.detail).toMatch(/plan/);
  await server.admin.query('delete from plan_ground where incident_id = $1', [short.incident.id]);
  expect((await short.network.get(path()).expect(404)).body.detail).toMatch(/Ask for a new plan first/);
});
