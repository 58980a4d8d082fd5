import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { bookFor, newSlot } from '../support/hand-back.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const end = (id: string, body: object) => bench.network.post(`/v1/hand-back-appointments/${id}/outcomes`, body);
const lead = () => bench.incident.person('P1');

test('called off, its place is free again for another family', async () => {
  const [slot, household, other] = [await newSlot(bench, 1), await bench.household(), await bench.household()];
  const booked = await bookFor(bench, household.id, slot);
  expect((await end(booked.id, { outcome: 'cancelled' }).expect(200)).body).toMatchObject({ state: 'cancelled', version: 2 });
  await bookFor(bench, other.id, slot);
  expect((await end(booked.id, { outcome: 'cancelled' }).expect(409)).body.code).toBe('already_exists');
});

test('somebody who could not show who they are is turned away: kind and result are kept, and nothing goes back', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  const booked = await bookFor(bench, household.id);
  expect((await end(booked.id, { outcome: 'turned-away' }).expect(422)).body.errors[0].code).toBe('check_missing');
  expect((await end(booked.id, { outcome: 'turned-away', check: { kind: 'document-seen', result: 'matched' } }).expect(422)).body.errors[0].code).toBe('check_matched');
  await end(booked.id, { outcome: 'turned-away', check: { kind: 'document-seen', result: 'not-matched', number: 'X123' } }).expect(400);
  expect((await end(booked.id, { outcome: 'turned-away', check: { kind: 'document-seen', result: 'not-matched' } }).expect(200)).body).toMatchObject({ state: 'turned-away', check: { kind: 'document-seen', result: 'not-matched' } });
  expect(await bench.read(quilt.id)).toMatchObject({ stage: 'waiting' });
});

test('nobody came: the dated path begins, with a person who decides', async () => {
  const household = await bench.household();
  await bench.testedQuilt(household);
  const booked = await bookFor(bench, household.id);
  expect((await end(booked.id, { outcome: 'missed' }).expect(422)).body.errors[0].code).toBe('decider_missing');
  await end(booked.id, { outcome: 'missed', deciderId: lead() }).expect(200);
  const { items } = (await bench.network.get(`/v1/incidents/${bench.incident.id}/uncollected`).expect(200)).body;
  expect(items).toEqual(expect.arrayContaining([expect.objectContaining({ householdId: household.id, deciderId: lead(), state: 'open', due: null })]));
});
