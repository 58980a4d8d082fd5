import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { reserveTestTags } from '#testing';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('a freezer without room takes nothing at the doorway either, the tag stays free, and two doors cannot share its last place', async () => {
  const household = await bench.household();
  const tags = await reserveTestTags(bench.network, bench.incident, 3);
  const take = (tag: string | undefined) =>
    bench.network.post(`/v1/incidents/${bench.incident.id}/items`, {
      householdId: household.id, siteId: bench.incident.site(), tag, count: 6, description: 'Six quilts, bagged', materialClass: 'textile-quilt-padded', sizeClass: 'double-quilt', to: bench.freezer(),
    });
  const answers = await Promise.all(tags.map(take));
  expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409]);
  const refused = answers.findIndex(({ status }) => status === 409);
  expect(answers[refused]?.body).toMatchObject({ code: 'capacity_full', place: bench.freezer(), unit: 'L' });
  const found = await bench.network.get(`/v1/tags/${tags[refused]}`).expect(200);
  expect(found.body.item).toBeNull();
});
