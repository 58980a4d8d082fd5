import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';
import { preview } from '../startRetention/retention.support.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('the dry run changes nothing, tells nothing of anybody, and is for keys that may see to privacy alone', async () => {
  const household = await bench.household();
  await bench.takeIn(household, { familyWords: 'Carried over the bridge' });
  const rows = async () => (await bench.server.admin.query('select (select count(*) from outbox) as outbox, (select count(*) from retention_run) as runs, (select max(xmin::text::bigint) from household) as household, (select max(xmin::text::bigint) from item) as item')).rows;
  const before = await rows();
  const shown = await preview(bench);
  expect(shown.items).toEqual([{ householdId: household.id, countsFrom: null, goes: [], stays: expect.arrayContaining([{ kind: 'words', count: 1, reasons: ['things-held', 'incident-open', 'not-yet-due'], dueAt: null }]) }]);
  expect(JSON.stringify(shown)).not.toMatch(/Contact of|bridge/);
  expect(await rows()).toEqual(before);
  const reader = bench.network.as(await bench.network.newKey({ scopes: ['household:read', 'item:read'] }));
  await reader.get(`/v1/incidents/${bench.incident.id}/retention-preview`).expect(403);
});
