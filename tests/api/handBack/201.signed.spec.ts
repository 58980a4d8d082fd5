import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { bookFor } from '../support/hand-back.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const STROKES = [[10, 300, 120, 80, 180, 320], [400, 200]];

test('a signature on the screen and reservations are sealed; the answer says that they are there, the paper shows them', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  const { body } = await bench.handBack(household, [quilt.id], { signatureRef: '', signature: STROKES, reservations: 'Abuela says the fringe was whole.', personId: bench.incident.person('P1') }).expect(201);
  expect(body).toMatchObject({ signed: true, reserved: true, codeUsed: false, signatureRef: '', personId: bench.incident.person('P1') });
  expect(JSON.stringify(body)).not.toContain('fringe');
  const { rows } = await bench.server.admin.query(`select to_jsonb(h)::text as row from hand_back h where id = $1`, [body.id]);
  expect(rows[0].row).not.toContain('fringe');
  expect(rows[0].row).not.toContain('120, 80');
});

test('the one-time code of the appointment stands for a signature, in any spelling, once; a wrong one hands nothing back', async () => {
  const household = await bench.household();
  const [first, second] = [await bench.testedQuilt(household), await bench.testedQuilt(household)];
  const booked = await bookFor(bench, household.id);
  const withCode = (itemIds: string[], code: string) => bench.handBack(household, itemIds, { signatureRef: '', identityCheck: 'pickup-code', appointmentId: booked.id, code });
  expect((await withCode([first.id], 'BBBB-BBBB').expect(422)).body.errors[0]).toMatchObject({ code: 'code_wrong', pointer: '#/code' });
  expect(await bench.read(first.id)).toMatchObject({ stage: 'waiting' });
  expect((await withCode([first.id], ` ${booked.code.toLowerCase().replace('-', ' ')}`).expect(201)).body).toMatchObject({ codeUsed: true, appointmentId: booked.id });
  expect((await withCode([second.id], booked.code).expect(409)).body.code).toBe('already_exists');
  const { rows } = await bench.server.admin.query('select state, code_hash, check_kind, check_result from hand_back_appointment where id = $1', [booked.id]);
  expect(rows[0]).toEqual({ state: 'kept', code_hash: null, check_kind: 'pickup-code', check_result: 'matched' });
});

test('without a signature, a reference or a code nothing goes back; nor with the appointment of another family', async () => {
  const [household, other] = [await bench.household(), await bench.household()];
  const quilt = await bench.testedQuilt(household);
  const booked = await bookFor(bench, other.id);
  expect((await bench.handBack(household, [quilt.id], { signatureRef: '' }).expect(400)).body.errors[0].pointer).toBe('#/signatureRef');
  await bench.handBack(household, [quilt.id], { signature: [[1, 2, 3]] }).expect(400);
  await bench.handBack(household, [quilt.id], { signature: [[1, 5_000]] }).expect(400);
  expect((await bench.handBack(household, [quilt.id], { appointmentId: booked.id, code: booked.code }).expect(422)).body.code).toBe('reference_unknown');
  expect((await bench.handBack(household, [quilt.id], { code: booked.code }).expect(422)).body.errors[0].code).toBe('appointment_missing');
  expect(await bench.read(quilt.id)).toMatchObject({ stage: 'waiting' });
});

test('ten counters hand back the same thing at the same moment: one does, nine are told', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  const answers = await Promise.all(Array.from({ length: 10 }, () => bench.handBack(household, [quilt.id])));
  expect(answers.filter(({ status }) => status === 201)).toHaveLength(1);
  expect(answers.filter(({ status, body }) => status === 409 && body.code === 'item_terminal')).toHaveLength(9);
});
