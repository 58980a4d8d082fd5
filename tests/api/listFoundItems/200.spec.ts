import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { ClaimDesks } from '../support/found-items.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let desks: ClaimDesks;
beforeAll(async () => {
  bench = await Workbench.open();
  desks = await ClaimDesks.open(bench);
});
afterAll(() => bench.close());

const list = async (query = '') => (await bench.network.get(`/v1/incidents/${bench.incident.id}/found-items${query}`).expect(200)).body as { items: { id: string; itemId: string; state: string }[]; nextCursor: string | null };
const idsIn = async (state: string) => (await list(`?state=${state}&limit=200`)).items.map(({ itemId }) => itemId);

test('each thing stands in one state: unclaimed, claimed, decided, ended; and the filter finds it there alone', async () => {
  const [none, claimed, owned, gone] = [await desks.found(), await desks.found(), await desks.found(), await desks.found()];
  const household = await bench.household();
  await desks.claim(claimed.itemId, household.id);
  for (const { itemId } of [owned, gone]) await desks.grant((await desks.claim(itemId, household.id)).id);
  await bench.handBack(household, [gone.itemId]).expect(201);
  const { items } = await list('?limit=200');
  expect(items.map(({ itemId, state }) => [itemId, state])).toEqual([[none.itemId, 'unclaimed'], [claimed.itemId, 'claimed'], [owned.itemId, 'decided'], [gone.itemId, 'ended']]);
  expect(items[1]).toMatchObject({ id: claimed.id, tag: expect.any(String), description: 'Quilt, red and white', materialClass: 'textile-quilt-padded', count: 1, foundOn: '2026-05-08', questions: 2, openClaims: 1, uncollectedId: null });
  for (const [state, id] of [['unclaimed', none.itemId], ['claimed', claimed.itemId], ['decided', owned.itemId], ['ended', gone.itemId]] as const) expect([state, await idsIn(state)]).toEqual([state, [id]]);
});

test('no page tells a mark, an answer, the place or the finder', async () => {
  await desks.found();
  const { text } = await bench.network.get(`/v1/incidents/${bench.incident.id}/found-items?limit=200`).expect(200);
  expect(text).not.toMatch(/brass|Ottilie|sewn into|Karmesin|Xanthippe/);
});

test('goes on by its cursor without a gap or a repetition, and a cursor belongs to its filter', async () => {
  for (let found = 0; found < 3; found += 1) await desks.found();
  const all = await idsIn('unclaimed');
  const told: string[] = [];
  let cursor: string | null = null;
  do {
    const page: Awaited<ReturnType<typeof list>> = await list(`?state=unclaimed&limit=2${cursor === null ? '' : `&cursor=${cursor}`}`);
    told.push(...page.items.map(({ itemId }) => itemId));
    cursor = page.nextCursor;
  } while (cursor !== null);
  expect(told).toEqual(all);
  const { nextCursor } = await list('?state=unclaimed&limit=1');
  expect((await bench.network.get(`/v1/incidents/${bench.incident.id}/found-items?state=claimed&limit=1&cursor=${nextCursor}`).expect(400)).body.code).toBe('cursor_invalid');
});

test('403 without the scope, 404 for another network, 400 for no state of ours', async () => {
  const path = `/v1/incidents/${bench.incident.id}/found-items`;
  const reader = bench.network.as(await bench.network.newKey({ scopes: ['item:read'] }));
  expect((await reader.get(path).expect(403)).body.code).toBe('scope_missing');
  await (await bench.server.network()).get(path).expect(404);
  await bench.network.get(`${path}?state=lost`).expect(400);
});
