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

test.each([
  ['nothing to count', () => ({}), '#/siteId', 'command_refused'],
  ['a site and places at once', () => ({ siteId: bench.incident.site(), places: [bench.holding('clean')] }), '#/siteId', 'command_refused'],
  ['a site that is not there', () => ({ siteId: bench.incident.id }), '#/siteId', 'reference_unknown'],
  ['a place that is not there', () => ({ places: [bench.holding('clean'), { kind: 'shelf', id: bench.incident.id }] }), '#/places/1/id', 'reference_unknown'],
  ['a person instead of a place', () => ({ places: [{ kind: 'courier', id: taking.lead }] }), '#/places/0/kind', 'command_refused'],
  ['nobody of the incident', () => ({ places: [bench.holding('clean')], personId: bench.incident.id }), '#/personId', 'reference_unknown'],
])('%s: says what to mend and begins nothing', async (_what, body, pointer, code) => {
  const answer = await taking.start(body()).expect(422);
  expect(answer.body).toMatchObject({ code, errors: [{ pointer }] });
  expect((await bench.server.admin.query('select 1 from stock_take')).rowCount).toBe(0);
});
