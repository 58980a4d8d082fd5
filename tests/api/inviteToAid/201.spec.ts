import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { AidBench, VALID_TO } from '../support/mutual-aid.js';

let bench: AidBench;
beforeAll(async () => {
  bench = await AidBench.open();
});
afterAll(() => bench.close());

const invite = (change: object = {}, headers = {}) => bench.giver.network.post(`/v1/incidents/${bench.giver.incident.id}/aid-agreements`, { partnerName: 'Upper Vale', validTo: VALID_TO, ...change }, headers);

test('the invitation is shown once, and neither the answer kept for repeats nor any table holds it', async () => {
  const key = { 'idempotency-key': '0198b7a0-0000-7000-8000-0000000000aa' };
  const first = await invite({}, key).expect(201);
  expect(first.body).toMatchObject({ state: 'invited', role: 'giver', invitation: expect.stringMatching(/^wa_/) });
  expect((await invite({}, key).expect(201)).body).toEqual({ ...first.body, invitation: null });
  // By its length: the secret's own alphabet has the separator in it.
  const secret = (first.body.invitation as string).slice(-43);
  for (const table of ['idempotency_record', 'aid_agreement', 'audit_entry', 'outbox']) {
    const { rows } = await bench.server.admin.query(`select row_to_json(t)::text as row from ${table} t`);
    expect(rows.filter(({ row }) => (row as string).includes(secret))).toEqual([]);
  }
});

test.each(['2026-05-09T06:00:00Z', '2027-05-09T06:00:00Z'])('an agreement that ends at %s is refused with the bounds', async (validTo) => {
  const answer = await invite({ validTo }).expect(422);
  expect(answer.body).toMatchObject({ code: 'command_refused', detail: expect.stringContaining('180 days'), errors: [{ pointer: '#/validTo' }] });
});
