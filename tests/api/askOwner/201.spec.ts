import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { family, openQuestions, thingOf } from '../support/families.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

test('a person asks in words of both languages; they are sealed, and told back to who may read them', async () => {
  const household = await family(network, incident);
  const item = await thingOf(network, incident, household);
  const words = { en: 'Shall the frame stay with it?', es: '¿Se queda con su marco?' };
  const { body } = await network.post(`/v1/items/${item.id}/questions`, { kind: 'other', words, answers: ['yes', 'no'] }).expect(201);
  expect(body).toMatchObject({ itemId: item.id, householdId: household.id, kind: 'other', askedBy: 'person', state: 'open', words, answers: ['yes', 'no'], ifNoneAnswers: 'hold', deadlineAt: '2026-05-11T07:00:00.000Z' });
  const { rows } = await server.admin.query("select t::text as row from owner_question t where id = $1", [body.id]);
  expect(rows[0].row).not.toContain('frame');
});

test('the same question is open once: the second asking is refused and names why', async () => {
  const household = await family(network, incident);
  const item = await thingOf(network, incident, household);
  await network.post(`/v1/items/${item.id}/questions`, { kind: 'photograph' }).expect(201);
  const again = await network.post(`/v1/items/${item.id}/questions`, { kind: 'photograph' }).expect(409);
  expect(again.body.code).toBe('already_exists');
  expect((await openQuestions(network, incident, household.id)).filter(({ kind }) => kind === 'photograph')).toHaveLength(1);
});
