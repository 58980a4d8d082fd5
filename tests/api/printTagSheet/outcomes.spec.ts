import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { type IncidentOnTest, networkDigest, startTestServer, type TestNetwork, type TestServer } from '#testing';
import { pageSizesPt } from '../../unit/documents/pictures.support.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

const ROLL = { page: { widthMm: 80, heightMm: 40 }, marginLeftMm: 0, marginTopMm: 0, columns: 1, rows: 1, pitchXMm: 80, pitchYMm: 40, label: { widthMm: 80, heightMm: 40 }, cornerMm: 0 };

test('200: on measures of one’s own, and nothing is stored', async () => {
  const block = (await network.post(`/v1/incidents/${incident.id}/tag-blocks`, { kind: 'container', count: 3, reservedFor: 'Packing' }).expect(201)).body;
  const before = await networkDigest(server.admin, network.networkId);
  const { body } = await network.post(`/v1/tag-blocks/${block.id}/sheet`, { template: ROLL, cutLines: true }).expect(200);
  expect(pageSizesPt(body)).toHaveLength(3);
  expect((pageSizesPt(body)[0]?.width ?? 0) / 72 * 25.4).toBeCloseTo(80, 2);
  expect(await networkDigest(server.admin, network.networkId)).toEqual(before);
});

test('422: measures that do not fit are refused with what to change', async () => {
  const block = (await network.post(`/v1/incidents/${incident.id}/tag-blocks`, { kind: 'item', count: 1, reservedFor: 'Packing' }).expect(201)).body;
  const { body } = await network.post(`/v1/tag-blocks/${block.id}/sheet`, { template: { ...ROLL, marginLeftMm: 3 } }).expect(422);
  expect(body).toMatchObject({ code: 'template_unfit', detail: expect.stringContaining('the page is 80 mm wide') });
});

test('404: a block of another network', async () => {
  const other = await server.network();
  const theirs = await other.incident();
  const block = (await other.post(`/v1/incidents/${theirs.id}/tag-blocks`, { kind: 'item', count: 1, reservedFor: 'Theirs' }).expect(201)).body;
  await network.post(`/v1/tag-blocks/${block.id}/sheet`, { template: ROLL }).expect(404);
});
