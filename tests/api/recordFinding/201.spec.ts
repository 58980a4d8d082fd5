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
test('a missing thing is on record where it was found, and goes on', async () => {
  const quilt = await matters.quilt();
  await matters.dispute(quilt.id, bench.freezer()).expect(201);
  await matters.missing(quilt.id).expect(201);
  const { body } = await matters.find(quilt.id, bench.holding('clean')).expect(201);
  expect(body.item).toMatchObject({ keeper: bench.holding('clean'), stage: 'waiting', missing: false, locationDisputed: false });
  expect(body.event).toMatchObject({ kind: 'found-again', refs: { personId: matters.lead } });
  await bench.startAt(quilt.id, 'TEST');
  await matters.verified();
});

test('what was frozen and lies in a waiting area has thawed: its clock runs again', async () => {
  const quilt = await bench.assessedQuilt(await bench.household());
  await bench.pass(quilt.id, 'frozen', bench.freezer());
  expect((await bench.read(quilt.id)).stabilisedAt).not.toBeNull();
  await matters.missing(quilt.id).expect(201);
  const { body } = await matters.find(quilt.id, bench.holding('dirty'), { stage: 'waiting' }).expect(201);
  expect(body.item).toMatchObject({ stage: 'waiting', stabilisedAt: null });
  expect(await bench.read(quilt.id)).toEqual(body.item);
});

test('what hangs where it should hang was only overlooked', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  for (const step of ['rinse', 'blot']) await bench.report(quilt.id, step).expect(201);
  await bench.hang(quilt.id);
  const hanging = await bench.read(quilt.id);
  await matters.missing(quilt.id).expect(201);
  const { body } = await matters.find(quilt.id, hanging.keeper).expect(201);
  expect(body.item).toMatchObject({ keeper: hanging.keeper, stage: 'drying', stabilisedAt: hanging.stabilisedAt, missing: false });
});
