import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('what a person saw changes what comes next, with reasons that name their rules', async () => {
  const quilt = await bench.takeIn(await bench.household());
  const seen = await bench.assess(quilt.id).expect(201);
  expect(seen.body).toMatchObject({ disposition: 'treat', nextStep: 'colour-test' });
  expect(seen.body.reasons.length).toBeGreaterThan(0);
  expect(seen.body.reasons.every((reason: { ruleId: string; source: { mark: string } }) => reason.ruleId !== '' && reason.source.mark !== '')).toBe(true);
});

test("another network's item answers 404 and is not touched", async () => {
  const quilt = await bench.takeIn(await bench.household());
  const before = await recordOf(bench, quilt.id);
  const stranger = await bench.server.network();
  await stranger.post(`/v1/items/${quilt.id}/assessments`, { personId: bench.incident.person('P1'), fibre: 'cotton' }).expect(404);
  expect(await recordOf(bench, quilt.id)).toEqual(before);
});
