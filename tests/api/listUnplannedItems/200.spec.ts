import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, takeInTestHousehold, takeInTestItem, type TestServer } from '#testing';
import { planNow } from '../../unit/plan-problem/support/runs.js';

let server: TestServer;
beforeAll(async () => { server = await startTestServer(); });
afterAll(() => server.close());

test('the greatest weight stands first, each with its reason and where it is, and pages hold each item once', async () => {
  const network = await server.network();
  const incident = await network.incident((document) => { for (const person of document.people ?? []) person.shifts = []; });
  const household = await takeInTestHousehold(network, incident);
  const count: Record<string, number> = { everyday: 2, irreplaceable: 2, treasured: 1 };
  for (const [significance, n] of Object.entries(count)) for (let i = 0; i < n; i += 1) await takeInTestItem(network, incident, household, { significance, materialClass: 'textile-flat-small', sizeClass: 'garment' });
  await planNow(server, network, incident);
  const items: { itemId: string; weight: number }[] = [];
  let cursor = '';
  for (;;) {
    const { body } = await network.get(`/v1/incidents/${incident.id}/plan/unplanned?limit=2${cursor}`).expect(200);
    items.push(...body.items);
    if (body.nextCursor === null) break;
    cursor = `&cursor=${encodeURIComponent(body.nextCursor)}`;
  }
  expect(items).toHaveLength(5);
  expect(new Set(items.map(({ itemId }) => itemId)).size).toBe(5);
  expect(items.map(({ weight }) => weight)).toEqual(items.map(({ weight }) => weight).sort((a, b) => b - a));
  expect(items[0]).toMatchObject({ blockedBy: { kind: 'crew', what: 'assessment', text: 'nobody free with the skill “assessment”' }, keeper: { kind: 'holding' }, stabilised: false, siteId: incident.site() });
});

test('a freezer that is too small is named by its code', async () => {
  const network = await server.network();
  const incident = await network.incident((document) => {
    document.sites[0]!.stations?.push({ code: 'BENCH', name: 'Bench', zone: 'dirty', steps: ['wrap', 'stabilise'], capacity: 2, openings: document.sites[0]!.stations[0]!.openings ?? [] });
    document.sites[0]!.freezers![0]!.volumeL = 5;
  });
  const household = await takeInTestHousehold(network, incident);
  const item = await takeInTestItem(network, incident, household, { materialClass: 'book-bound', sizeClass: 'book', count: 200 });
  await planNow(server, network, incident);
  const { body } = await network.get(`/v1/incidents/${incident.id}/plan/unplanned`).expect(200);
  expect(body.items).toMatchObject([{ itemId: item.id, blockedBy: { kind: 'freezer', what: incident.freezer('F1'), text: 'no free freezer volume, the largest freezer is F1' } }]);
});
