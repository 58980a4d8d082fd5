import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('choices that cannot be made are named all at once, and an incident of another network is not found', async () => {
  const wrong = await bench.network.post('/v1/rulebook/comparisons', { choices: { bleach: 'dilutions', nonsense: 'x' }, incidentId: bench.incident.id }).expect(422);
  expect(wrong.body.errors.map(({ code }: { code: string }) => code)).toEqual(['safety_floor', 'choice_unknown']);
  const stranger = await bench.server.network();
  expect((await stranger.post('/v1/rulebook/comparisons', { choices: {}, incidentId: bench.incident.id }).expect(404)).body.code).toBe('not_found');
});
