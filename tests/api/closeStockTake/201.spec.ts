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

test('it stays open while a difference is, with the list; then it closes, and takes nothing more', async () => {
  const [shirt] = await taking.shirts(1);
  const id = await taking.begin([bench.holding('dirty')]);
  const refused = await taking.close(id).expect(409);
  expect(refused.body).toMatchObject({ code: 'stock_take_differs', open: 1, differences: [{ id: shirt!.id, kind: 'missing', tag: shirt!.tag }] });
  await taking.send(id, [taking.seen(shirt!.tag, bench.holding('dirty'))]).expect(200);
  expect((await taking.close(id).expect(201)).body).toMatchObject({ state: 'closed', closedBy: taking.lead, version: 2, openDifferences: 0 });
  for (const answer of [await taking.close(id), await taking.send(id, [taking.seen(shirt!.tag, bench.holding('dirty'))]), await taking.resolve(id, shirt!.id, 'recount')]) expect(answer.body.code).toBe('stock_take_closed');
});
