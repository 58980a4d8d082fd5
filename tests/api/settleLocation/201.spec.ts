import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { mattersOf } from '../support/matters.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let matters: ReturnType<typeof mattersOf>;
beforeAll(async () => {
  bench = await Workbench.open();
  matters = mattersOf(bench);
});
afterAll(() => bench.close());
test('who has it in front of them settles where it is, elsewhere or where the record said', async () => {
  const [one, other] = [await matters.quilt(), await matters.quilt()];
  for (const quilt of [one, other]) await matters.dispute(quilt.id, bench.holding('clean')).expect(201);
  const elsewhere = await matters.settle(one.id, bench.holding('clean'), { seenAt: '2026-05-09T06:59:00Z' }).expect(201);
  expect(elsewhere.body.item).toMatchObject({ keeper: bench.holding('clean'), stage: 'waiting', locationDisputed: false, custodySeq: 3 });
  expect(elsewhere.body.event).toMatchObject({ kind: 'location-settled', refs: { personId: matters.lead }, occurredAt: '2026-05-09T06:59:00.000Z' });
  const right = await matters.settle(other.id, other.keeper).expect(201);
  expect(right.body.item).toMatchObject({ keeper: other.keeper, locationDisputed: false });
  await bench.startAt(one.id, 'TEST');
  await matters.verified();
});

test('what is being done with it there is said as well, and counts for its clock', async () => {
  const quilt = await matters.quilt();
  await matters.dispute(quilt.id, bench.freezer()).expect(201);
  const { body } = await matters.settle(quilt.id, bench.freezer(), { stage: 'held-frozen' }).expect(201);
  expect(body.item).toMatchObject({ keeper: bench.freezer(), stage: 'held-frozen', stabilisedAt: new Date(bench.server.clock.nowMs()).toISOString() });
  expect(await bench.read(quilt.id)).toEqual(body.item);
});

test('what is with a specialist on record and stands in the hall is back, and is looked at anew', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.network.post(`/v1/items/${quilt.id}/referrals`, { specialistId: bench.incident.specialist('SP1'), reason: 'The red dye moves.' }).expect(201);
  await matters.dispute(quilt.id, bench.holding('clean')).expect(201);
  const { body } = await matters.settle(quilt.id, bench.holding('clean'), { stage: 'waiting' }).expect(201);
  expect(body.item).toMatchObject({ stage: 'waiting', nextStep: 'assess', keeper: bench.holding('clean') });
  expect((await bench.server.admin.query('select returned_at is not null as back from referral where item_id = $1', [quilt.id])).rows).toEqual([{ back: true }]);
});

test('of two who settle it at the same moment one does, and the other is told', async () => {
  const quilt = await matters.quilt();
  await matters.dispute(quilt.id, bench.holding('clean')).expect(201);
  const answers = await Promise.all([matters.settle(quilt.id, bench.holding('clean')), matters.settle(quilt.id, quilt.keeper)]);
  expect(answers.map(({ status }) => status).sort()).toEqual([201, 422]);
  expect(answers.find(({ status }) => status === 422)?.body).toMatchObject({ code: 'command_refused', reason: 'not_disputed' });
  expect(await matters.chain(quilt.id)).toHaveLength(3);
});
