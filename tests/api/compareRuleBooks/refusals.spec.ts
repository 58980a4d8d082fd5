import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('choices that cannot be made are named all at once, and an incident of another network is not found', async () => {
  const wrong = await bench.network.post('/v1/rulebook/comparisons', { from: { release: '2026.2', choices: { 'wrap-bench': 'at-the-freezer' } }, to: { choices: { bleach: 'dilutions', nonsense: 'x' } }, incidentId: bench.incident.id }).expect(422);
  expect(wrong.body.errors.map(({ pointer, code }: { pointer: string; code: string }) => `${pointer} ${code}`)).toEqual(['#/from/choices/wrap-bench choice_unknown', '#/to/choices/bleach safety_floor', '#/to/choices/nonsense choice_unknown']);
  expect(wrong.body.errors[0].detail).toContain('release 2026.2');
  const stranger = await bench.server.network();
  expect((await stranger.post('/v1/rulebook/comparisons', { to: { choices: {} }, incidentId: bench.incident.id }).expect(404)).body.code).toBe('not_found');
});

test('a release that there is not, and something that nobody compares, are refused with what there is', async () => {
  const unknown = await bench.network.post('/v1/rulebook/comparisons', { to: { release: '2019.1' }, only: ['colour'], incidentId: bench.incident.id }).expect(400);
  expect(unknown.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual(['#/to/release', '#/only/0']);
  expect(JSON.stringify(unknown.body.errors)).toContain('2026.11');
});
