import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const choose = (itemId: string, disposition: string, person = 'P1') =>
  bench.network.post(`/v1/items/${itemId}/disposition-overrides`, { disposition, reason: 'The tables are full until noon.', personId: bench.incident.person(person) });

test('a person without the skill lead does not choose against triage', async () => {
  const quilt = await bench.assessedQuilt(await bench.household());
  const before = await recordOf(bench, quilt.id);
  const answer = await choose(quilt.id, 'hold-frozen', 'P2').expect(422);
  expect(answer.body).toMatchObject({ code: 'command_refused', errors: [{ pointer: '#/personId', code: 'not_a_lead' }] });
  expect(await recordOf(bench, quilt.id)).toEqual(before);
});

// Do-not-freeze: painted and composite textiles (CERF+; UK pocket salvage guide; University of Texas iSchool), as the rule book cites them.
test('no lead freezes a class that is not frozen: the answer names the rule, its source and the ways that are open', async () => {
  const costume = await bench.assessedQuilt(await bench.household(), { materialClass: 'textile-composite', sizeClass: 'garment' });
  const before = await recordOf(bench, costume.id);
  const { body } = await choose(costume.id, 'hold-frozen').expect(422);
  expect(body).toMatchObject({ code: 'command_refused', barredBy: [{ ruleId: 'textile.composite.no-freezing', source: { mark: 'published' } }], offered: expect.arrayContaining(['treat', 'refer']) });
  expect(body.detail).toContain('not frozen without a conservator');
  expect(await recordOf(bench, costume.id)).toEqual(before);
});

test('a reason is no formality', async () => {
  const quilt = await bench.assessedQuilt(await bench.household());
  const answer = await bench.network.post(`/v1/items/${quilt.id}/disposition-overrides`, { disposition: 'hold-frozen', reason: ' x ', personId: bench.incident.person('P1') }).expect(400);
  expect(answer.body.errors[0].pointer).toBe('#/reason');
});
