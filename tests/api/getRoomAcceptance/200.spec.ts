import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { takeInManyTestItems } from '#testing';
import { Workbench } from '../support/workbench.js';
import { readRoom, reckonAir } from '../support/air.js';

let bench: Workbench;
beforeAll(async () => { bench = await Workbench.open(); });
afterAll(() => bench.close());

interface Kind { kind: string; items: number; limitedBy: string; statement: string }
const ask = async (query = '') => (await bench.network.get(`/v1/drying-rooms/${bench.incident.room('ROOM')}/acceptance${query}`).expect(200)).body as { asOf: string | null; freeAreaM2: number; kinds: Kind[] };

test('before the first reckoning nothing is said; then less is accepted the more hangs, and nothing above the cap', async () => {
  expect(await ask()).toMatchObject({ asOf: null, kinds: [] });
  bench.server.clock.set(Date.parse('2026-05-09T08:00:00Z'));
  await readRoom(bench.network, bench.incident, '2026-05-09T07:59:00Z', 60);
  await reckonAir(bench.server, bench.network);
  const empty = await ask('?kinds=garment,double-quilt');
  expect(empty).toMatchObject({ asOf: '2026-05-09T07:59:00.000Z', freeAreaM2: 42 });
  expect(empty.kinds.map(({ kind }) => kind)).toEqual(['garment', 'double-quilt']);
  const garments = empty.kinds[0]!;
  expect(garments.items).toBeGreaterThan(0);
  expect(garments.items).toBeLessThanOrEqual(35);
  expect(garments.statement).not.toBe('');

  // A lead hangs ten shirts as they came, dripping.
  const ids = await takeInManyTestItems(bench.server, bench.network, bench.incident, await bench.household(), 10);
  for (const id of ids) {
    const { keeper } = await bench.read(id);
    await bench.network.post(`/v1/items/${id}/custody-events`, { kind: 'drying-started', from: keeper, to: { kind: 'drying-place', id: bench.incident.place('R1') }, personId: bench.incident.person('P1'), reason: 'The tables are full.' }).expect(201);
  }
  bench.server.clock.set(Date.parse('2026-05-09T08:15:00Z'));
  await readRoom(bench.network, bench.incident, '2026-05-09T08:15:00Z', 62);
  await reckonAir(bench.server, bench.network);
  const loaded = await ask('?kinds=garment');
  expect(loaded.freeAreaM2).toBe(30);
  expect(loaded.kinds[0]!.items).toBeLessThan(garments.items);

  bench.server.clock.set(Date.parse('2026-05-09T08:30:00Z'));
  await readRoom(bench.network, bench.incident, '2026-05-09T08:30:00Z', 82);
  await reckonAir(bench.server, bench.network);
  expect((await ask('?kinds=garment')).kinds).toMatchObject([{ items: 0, limitedBy: 'humidity-cap' }]);
});
