import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { type HouseholdOnTest } from '#testing';
import { planNow, withBenches } from '../../unit/plan-problem/support/runs.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let household: HouseholdOnTest;
beforeAll(async () => {
  bench = await Workbench.open(withBenches);
  household = await bench.household();
});
afterAll(() => bench.close());

interface Order {
  itemId: string;
  step: string;
  disposition: string;
  goesTo: { kind: string; id: string } | null;
}

const STATIONS = ['TEST', 'RINSE', 'BLOT', 'WRAP', 'QUAR', 'PACK', 'BENCH'];
const plan = () => planNow(bench.server, bench.network, bench.incident);
const stationList = async (station: string) => (await bench.network.get(`/v1/stations/${bench.incident.station(station)}/work-list?limit=100`).expect(200)).body.next as Order[];
const toHang = async () => (await bench.network.get(`/v1/sites/${bench.incident.site()}/drying-list?limit=100`).expect(200)).body.toHang as Order[];
const lists = async () => [...(await Promise.all(STATIONS.map(stationList))).flat(), ...(await toHang())];
const ordersOf = async (itemId: string) => (await lists()).filter((order) => order.itemId === itemId);
/** The owner refuses every way but the treatment here. */
async function onlyTreat(itemId: string): Promise<void> {
  for (const scope of ['refer', 'freeze']) await bench.network.post(`/v1/households/${household.id}/consents`, { scope, given: false, manner: 'spoken', itemId }).expect(201);
}

/** Unwrapped beside the others, which a lead answers for. */
async function frozenByALead(itemId: string): Promise<void> {
  const { keeper } = await bench.read(itemId);
  await bench.network.post(`/v1/items/${itemId}/custody-events`, { kind: 'frozen', from: keeper, to: bench.freezer(), personId: bench.incident.person('P1'), reason: 'Each in a bag of its own.' }).expect(201);
}

interface Followed { status: number; body: { code?: string; detail?: string; alternatives?: { keeper: { kind: string; id: string } }[] } }

/** Does what the list says; where that is refused for its company, goes where the answer says, as a person would. */
async function followed(order: Order): Promise<Followed> {
  const first = await follow(order);
  const better = first.body.code === 'company_refused' ? first.body.alternatives?.find(({ keeper }) => keeper.kind === order.goesTo?.kind) : undefined;
  return better ? follow({ ...order, goesTo: better.keeper }) : first;
}

/** Does what the list says, as the list says it. */
async function follow(order: Order): Promise<Followed> {
  if (order.step === 'assess') return bench.assess(order.itemId);
  if (order.step === 'colour-test') return bench.colourTest(order.itemId, 'no-transfer');
  if (order.step !== 'dry') return bench.report(order.itemId, order.step, 'done', { disposition: order.disposition, to: order.step === 'freeze' ? order.goesTo && { kind: 'freezer', id: order.goesTo.id } : null });
  const { keeper } = await bench.read(order.itemId);
  return bench.network.post(`/v1/items/${order.itemId}/custody-events`, { kind: 'drying-started', from: keeper, to: { kind: 'drying-place', id: order.goesTo?.id }, personId: bench.incident.person('P2') });
}

test('dye is found to move after the plan was made, on the way of the item: the planned step waits for the earlier one and is not listed', async () => {
  const quilt = await bench.testedQuilt(household);
  await onlyTreat(quilt.id);
  await bench.report(quilt.id, 'rinse').expect(201);
  await plan();
  expect(await ordersOf(quilt.id)).toMatchObject([{ step: 'blot', disposition: 'treat' }]);
  await bench.colourTest(quilt.id, 'any-transfer').expect(201);
  expect(await bench.read(quilt.id)).toMatchObject({ disposition: 'treat', nextStep: 'stabilise' });
  expect(await ordersOf(quilt.id)).toEqual([]);
  await bench.report(quilt.id, 'stabilise').expect(201);
  expect(await ordersOf(quilt.id)).toMatchObject([{ step: 'blot', disposition: 'treat' }]);
});

test('dye is found to move after the plan chose another way: its wrapping waits until the thing is stabilised', async () => {
  await bench.server.admin.query('update drying_place set area_dm2 = 1 where network_id = $1', [bench.network.networkId]);
  const quilt = await bench.testedQuilt(household);
  await plan();
  expect(await ordersOf(quilt.id)).toMatchObject([{ step: 'wrap', disposition: 'hold-frozen' }]);
  await bench.colourTest(quilt.id, 'any-transfer').expect(201);
  expect((await bench.read(quilt.id))['disposition']).toBe('refer');
  expect(await ordersOf(quilt.id)).toEqual([]);
  await bench.server.admin.query('update drying_place set area_dm2 = 4000 where network_id = $1', [bench.network.networkId]);
});

test('what gets wet again after its drying leaves the lists of what follows drying at once, and is planned from the rinse on', async () => {
  const quilt = await bench.testedQuilt(household);
  for (const step of ['rinse', 'blot']) await bench.report(quilt.id, step).expect(201);
  await bench.hang(quilt.id);
  await bench.report(quilt.id, 'dry').expect(201);
  await plan();
  expect(await ordersOf(quilt.id)).toMatchObject([{ step: 'check' }]);
  await bench.assess(quilt.id, { wetState: 'dripping', seenAgain: { reason: 'The roof leaks onto the shelf.' } }).expect(201);
  expect(await ordersOf(quilt.id)).toEqual([]);
  await plan();
  for (const step of ['rinse', 'blot', 'dry']) {
    const [order] = await ordersOf(quilt.id);
    expect(order).toMatchObject({ step, disposition: 'treat' });
    expect((await follow(order!)).status).toBe(201);
  }
});

test('whatever has happened since the plan, every order on every list is taken when it is followed, if need be where its company allows', async () => {
  for (let extra = 0; extra < 4; extra += 1) await bench.network.post(`/v1/incidents/${bench.incident.id}/drying-places`, { dryingRoomId: bench.incident.room('ROOM'), code: `X${extra}`, name: `Screen X${extra}`, arrangement: 'screen', areaM2: 20 }).expect(201);
  const changes: ((itemId: string) => Promise<unknown>)[] = [
    async () => undefined,
    (itemId) => bench.assess(itemId, { mould: 'active' }).expect(201),
    (itemId) => bench.assess(itemId, { mould: 'dry', wetState: 'dry' }).expect(201),
    (itemId) => bench.colourTest(itemId, 'any-transfer').expect(201),
    async (itemId) => (await onlyTreat(itemId), bench.colourTest(itemId, 'any-transfer').expect(201)),
    (itemId) => bench.report(itemId, 'rinse', 'dye-moved'),
    (itemId) => bench.report(itemId, 'rinse', 'mould-found'),
    (itemId) => bench.report(itemId, 'wrap', 'done', { disposition: 'hold-frozen' }),
    (itemId) => bench.network.post(`/v1/households/${household.id}/consents`, { scope: 'treat', given: false, manner: 'spoken', itemId }),
    (itemId) => bench.network.post(`/v1/items/${itemId}/disposition-overrides`, { disposition: 'hold-frozen', reason: 'The tables are full.', personId: bench.incident.person('P1') }),
    async (itemId) => (await frozenByALead(itemId), bench.network.post(`/v1/items/${itemId}/disposition-overrides`, { disposition: 'treat', reason: 'A table is free.', personId: bench.incident.person('P1') })),
  ];
  const starts = [
    () => bench.takeIn(household, { sizeClass: 'garment' }),
    () => bench.assessedQuilt(household, { sizeClass: 'garment' }),
    () => bench.testedQuilt(household, { sizeClass: 'garment' }),
    async () => {
      const rinsed = await bench.testedQuilt(household, { sizeClass: 'garment' });
      await bench.report(rinsed.id, 'rinse').expect(201);
      return rinsed;
    },
  ];
  const items: { id: string; change: (itemId: string) => Promise<unknown> }[] = [];
  for (const change of changes) for (const start of starts) items.push({ id: (await start()).id, change });
  await plan();
  for (const { id, change } of items) await change(id);
  const orders = await lists();
  expect(orders.length).toBeGreaterThan(10);
  expect(new Set(orders.map(({ step }) => step)).size).toBeGreaterThan(3);
  expect(new Set(orders.map(({ itemId }) => itemId)).size).toBe(orders.length);
  // What is as it was when the plan was made goes just where the plan says; it goes first, as the plan knows nothing of the others' news.
  const changed = new Set(items.filter(({ change }) => change !== changes[0]).map(({ id }) => id));
  const refused = [];
  for (const order of [...orders].sort((a, b) => Number(changed.has(a.itemId)) - Number(changed.has(b.itemId)))) {
    const answer = await (changed.has(order.itemId) ? followed(order) : follow(order));
    if (answer.status !== 201) refused.push({ step: order.step, disposition: order.disposition, code: answer.body.code, detail: answer.body.detail });
  }
  expect(refused).toEqual([]);
});
