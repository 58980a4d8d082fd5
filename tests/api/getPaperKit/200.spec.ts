import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('every number of the kit: missing until it is keyed or void', async () => {
  const kit = (await bench.network.post(`/v1/sites/${bench.incident.site()}/paper-kits`, { slips: 3 }).expect(201)).body;
  const read = async () => (await bench.network.get(`/v1/paper-kits/${kit.id}`).expect(200)).body;
  expect((await read()).counts).toEqual({ keyed: 0, void: 0, missing: 3 });
  await bench.network.post(`/v1/paper-kits/${kit.id}/keyed-slips`, { personId: bench.incident.person('P2'), slips: [{ slipNo: 2, void: 'spoilt' }] }).expect(200);
  const { counts, list } = await read();
  expect(counts).toEqual({ keyed: 0, void: 1, missing: 2 });
  expect(list.map(({ slipNo, state, voidReason }: { slipNo: number; state: string; voidReason: string | null }) => [slipNo, state, voidReason])).toEqual([[1, 'missing', null], [2, 'void', 'spoilt'], [3, 'missing', null]]);
  expect(list[1].keyedBy).toBe(bench.incident.person('P2'));
  await bench.network.get(`/v1/paper-kits/${newId()}`).expect(404);
});
