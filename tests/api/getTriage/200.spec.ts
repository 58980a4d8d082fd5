import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('a triage says what to wear, what never to do, what it rests on, and that a lead may decide otherwise', async () => {
  const quilt = await bench.assessedQuilt(await bench.household());
  const { body } = await bench.network.get(`/v1/items/${quilt.id}/triage`).expect(200);
  expect(body.ppe.length).toBeGreaterThan(0);
  expect(body.never.length).toBeGreaterThan(0);
  expect(body.clocks.some((clock: { damage: string }) => clock.damage === 'mould')).toBe(true);
  expect(body.standing).toContain('lead');
  expect(body.ruleBookVersion).not.toBe('');
});

test('the questions name what is not known yet', async () => {
  const quilt = await bench.takeIn(await bench.household());
  const { body } = await bench.network.get(`/v1/items/${quilt.id}/triage`).expect(200);
  expect(body.askNext.length).toBeGreaterThan(0);
});
