import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { setNumber } from '../setCalibration/calibration.support.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('every decision stays on record, newest first, numbered without gaps, page by page; nobody can change one', async () => {
  const turns: [string, number | null][] = [['people/restHours', 9], ['climate/roomCapPct', 70], ['people/restHours', null]];
  for (const [address, value] of turns) expect((await setNumber(bench, address, value)).status).toBe(200);
  const first = await bench.network.get('/v1/calibration/decisions?limit=2').expect(200);
  const second = await bench.network.get(`/v1/calibration/decisions?limit=2&cursor=${encodeURIComponent(first.body.nextCursor)}`).expect(200);
  const told = [...first.body.items, ...second.body.items].map(({ number, library, key, value }: { number: number; library: string; key: string; value: number | null }) => [number, `${library}/${key}`, value]);
  expect(told).toEqual([[3, 'people/restHours', null], [2, 'climate/roomCapPct', 70], [1, 'people/restHours', 9]]);
  expect(second.body.nextCursor).toBeNull();
  await expect(bench.server.admin.query('update calibration_value set value = 1 where network_id = $1', [bench.network.networkId])).rejects.toThrow('append-only');
  await expect(bench.server.admin.query('delete from calibration_value where network_id = $1', [bench.network.networkId])).rejects.toThrow('append-only');
});
