import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { CUSTODY_EVENT_KINDS } from '#custody';
import { Workbench } from '../support/workbench.js';
import { refusedChangingNothing } from '../support/matters.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('kinds that have commands of their own are not to be had here, whatever they say', async () => {
  const quilt = await bench.takeIn(await bench.household());
  const taken = ['moved', 'work-started', 'work-ended', 'drying-started', 'drying-ended', 'frozen', 'thawed', 'held-wet', 'correction'];
  const others = CUSTODY_EVENT_KINDS.filter((kind) => !taken.includes(kind));
  expect(others).toHaveLength(17);
  for (const kind of others) {
    const answer = await refusedChangingNothing(bench, () => bench.network.post(`/v1/items/${quilt.id}/custody-events`, { kind, from: quilt.keeper, to: quilt.keeper, personId: bench.incident.person('P1') }));
    expect(answer).toMatchObject({ status: 400, body: { code: 'validation_failed', errors: [{ pointer: '#/kind' }] } });
  }
});
