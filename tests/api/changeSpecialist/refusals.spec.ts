import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

const SAID = { piecesAtOnce: 2, hoursPerPiece: 6 };
const path = (id: string) => `/v1/incidents/${incident.id}/specialists/${id}`;

test("another network's specialist answers 404 as one that never was", async () => {
  const other = await server.network();
  const foreign = await other.incident();
  const answers = [await network.patch(path(foreign.specialist('SP1')), SAID, { 'if-match': '"1"' }).expect(404), await network.patch(path('0198b7a0-0000-7000-8000-00000000dead'), SAID, { 'if-match': '"1"' }).expect(404)];
  expect(answers.map(({ body }) => [body.code, body.detail])).toEqual([['not_found', answers[1]!.body.detail], ['not_found', answers[1]!.body.detail]]);
  expect((await other.get(`/v1/incidents/${foreign.id}/layout`).expect(200)).body.specialists[0]).toMatchObject({ piecesAtOnce: null, version: 1 });
});

test('a version that is not the present one answers 412 with the present one, and none 428', async () => {
  expect((await network.patch(path(incident.specialist('SP1')), SAID, { 'if-match': '"7"' }).expect(412)).body).toMatchObject({ code: 'version_stale', currentEtag: '"1"' });
  await network.patch(path(incident.specialist('SP1')), SAID).expect(428);
});

test('nothing of a closed incident is changed', async () => {
  const closed = await network.incident();
  await network.patch(`/v1/incidents/${closed.id}`, { state: 'closed' }, { 'if-match': '"1"' }).expect(200);
  expect((await network.patch(`/v1/incidents/${closed.id}/specialists/${closed.specialist('SP1')}`, SAID, { 'if-match': '"1"' }).expect(409)).body.code).toBe('incident_closed');
});
