import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { StockTaking } from '../support/stock-takes.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let taking: StockTaking;
beforeAll(async () => {
  bench = await Workbench.open();
  taking = new StockTaking(bench);
});
afterAll(() => bench.close());

test('tags that lead to nothing of ours are foreign, each with words; another network reads like a tag that never was', async () => {
  const reserve = async (network = bench.network, incidentId = bench.incident.id) => (await network.post(`/v1/incidents/${incidentId}/tag-blocks`, { kind: 'item', count: 1, reservedFor: 'tests' }).expect(201)).body.tags[0] as string;
  const other = await bench.network.incident();
  const [retired] = await taking.shirts(1);
  const fresh = await reserve();
  await bench.network.post(`/v1/tags/${retired!.tag}/replacements`, { newTag: fresh, reason: 'damaged' }).expect(201);
  const tags = { unknown: await taking.foreignTag(), never: 'KZZZ-ZZZ-04', free: await reserve(), other: await reserve(bench.network, other.id), retired: retired!.tag };
  const id = await taking.begin([bench.holding('clean')]);
  const { body } = await taking.send(id, Object.values(tags).map((tag) => taking.seen(tag, bench.holding('clean')))).expect(200);
  const standings = (body.results as { standing: string | null; problem: { code: string } | null }[]).map(({ standing, problem }) => standing ?? problem?.code);
  expect(standings.filter((_, index) => index !== 1)).toEqual(['unknown', 'not-tied', 'other-incident', 'retired']);
  const differences = await taking.differences(id);
  const byStanding = new Map(differences.map((difference) => [difference.standing, difference]));
  expect([...byStanding.keys()].sort()).toEqual(['not-tied', 'other-incident', 'retired', 'unknown']);
  expect(new Set([...byStanding.values()].map(({ words }) => words)).size).toBe(4);
  expect(byStanding.get('unknown')?.words).toBe('Nobody here knows this tag. Read it again; if it is right, give the thing to the coordinator.');
  expect(byStanding.get('retired')?.words).toContain('Look for that tag on the thing');
  for (const difference of differences) expect(difference).toMatchObject({ kind: 'foreign', itemId: null, recorded: null, resolutions: ['foreign-to-coordinator', 'recount'] });
});

test('pages go through all of them once, in their order', async () => {
  await taking.shirts(5);
  const id = await taking.begin([bench.holding('dirty')]);
  const seen: string[] = [];
  let path: string | null = `/v1/stock-takes/${id}/differences?limit=2`;
  while (path !== null) {
    const { body }: { body: { items: { id: string }[]; nextCursor: string | null } } = await bench.network.get(path).expect(200);
    seen.push(...body.items.map((difference) => difference.id));
    path = body.nextCursor ? `/v1/stock-takes/${id}/differences?limit=2&cursor=${encodeURIComponent(body.nextCursor)}` : null;
  }
  expect(seen).toEqual((await taking.differences(id)).map((difference) => difference.id));
});
