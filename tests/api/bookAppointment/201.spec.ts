import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { newSlot } from '../support/hand-back.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const book = (slotId: string, householdId: string, headers: Record<string, string> = {}) => bench.network.post(`/v1/hand-back-slots/${slotId}/appointments`, { householdId }, headers);

test('shows the one-time code once; a repeated request answers without it, and the database holds only its hash', async () => {
  const [slot, household, key] = [await newSlot(bench), await bench.household(), newId()];
  const first = (await book(slot, household.id, { 'idempotency-key': key }).expect(201)).body;
  expect(first.code).toMatch(/^[B-DF-HKMNP-RTVWX2-9]{4}-[B-DF-HKMNP-RTVWX2-9]{4}$/);
  const again = (await book(slot, household.id, { 'idempotency-key': key }).expect(201)).body;
  expect(again).toEqual({ ...first, code: undefined });
  const { rows } = await bench.server.admin.query(`select to_jsonb(a)::text as row, (select coalesce(string_agg(to_jsonb(r)::text, ''), '') from idempotency_record r) as remembered from hand_back_appointment a where id = $1`, [first.id]);
  for (const spelt of [first.code, first.code.replace('-', '')]) expect(rows[0].row + rows[0].remembered).not.toContain(spelt);
});

test('one appointment ahead of a household; a full slot, a slot that is over and a household of elsewhere are refused', async () => {
  const [slot, household, other] = [await newSlot(bench), await bench.household(), await bench.household()];
  await book(slot, household.id).expect(201);
  expect((await book(await newSlot(bench), household.id).expect(409)).body.code).toBe('already_exists');
  expect((await book(slot, other.id).expect(409)).body.code).toBe('capacity_full');
  expect((await book(slot, newId()).expect(422)).body.code).toBe('reference_unknown');
  const past = (await bench.network.post(`/v1/sites/${bench.incident.site()}/hand-back-slots`, { startsAt: '2026-05-01T15:00:00Z', minutes: 30, slots: 1, capacity: 3 }).expect(201)).body.opened[0].id as string;
  expect((await book(past, other.id).expect(422)).body.code).toBe('command_refused');
});
