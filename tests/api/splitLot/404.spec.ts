import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { reserveTestTags } from '#testing';
import { Workbench } from '../support/workbench.js';
import { printsOf, split } from './split.support.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test.each([[0], [-3], [1.5], ['80']])('%p pieces are no count', async (count) => {
  const lot = await printsOf(bench, 3);
  expect((await split(bench, lot.id, count as number)).body).toMatchObject({ status: 400, errors: [{ pointer: '#/count' }] });
});

test('a lot of another incident is not found under this one', async () => {
  const lot = await printsOf(bench, 3);
  const other = await bench.network.incident((document) => { document.name = 'Second water'; });
  const [tag] = await reserveTestTags(bench.network, other, 1);
  for (const [incidentId, itemId] of [[other.id, lot.id], [bench.incident.id, other.id], [bench.incident.site(), lot.id]]) {
    expect((await bench.network.post(`/v1/incidents/${incidentId}/items/${itemId}/splits`, { count: 1, tag }, { 'if-match': `"${lot.version}"` })).status).toBe(404);
  }
});

test("another network's lot is not found", async () => {
  const lot = await printsOf(bench, 3);
  const strangers = await bench.server.network();
  const [tag] = await reserveTestTags(strangers, await strangers.incident(), 1);
  expect((await strangers.post(`/v1/incidents/${bench.incident.id}/items/${lot.id}/splits`, { count: 1, tag }, { 'if-match': `"${lot.version}"` })).body.code).toBe('not_found');
});
