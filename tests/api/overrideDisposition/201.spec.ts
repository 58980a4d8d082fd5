import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const override = (itemId: string, person: string, disposition: string) => bench.network.post(`/v1/items/${itemId}/disposition-overrides`, { disposition, reason: 'The family leaves the region tomorrow.', personId: bench.incident.person(person) });

test('a lead chooses another way with a recorded reason, and it holds over the next triage', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await override(quilt.id, 'P1', 'hold-frozen').expect(201);
  expect(await bench.read(quilt.id)).toMatchObject({ disposition: 'hold-frozen' });
  const { body } = await bench.network.get(`/v1/items/${quilt.id}/triage`).expect(200);
  expect(body.override).toMatchObject({ disposition: 'hold-frozen' });
});

test('somebody who is not a lead is refused, and nothing changes', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  const before = await recordOf(bench, quilt.id);
  expect((await override(quilt.id, 'P2', 'hold-frozen').expect(422)).body.code).toBe('command_refused');
  expect(await recordOf(bench, quilt.id)).toEqual(before);
});

test('letting a thing go without the owner is refused to a lead too', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  const answer = await override(quilt.id, 'P1', 'release');
  expect([409, 422]).toContain(answer.status);
});
