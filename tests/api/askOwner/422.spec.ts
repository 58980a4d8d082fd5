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

test.each([
  [{ kind: 'other' }, '#/words'],
  [{ kind: 'treat', amount: { minor: 100, currency: 'USD' } }, '#/amount'],
  [{ kind: 'photograph', deadlineAt: '2026-05-09T06:59:00Z' }, '#/deadlineAt'],
  [{ kind: 'photograph', deadlineAt: '2026-06-30T00:00:00Z' }, '#/deadlineAt'],
])('%j is refused at its member, and nothing is asked', async (body, pointer) => {
  const household = await family(network, incident);
  const item = await thingOf(network, incident, household);
  const before = await openQuestions(network, incident, household.id);
  const refused = await network.post(`/v1/items/${item.id}/questions`, body).expect(422);
  expect(refused.body.errors[0].pointer).toBe(pointer);
  expect(await openQuestions(network, incident, household.id)).toEqual(before);
});

test.each([[{ kind: 'refer', amount: { minor: 100, currency: 'ZZZ' } }], [{ kind: 'refer', amount: { minor: 0, currency: 'USD' } }], [{ kind: 'refer', amount: { minor: 1.5, currency: 'USD' } }], [{ kind: 'photograph', ifNoneAnswers: 'release' }], [{ kind: 'photograph', answers: [] }]])('%j is no question', async (body) => {
  const item = await thingOf(network, incident, await family(network, incident));
  await network.post(`/v1/items/${item.id}/questions`, body).expect(400);
});
