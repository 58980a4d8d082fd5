import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { benchIncident, referralList } from '../support/referrals.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

test("another network's incident answers 404 as one that never was, and its specialist names nothing here", async () => {
  const foreign = await benchIncident(server, 1);
  const network = await server.network();
  const incident = await network.incident();
  const answers = [foreign.incident.id, '0198b7a0-0000-7000-8000-00000000dead'].map((id) => network.get(`/v1/incidents/${id}/referral-list`).expect(404));
  const [theirs, none] = (await Promise.all(answers)).map(({ body }) => [body.code, body.detail]);
  expect(theirs).toEqual(none);
  expect((await referralList(network, incident, `?specialistId=${foreign.incident.specialist('SP1')}`)).items).toEqual([]);
});

test('a limit beyond what one answer holds answers 400', async () => {
  const network = await server.network();
  const incident = await network.incident();
  expect((await network.get(`/v1/incidents/${incident.id}/referral-list?limit=101`).expect(400)).body.code).toBe('validation_failed');
});
