import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('any transfer counts as bleeding at once, although not every colour is tested, and asks for a new plan', async () => {
  const quilt = await bench.assessedQuilt(await bench.household());
  const { body } = await bench.colourTest(quilt.id, 'any-transfer', false).expect(201);
  expect(body).toMatchObject({ urgency: 'immediate', disposition: 'refer', observed: { allColoursTested: false } });
  expect(body.options.flatMap((option: { steps: { step: string }[] }) => option.steps.map((care) => care.step))).not.toContain('rinse');
  const { rows } = await bench.server.admin.query('select step, outcome from step_result where item_id = $1 order by id', [quilt.id]);
  expect(rows).toEqual([{ step: 'assess', outcome: 'done' }, { step: 'colour-test', outcome: 'dye-moved' }]);
  expect((await bench.server.admin.query('select count(*)::int as n from plan_run where network_id = $1', [bench.network.networkId])).rows[0].n).toBe(1);
});

test('a test of one colour is kept but is not yet the colour test: the step stays open until all are tested', async () => {
  const quilt = await bench.assessedQuilt(await bench.household());
  expect((await bench.colourTest(quilt.id, 'no-transfer', false).expect(201)).body.nextStep).toBe('colour-test');
  const all = await bench.colourTest(quilt.id, '4-5').expect(201);
  expect(all.body).toMatchObject({ nextStep: 'rinse', bathGroup: null, observed: { colourTests: [{ reading: 'no-transfer' }, { reading: '4-5' }] } });
  const { rows } = await bench.server.admin.query('select count(*)::int as n from colour_test where item_id = $1', [quilt.id]);
  expect(rows[0].n).toBe(2);
});

test('a reading off the scale is refused by name', async () => {
  const quilt = await bench.assessedQuilt(await bench.household());
  expect((await bench.colourTest(quilt.id, 'fine').expect(400)).body.errors[0].pointer).toBe('#/tests/0/reading');
});
