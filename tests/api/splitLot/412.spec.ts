import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { reserveTestTags } from '#testing';
import { Workbench } from '../support/workbench.js';
import { changingNothing, printsOf, split } from './split.support.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('a lot that was changed since it was read is counted again first; without a version nothing is split', async () => {
  const lot = await printsOf(bench, 10);
  expect(await changingNothing(bench, () => split(bench, lot.id, 4, {}, { 'if-match': '"1"' }))).toMatchObject({ status: 412, body: { code: 'version_stale', currentEtag: `"${lot.version}"` } });
  expect(await changingNothing(bench, () => split(bench, lot.id, 4, {}, { 'if-match': `W/"${lot.version}"` }))).toMatchObject({ status: 412 });
  const [tag] = await reserveTestTags(bench.network, bench.incident, 1);
  await bench.network.post(`/v1/incidents/${bench.incident.id}/items/${lot.id}/splits`, { count: 4, tag }).expect(428);
});

test('of two people who split one lot at the same moment one is told to look again', async () => {
  const lot = await printsOf(bench, 10);
  const tags = await reserveTestTags(bench.network, bench.incident, 2);
  const answers = await Promise.all(tags.map((tag) => bench.network.post(`/v1/incidents/${bench.incident.id}/items/${lot.id}/splits`, { count: 7, tag }, { 'if-match': `"${lot.version}"` })));
  expect(answers.map((answer) => answer.status).sort()).toEqual([201, 412]);
  expect((await bench.read(lot.id))['count']).toBe(3);
});
