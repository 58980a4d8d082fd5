import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { TwoHalls } from '../support/two-halls.js';

let halls: TwoHalls;
beforeAll(async () => {
  halls = await TwoHalls.open();
});
afterAll(() => halls.bench.close());

const quilts = async (count: number) => {
  const household = await halls.bench.household();
  const items = [];
  for (let n = 0; n < count; n += 1) items.push(await halls.bench.assessedQuilt(household));
  return items;
};

test('where testers are idle in another hall, a plan has things carried there and more is in time; what has arrived is listed at the station there', async () => {
  expect(await halls.departures()).toEqual([]);
  const items = await quilts(3);
  const without = await halls.plan();
  expect(without.inTime.items).toBe(0);
  expect(await halls.departures()).toEqual([]);

  const van = await halls.van();
  const plan = await halls.plan();
  expect(plan.inTime.items).toBe(3);
  const [departure, ...later] = await halls.departures();
  expect(later).toEqual([]);
  expect(departure).toMatchObject({ vehicle: { id: van.id, code: 'VAN1' }, from: { code: 'HALL' }, to: { code: 'SCHOOL' }, overdue: false });
  expect(Date.parse(departure!.arrivesAt) - Date.parse(departure!.leavesAt)).toBe(30 * 60_000);
  expect(departure!.items.map(({ itemId }) => itemId).sort()).toEqual(items.map(({ id }) => id).sort());
  expect(departure!.kgReckoned).toBe(departure!.items.reduce((sum, { kgReckoned }) => sum + kgReckoned, 0));
  expect(departure!.items.every(({ kgReckoned, firstStep }) => kgReckoned >= 1 && firstStep === null)).toBe(true);
  expect(departure!.inWords).toContain(`VAN1 leaves HALL at ${departure!.leavesAt.slice(0, 16).replace('T', ' ')} UTC for SCHOOL with 3 things`);

  const [first] = items;
  const steps = await halls.planned(first!.id);
  expect(steps[0]).toMatchObject({ step: 'carry', stationId: null, personIds: [], serviceId: van.rides[0]!.id, serviceName: 'VAN1 HALL–SCHOOL', ride: { vehicle: { id: van.id }, from: { code: 'HALL' }, to: { code: 'SCHOOL' } }, startsAt: departure!.leavesAt, endsAt: departure!.arrivesAt });
  expect(steps[1]).toMatchObject({ step: 'colour-test', stationId: halls.bench.incident.station('S-TEST') });
  expect(Date.parse(steps[1]!.startsAt)).toBeGreaterThanOrEqual(Date.parse(departure!.arrivesAt));

  expect(await halls.listOf('S-TEST')).toEqual([]);
  await halls.ride(van.id, [first!.tag]);
  expect(await halls.listOf('S-TEST')).toEqual([`${first!.id} colour-test`]);
  expect((await halls.departures())[0]!.items.map(({ itemId }) => itemId)).not.toContain(first!.id);

  // The next plan goes on from where it is, and keeps to the ride of the others.
  await halls.plan();
  expect((await halls.planned(first!.id)).map(({ step }) => step)).not.toContain('carry');
  expect((await halls.planned(first!.id))[0]).toMatchObject({ step: 'colour-test', stationId: halls.bench.incident.station('S-TEST') });
  expect((await halls.planned(items[1]!.id))[0]).toMatchObject({ step: 'carry', startsAt: departure!.leavesAt });
});

test('what is found since the plan was made leaves the list: living mould, a hazard, another way that a lead chose', async () => {
  const [mouldy, hazard, chosen] = await quilts(3);
  await halls.plan();
  const listed = async () => (await halls.departures()).flatMap(({ items }) => items.map(({ itemId }) => itemId));
  for (const item of [mouldy, hazard, chosen]) expect(await listed()).toContain(item!.id);
  await halls.bench.assess(mouldy!.id, { mould: 'active', seenAgain: { reason: 'Mould at the seam.' } }).expect(201);
  await halls.bench.assess(hazard!.id, { hazards: ['sharps'], seenAgain: { reason: 'Pins in the hem.' } }).expect(201);
  await halls.bench.network.post(`/v1/items/${chosen!.id}/disposition-overrides`, { disposition: 'refer', reason: 'The family asked for the studio.', personId: halls.bench.incident.person('P1') }).expect(201);
  for (const item of [mouldy, hazard, chosen]) expect(await listed()).not.toContain(item!.id);
});

test('what is to be looked at first says so, and a heavy thing says how many lift it', async () => {
  const item = await halls.bench.takeIn(await halls.bench.household(), { sizeClass: 'queen-quilt' });
  await halls.plan();
  const found = async () => (await halls.departures()).flatMap(({ items }) => items).find(({ itemId }) => itemId === item.id);
  expect(await found()).toMatchObject({ firstStep: 'assess' });
  await halls.bench.assess(item.id, { wetState: 'dripping' }).expect(201);
  expect(await found()).toMatchObject({ firstStep: null });
  expect((await found())!.lift).toMatchObject({ peopleNeeded: 2, liftingAid: false, inWords: [expect.stringContaining('2 people together')] });
});

test('whoever loads is told to wear gloves, as flood water counts as contaminated, in either language', async () => {
  const standing = async (language: string) => (await halls.bench.network.get(`${halls.incidentPath}/carry-list`, { 'accept-language': language }).expect(200)).body.standing;
  expect(await standing('en')).toContain('Flood water counts as contaminated: gloves, boots and goggles for whoever loads');
  expect(await standing('es')).toContain('guantes, botas y gafas para quien carga');
});

test('what rides is planned where it gets down, not before it is there, and listed there only when it has come', async () => {
  const [item] = await quilts(1);
  await halls.plan();
  const { body: layout } = await halls.bench.network.get(`${halls.incidentPath}/layout`).expect(200);
  const ride = await halls.leave(layout.vehicles[0].id, [item!.tag]);
  await halls.plan();
  const [first] = await halls.planned(item!.id);
  expect(first).toMatchObject({ step: 'colour-test', stationId: halls.bench.incident.station('S-TEST') });
  expect(Date.parse(first!.startsAt)).toBeGreaterThanOrEqual(halls.bench.server.clock.nowMs() + 25 * 60_000);
  expect(await halls.listOf('S-TEST')).not.toContain(`${item!.id} colour-test`);
  await halls.arrive(ride, [item!.tag]);
  expect(await halls.listOf('S-TEST')).toContain(`${item!.id} colour-test`);
});

test('a ride that has been taken back is not listed, nor named', async () => {
  const [item] = await quilts(1);
  await halls.plan();
  const { body: layout } = await halls.bench.network.get(`${halls.incidentPath}/layout`).expect(200);
  const [van] = layout.vehicles;
  await halls.bench.network.patch(`${halls.incidentPath}/vehicles/${van.id}`, { rides: null }, { 'if-match': `"${van.version}"` }).expect(200);
  expect(await halls.departures()).toEqual([]);
  expect((await halls.planned(item!.id))[0]).toMatchObject({ step: 'carry', ride: null, serviceName: null });
});
