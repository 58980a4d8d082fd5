import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const hang = async (itemId: string, change: object = {}) =>
  bench.network.post(`/v1/items/${itemId}/custody-events`, { kind: 'drying-started', from: (await bench.read(itemId)).keeper, to: { kind: 'drying-place', id: bench.incident.place('R1') }, personId: bench.incident.person('P2'), ...change });

test('what comes next is not the drying: it is not hung, its clock does not stop, and the answer says what comes', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  const before = await recordOf(bench, quilt.id);
  const refused = await hang(quilt.id);
  expect(refused.status).toBe(409);
  expect(refused.body).toMatchObject({ code: 'wrong_stage', nextStep: 'rinse', stage: 'waiting', keeper: bench.holding('dirty') });
  expect(refused.body.detail).toMatch(/`rinse`.*lead/);
  expect(await recordOf(bench, quilt.id)).toEqual(before);
  await bench.report(quilt.id, 'rinse').expect(201);
  await bench.startAt(quilt.id, 'BLOT');
  // Taken off the table before the blotting is reported, its result would be lost.
  expect((await hang(quilt.id)).body).toMatchObject({ code: 'wrong_stage', nextStep: 'blot', stage: 'in-work' });
  await bench.report(quilt.id, 'blot').expect(201);
  expect((await hang(quilt.id)).status).toBe(201);
});

test('what hangs may be hung on another place at any time, and who is wrong about where it is learns that first', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  const stale = await hang(quilt.id, { from: bench.holding('clean') });
  expect(stale.body).toMatchObject({ code: 'wrong_keeper', keeper: bench.holding('dirty') });
  for (const step of ['rinse', 'blot']) await bench.report(quilt.id, step).expect(201);
  await hang(quilt.id);
  // The look while it hangs changes what comes next; the rack is still free to change.
  await bench.assess(quilt.id, { alreadyBled: true, wetState: 'damp' }).expect(201);
  expect((await hang(quilt.id, { to: { kind: 'drying-place', id: bench.incident.place('S1') } })).status).toBe(201);
});

test('where another open way begins with the drying it may be hung, until a lead chooses', async () => {
  const quilt = await bench.assessedQuilt(await bench.household(), { materialClass: 'textile-flat-small', sizeClass: 'garment' });
  await bench.assess(quilt.id, { mould: 'active' }).expect(201);
  const { body: triage } = await bench.network.get(`/v1/items/${quilt.id}/triage`).expect(200);
  expect(triage).toMatchObject({ disposition: 'hold-frozen', nextStep: 'wrap' });
  expect(triage.options.find((option: { disposition: string }) => option.disposition === 'treat').steps[0].step).toBe('dry');
  await bench.network.post(`/v1/items/${quilt.id}/disposition-overrides`, { disposition: 'hold-frozen', reason: 'The mould room is full.', personId: bench.incident.person('P1') }).expect(201);
  expect((await hang(quilt.id)).body).toMatchObject({ code: 'wrong_stage', nextStep: 'wrap' });
  await bench.network.post(`/v1/items/${quilt.id}/disposition-overrides`, { disposition: 'treat', reason: 'A rack is free in the mould room.', personId: bench.incident.person('P1') }).expect(201);
  const { body: free } = await bench.network.post(`/v1/incidents/${bench.incident.id}/drying-places`, { dryingRoomId: bench.incident.room('ROOM'), code: 'M1', name: 'Rack for mould', arrangement: 'rack', areaM2: 20 }).expect(201);
  expect((await hang(quilt.id, { to: { kind: 'drying-place', id: free.id } })).status).toBe(201);
});

test('a lead may hang it out of turn and says why, which stays in the chain; a helper with a reason, or a lead without one, may not', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  const lead = { personId: bench.incident.person('P1') };
  const reason = 'The baths are shut for the night; it must not lie in a heap.';
  expect((await hang(quilt.id, { reason })).status).toBe(409);
  expect((await hang(quilt.id, lead)).status).toBe(409);
  const hung = await hang(quilt.id, { ...lead, reason });
  expect(hung.status).toBe(201);
  expect(hung.body.refs).toEqual({ ...lead, reason });
  expect(await bench.read(quilt.id)).toMatchObject({ stage: 'drying', nextStep: 'rinse' });
});
