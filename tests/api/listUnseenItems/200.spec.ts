import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { SIGHT_CALIBRATION } from '#application';
import { MORNING_MS, startTestServer, type TestServer } from '#testing';
import { scanWorld } from '../support/scans.js';

let server: TestServer;
let world: Awaited<ReturnType<typeof scanWorld>>;
beforeAll(async () => {
  server = await startTestServer();
  world = await scanWorld(server);
});
afterAll(() => server.close());

const HOUR_MS = 3_600_000;
const unseen = async (query = '') => (await world.network.get(`/v1/incidents/${world.incident.id}/unseen-items${query}`).expect(200)).body as { items: { itemId: string; unseenForH: number }[]; nextCursor: string | null };

test('a thing comes onto the list when nobody has met it for as long as its stage allows, and a scan takes it off', async () => {
  const [waiting, frozen, seen] = [await world.item(), await world.item({ materialClass: 'paper-uncoated', sizeClass: 'a4-sheet' }), await world.item()];
  await world.send(world.scan(frozen.tag, { kind: 'freezer', id: world.incident.freezer('F1') }));
  const limitMs = SIGHT_CALIBRATION.unseenWaitingH.value * HOUR_MS;
  server.clock.set(MORNING_MS + limitMs - 60_000);
  await world.send(world.scan(seen.tag, { kind: 'holding', id: world.incident.holding('dirty') }));
  expect((await unseen()).items).toEqual([]);
  server.clock.set(MORNING_MS + limitMs + 60_000);
  // What is frozen is left alone for longer, and the other one was just met.
  expect((await unseen()).items).toEqual([expect.objectContaining({ itemId: waiting.id, unseenForH: SIGHT_CALIBRATION.unseenWaitingH.value, stage: 'waiting' })]);
  await world.send(world.scan(waiting.tag, world.a));
  expect((await unseen()).items).toEqual([]);
  server.clock.set(MORNING_MS + SIGHT_CALIBRATION.unseenFrozenH.value * HOUR_MS + 60_000);
  expect((await unseen()).items.map(({ itemId }) => itemId)).toContain(frozen.id);
});

test('the longest unseen comes first, by pages; a network sets its own numbers', async () => {
  const all = (await unseen()).items.map(({ itemId }) => itemId);
  expect(all).toHaveLength(3);
  const first = await unseen('?limit=1');
  const rest = await unseen(`?limit=5&cursor=${encodeURIComponent(first.nextCursor ?? '')}`);
  expect([...first.items, ...rest.items].map(({ itemId }) => itemId)).toEqual(all);
  const etag = (await world.network.get('/v1/calibration')).headers['etag'] as string;
  await world.network.put('/v1/calibration/sight/unseenWaitingH', { value: 300, reason: 'A quiet store.', personId: world.incident.person('P1') }, { 'if-match': etag }).expect(200);
  expect((await unseen()).items).toHaveLength(1);
});
