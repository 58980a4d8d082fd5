import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { planNow } from '../../unit/plan-problem/support/runs.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const list = async (station: string, query = '') => (await bench.network.get(`/v1/stations/${bench.incident.station(station)}/work-list${query}`).expect(200)).body;
const plan = () => planNow(bench.server, bench.network, bench.incident);

test('a moment to start that has passed is called late, in the triage and in the precedence too', async () => {
  const household = await bench.household();
  const [late, later] = [await bench.takeIn(household), await bench.takeIn(household)];
  await plan();
  const ahead = (await list('TEST', '?limit=100')).next.find(({ itemId }: { itemId: string }) => itemId === late.id);
  expect(ahead.startByInWords).toMatch(/^Start within \d+ hours\.$/);
  bench.server.clock.set(Date.parse(ahead.startBy) + 3 * 3_600_000);
  const order = (await list('TEST', '?limit=100')).next.find(({ itemId }: { itemId: string }) => itemId === late.id);
  expect(order).toMatchObject({ startBy: ahead.startBy, startByInWords: 'The moment to start passed 3 hours ago: begin now.' });
  const { body: triage } = await bench.network.get(`/v1/items/${late.id}/triage`).expect(200);
  expect(triage.startByInWords).toBe('The moment to start passed 3 hours ago: begin now.');
  const { body } = await bench.network.get(`/v1/items/${late.id}/precedence?over=${later.id}`).expect(200);
  expect(body.inWords).toMatch(/The moment to start has passed for both: begin now\.$/);
  expect(body.first.startByInWords).toMatch(/begin now/);
  await bench.startAt(late.id, 'TEST');
  expect((await list('TEST')).now[0]).toMatchObject({ itemId: late.id, startByInWords: null });
});
