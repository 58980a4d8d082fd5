import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const open = (change: object = {}) => bench.network.post(`/v1/sites/${bench.incident.site()}/hand-back-slots`, { startsAt: '2026-05-20T15:00:00Z', minutes: 30, slots: 3, capacity: 2, ...change });

test('slots of one length follow each other; those that are there stay as they are and are counted', async () => {
  const { body } = await open().expect(201);
  expect(body.opened.map((slot: { startsAt: string; endsAt: string; free: number }) => [slot.startsAt, slot.endsAt, slot.free])).toEqual([
    ['2026-05-20T15:00:00.000Z', '2026-05-20T15:30:00.000Z', 2], ['2026-05-20T15:30:00.000Z', '2026-05-20T16:00:00.000Z', 2], ['2026-05-20T16:00:00.000Z', '2026-05-20T16:30:00.000Z', 2],
  ]);
  const again = (await open({ slots: 4, capacity: 9 }).expect(201)).body;
  expect([again.there, again.opened.length]).toEqual([3, 1]);
});

test('no slot without a place, none of a minute', async () => {
  await open({ capacity: 0 }).expect(400);
  await open({ minutes: 1 }).expect(400);
});
