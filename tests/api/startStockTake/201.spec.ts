import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { StockTaking } from '../support/stock-takes.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let taking: StockTaking;
beforeAll(async () => {
  bench = await Workbench.open();
  taking = new StockTaking(bench);
});
afterAll(() => bench.close());

test('what is on record at a site, in its places and in the boxes there, is expected; what has left or is missing is not', async () => {
  const [, boxed, gone, lost] = (await taking.shirts(4)).map(({ id }) => ({ id })) as [object, { id: string }, { id: string }, { id: string }];
  const [tag] = (await bench.network.post(`/v1/incidents/${bench.incident.id}/tag-blocks`, { kind: 'container', count: 1, reservedFor: 'tests' }).expect(201)).body.tags as string[];
  const box = (await bench.network.post(`/v1/incidents/${bench.incident.id}/containers`, { siteId: bench.incident.site(), tag, kind: 'box', to: bench.holding('clean') }).expect(201)).body;
  await bench.pass(boxed.id, 'moved', { kind: 'container', id: box.id });
  await bench.server.admin.query(`update item set stage = 'handed-back' where id = $1`, [gone.id]);
  await bench.network.post(`/v1/items/${lost.id}/missing-reports`, { personId: taking.lead }).expect(201);
  const { body } = await taking.start({ siteId: bench.incident.site() }).expect(201);
  expect(body).toMatchObject({ siteId: bench.incident.site(), state: 'open', startedBy: taking.lead, expected: 2, seen: 0, inPlace: 0, missing: 2, misplaced: 0, foreign: 0, openDifferences: 2, resolutions: [] });
  expect((await taking.start({ places: [bench.holding('clean')] }).expect(201)).body).toMatchObject({ expected: 1, places: [bench.holding('clean')] });
  expect((await taking.start({ places: [{ kind: 'container', id: box.id }, bench.holding('clean'), bench.holding('clean')] }).expect(201)).body.expected).toBe(1);
});
