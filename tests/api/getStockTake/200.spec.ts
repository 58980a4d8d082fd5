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

test('says how much was seen, and what differs by kind', async () => {
  const [a, b, c] = await taking.shirts(3);
  const id = await taking.begin([bench.holding('dirty')]);
  await taking.send(id, [taking.seen(a!.tag, bench.holding('dirty')), taking.seen(b!.tag, bench.holding('clean'))]).expect(200);
  expect(await taking.read(id)).toMatchObject({ expected: 3, seen: 2, inPlace: 1, misplaced: 1, missing: 1, foreign: 0, openDifferences: 2 });
  expect((await taking.differences(id)).map(({ kind, itemId }) => [kind, itemId])).toEqual([['misplaced', b!.id], ['missing', c!.id]]);
});

test('what ordinary events move meanwhile is no difference, seen before or not; a box takes its things along', async () => {
  const [seen, unseen, boxed] = await taking.shirts(3);
  const [tag] = (await bench.network.post(`/v1/incidents/${bench.incident.id}/tag-blocks`, { kind: 'container', count: 1, reservedFor: 'tests' }).expect(201)).body.tags as string[];
  const box = (await bench.network.post(`/v1/incidents/${bench.incident.id}/containers`, { siteId: bench.incident.site(), tag, kind: 'box', to: bench.holding('quarantine') }).expect(201)).body;
  for (const item of [seen, unseen]) await bench.pass(item!.id, 'moved', bench.holding('quarantine'));
  await bench.pass(boxed!.id, 'moved', { kind: 'container', id: box.id });
  const id = await taking.begin([bench.holding('quarantine')]);
  await taking.send(id, [taking.seen(seen!.tag, bench.holding('quarantine'))]).expect(200);
  for (const item of [seen, unseen]) await bench.pass(item!.id, 'moved', bench.holding('cold'));
  await bench.network.post(`/v1/containers/${box.id}/custody-events`, { kind: 'moved', from: bench.holding('quarantine'), to: bench.holding('cold'), personId: taking.lead }).expect(201);
  expect(await taking.read(id)).toMatchObject({ expected: 3, movedMeanwhile: 3, misplaced: 0, missing: 0, openDifferences: 0 });
});
