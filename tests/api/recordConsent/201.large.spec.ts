import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { takeInManyTestItems } from '#testing';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const MANY = 503;

test('the word of a household reaches every one of its things, however many there are, in the same moment', async () => {
  const household = await bench.household();
  const ids = await takeInManyTestItems(bench.server, bench.network, bench.incident, household, MANY);
  expect(new Set(ids).size).toBe(MANY);
  const [others] = await takeInManyTestItems(bench.server, bench.network, bench.incident, await bench.household(), 1);
  const { id } = (await bench.network.post(`/v1/households/${household.id}/consents`, { scope: 'treat', given: false, manner: 'written' }).expect(201)).body;
  const { rows } = await bench.server.admin.query<{ treat: boolean; hers: boolean; items: number; treated: boolean }>(
    `select (a.observed->'consents'->>'treat')::boolean as treat, i.household_id = $2 as hers, count(*)::int as items, bool_or(i.disposition = 'treat') as treated
     from item i join lateral (select observed from assessment a where a.network_id = i.network_id and a.item_id = i.id order by a.recorded_at desc, a.id desc limit 1) a on true
     where i.network_id = $1 group by 1, 2 order by 1`,
    [bench.network.networkId, household.id],
  );
  expect(rows).toEqual([{ treat: false, hers: true, items: MANY, treated: false }, { treat: true, hers: false, items: 1, treated: true }]);
  expect(id).toMatch(/^[0-9a-f-]{36}$/);
  expect((await bench.read(others ?? '')).version).toBeGreaterThan(0);
}, 240_000);
