import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { DISPOSITIONS, HAZARDS, RULE_BOOK } from '#care';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const floors = new Set(RULE_BOOK.filter(({ floor }) => floor).map(({ id }) => id));

test('whatever the hazard, no lead chooses a way that a safety floor closes; the answer names the floor, and nothing changes', async () => {
  const household = await bench.household();
  let refused = 0;
  for (const hazard of HAZARDS.filter((one) => one !== 'sharps')) {
    const { id } = await bench.takeIn(household);
    await bench.assess(id, { hazards: [hazard] }).expect(201);
    const { options } = (await bench.network.get(`/v1/items/${id}/triage`).expect(200)).body;
    const open = new Set(options.map(({ disposition }: { disposition: string }) => disposition));
    const before = await recordOf(bench, id);
    for (const disposition of DISPOSITIONS.filter((way) => !open.has(way) && way !== 'release')) {
      const { body } = await bench.network.post(`/v1/items/${id}/disposition-overrides`, { disposition, reason: 'We have no time for this.', personId: bench.incident.person('P1') }).expect(422);
      const named = body.barredBy.filter(({ floor }: { floor: boolean }) => floor).map(({ ruleId }: { ruleId: string }) => ruleId);
      expect([hazard, disposition, named.length > 0 && named.every((ruleId: string) => floors.has(ruleId))]).toEqual([hazard, disposition, true]);
      for (const ruleId of named) expect(body.detail).toContain(`\`${ruleId}\``);
      expect(body.detail).toContain('Safety floors that no lead lifts');
      refused += 1;
    }
    expect(await recordOf(bench, id)).toEqual(before);
  }
  expect(refused).toBeGreaterThan(20);
});
