import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('one hold at a time stands, its reason in no byte of the database, and only a lead places it', async () => {
  const { id } = await bench.household();
  const place = (change: object = {}) => bench.network.post(`/v1/households/${id}/legal-holds`, { personId: bench.incident.person('P1'), reason: 'The insurer of Mrs Zwirbelquist has announced a claim', ...change });
  expect((await place({ personId: bench.incident.person('P3') }).expect(422)).body.code).toBe('command_refused');
  const { body } = await place().expect(201);
  expect(body).toMatchObject({ householdId: id, reason: 'The insurer of Mrs Zwirbelquist has announced a claim', liftedAt: null });
  expect((await place().expect(409)).body).toMatchObject({ code: 'already_exists', legalHoldId: body.id });
  const { rows } = await bench.server.admin.query<{ row: string }>('select h::text as row from household_hold h');
  expect(rows.map(({ row }) => row.includes(Buffer.from('Zwirbelquist').toString('hex')) || row.includes('Zwirbelquist'))).toEqual([false]);
});
