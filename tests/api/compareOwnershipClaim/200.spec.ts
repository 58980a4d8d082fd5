import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { ClaimDesks, MARKS } from '../support/found-items.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let desks: ClaimDesks;
beforeAll(async () => {
  bench = await Workbench.open();
  desks = await ClaimDesks.open(bench);
});
afterAll(() => bench.close());

test('shows both sides to one who will decide, with a caution, and puts the look down in the audit', async () => {
  const claim = await desks.claim((await desks.found()).itemId, (await bench.household()).id, ['Little bells']);
  const { body } = await desks.look(desks.lead, claim.id, 'P1').expect(200);
  expect(body.rows.map(({ question, onRecord, said }: { question: string; onRecord: string; said: string }) => [question, onRecord, said])).toEqual([[MARKS[0]?.question, MARKS[0]?.answer, 'Little bells'], [MARKS[1]?.question, MARKS[1]?.answer, '']]);
  expect([body.statement, body.caution]).toEqual(['It lay on her bed.', expect.stringContaining('Never tell a claimant')]);
  const audit = (await bench.network.get('/v1/audit-entries?limit=200').expect(200)).body.items as { operation: string; subjectId: string; outcome: string }[];
  expect(audit.filter(({ operation, subjectId, outcome }) => operation === 'compareOwnershipClaim' && subjectId === claim.id && outcome === 'read')).toHaveLength(1);
});

test('not to who took the answers, nor with that key, nor when it is over; and nothing is noted then', async () => {
  const claim = await desks.claim((await desks.found()).itemId, (await bench.household()).id);
  for (const refused of [await desks.look(desks.lead, claim.id, 'P3'), await desks.look(desks.desk, claim.id, 'P1')]) {
    expect([refused.status, refused.body.code]).toEqual([409, 'claim_person']);
    expect(refused.text).not.toMatch(/brass|Ottilie/);
  }
  expect((await bench.server.admin.query('select count(*)::int as n from mark_look where claim_id = $1', [claim.id])).rows[0].n).toBe(0);
  await bench.network.post(`/v1/ownership-claims/${claim.id}/withdrawal`, {}).expect(200);
  expect((await desks.look(desks.lead, claim.id, 'P1').expect(409)).body.code).toBe('claim_closed');
});
