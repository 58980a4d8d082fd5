import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { type HouseholdOnTest } from '#testing';
import { planNow } from '../../unit/plan-problem/support/runs.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let household: HouseholdOnTest;
beforeAll(async () => {
  bench = await Workbench.open();
  household = await bench.household();
});
afterAll(() => bench.close());

const list = async (station: string, query = '') => (await bench.network.get(`/v1/stations/${bench.incident.station(station)}/work-list${query}`).expect(200)).body;
const plan = () => planNow(bench.server, bench.network, bench.incident);

test('before the first plan there is a list without a plan', async () => {
  expect(await list('RINSE')).toMatchObject({ station: { code: 'RINSE' }, revision: null, next: [], now: [] });
});

test('a limit cuts the list at its head', async () => {
  for (let i = 0; i < 4; i += 1) await bench.takeIn(household, { materialClass: 'textile-garment-3d', sizeClass: 'garment' });
  await plan();
  const all = (await list('TEST')).next;
  expect(all.map(({ step }: { step: string }) => step)).toEqual(['assess', 'assess', 'assess', 'assess']);
  expect((await list('TEST', '?limit=2')).next).toEqual(all.slice(0, 2));
  await bench.network.get(`/v1/stations/${bench.incident.station('TEST')}/work-list?limit=101`).expect(400);
});

test('what has become something else since the plan leaves the list', async () => {
  const item = await bench.testedQuilt(household);
  await plan();
  const has = async () => (await list('RINSE')).next.some(({ itemId }: { itemId: string }) => itemId === item.id);
  expect(await has()).toBe(true);
  // Dye moves in the bath: a rinse is out of the question from now on.
  await bench.startAt(item.id, 'RINSE');
  await bench.report(item.id, 'rinse', 'dye-moved').expect(201);
  expect(await has()).toBe(false);
});

test('what the owner refuses, and what a lead sends another way, leaves the list at once', async () => {
  const hers = await bench.household();
  const [refused, overruled] = [await bench.testedQuilt(hers), await bench.testedQuilt(household)];
  await plan();
  const onList = async () => (await list('RINSE', '?limit=100')).next.map(({ itemId }: { itemId: string }) => itemId);
  expect(await onList()).toEqual(expect.arrayContaining([refused.id, overruled.id]));
  for (const scope of ['treat', 'freeze', 'refer']) await bench.network.post(`/v1/households/${hers.id}/consents`, { scope, given: false, manner: 'spoken', itemId: refused.id }).expect(201);
  await bench.network.post(`/v1/items/${overruled.id}/disposition-overrides`, { disposition: 'hold-frozen', reason: 'The tables are full.', personId: bench.incident.person('P1') }).expect(201);
  expect((await onList()).filter((id: string) => id === refused.id || id === overruled.id)).toEqual([]);
});

test('a frozen thing that a lead wants treated is thawed first, with the cautions of a thaw', async () => {
  const item = await bench.testedQuilt(household);
  await bench.pass(item.id, 'frozen', bench.freezer());
  await plan();
  expect((await list('WRAP', '?limit=100')).next.some(({ itemId }: { itemId: string }) => itemId === item.id)).toBe(false);
  await bench.network.post(`/v1/items/${item.id}/disposition-overrides`, { disposition: 'treat', reason: 'A table is free today.', personId: bench.incident.person('P1') }).expect(201);
  await plan();
  const order = (await list('WRAP', '?limit=100')).next.find(({ itemId }: { itemId: string }) => itemId === item.id);
  expect(order).toMatchObject({ step: 'thaw', disposition: 'treat', keeper: { kind: 'freezer', code: 'F1' }, care: { step: 'thaw', zone: 'cold' } });
  const cautions = order.care.cautions.map(({ text }: { text: string }) => text);
  expect(cautions).toEqual(expect.arrayContaining(['Thaw only what this session can dry.', 'Keep the bag shut until the parcel is as warm as the room.']));
  // The thaw is the same for a quilt and for a book, and a cold bath is for textiles alone.
  expect(cautions.join(' ')).not.toMatch(/bath/);
  // It thaws in the flood water it was frozen with.
  expect(order.care.ppe).toEqual(expect.arrayContaining(['powder-free nitrile gloves, with waterproof rubber gloves over them', 'goggles']));
});

test('where the plan takes another way, the list says which, and its step is taken', async () => {
  const item = await bench.testedQuilt(household);
  await bench.server.admin.query(`update drying_place set area_dm2 = 1 where network_id = $1`, [bench.network.networkId]);
  const { body: station } = await bench.network.get(`/v1/incidents/${bench.incident.id}/layout`).expect(200);
  expect(station.sites[0].dryingRooms[0].dryingPlaces[0].areaM2).toBe(0.01);
  await bench.server.admin.query(`update station set steps = steps || '{wrap}'::text[] where network_id = $1 and code = 'RINSE'`, [bench.network.networkId]);
  await plan();
  const order = (await list('RINSE')).next.find(({ itemId }: { itemId: string }) => itemId === item.id);
  expect(order).toMatchObject({ step: 'wrap', disposition: 'hold-frozen', goesTo: { kind: 'station', code: 'WRAP' }, care: { step: 'wrap', zone: 'dirty' } });
  expect((await bench.read(item.id))['disposition']).toBe('treat');
  await bench.report(item.id, 'wrap', 'done', { disposition: order.disposition }).expect(201);
  expect((await list('RINSE')).next.some(({ itemId }: { itemId: string }) => itemId === item.id)).toBe(false);
  const freezing = (await list('WRAP')).next.find(({ itemId }: { itemId: string }) => itemId === item.id);
  expect(freezing).toMatchObject({ step: 'freeze', goesTo: { kind: 'freezer', code: 'F1', id: bench.incident.freezer('F1') } });
});
