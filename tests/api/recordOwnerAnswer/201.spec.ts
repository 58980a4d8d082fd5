import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { family, thingOf } from '../support/families.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

test('a yes becomes the consent that was asked for, with its limit, and the thing is triaged anew', async () => {
  const household = await family(network, incident);
  const item = await thingOf(network, incident, household);
  const { body: asked } = await network.post(`/v1/items/${item.id}/questions`, { kind: 'photograph' }).expect(201);
  const { body } = await network.post(`/v1/owner-questions/${asked.id}/answers`, { answer: 'no', manner: 'spoken', note: 'said at the desk' }).expect(201);
  expect(body).toMatchObject({ state: 'answered', answer: 'no', answeredBy: 'person' });
  const { body: read } = await network.get(`/v1/households/${household.id}`).expect(200);
  expect(read.consents).toMatchObject([{ id: body.consentId, itemId: item.id, scope: 'photograph', given: false, manner: 'spoken', note: 'said at the desk', limit: null }]);
});

test('the same answer again is the same; another one is refused, and so is one that the question does not take', async () => {
  const household = await family(network, incident);
  const item = await thingOf(network, incident, household);
  const { body: asked } = await network.post(`/v1/items/${item.id}/questions`, { kind: 'photograph', answers: ['yes', 'no'] }).expect(201);
  const answer = (given: string) => network.post(`/v1/owner-questions/${asked.id}/answers`, { answer: given, manner: 'spoken' });
  expect((await answer('call-me').expect(422)).body.errors[0].code).toBe('answer_not_allowed');
  await answer('yes').expect(201);
  await answer('yes').expect(201);
  expect((await answer('no').expect(409)).body.code).toBe('already_exists');
  expect((await network.get(`/v1/households/${household.id}`)).body.consents).toHaveLength(1);
});
