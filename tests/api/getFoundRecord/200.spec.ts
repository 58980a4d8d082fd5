import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { ClaimDesks, FINDER, MARKS, PLACE } from '../support/found-items.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let desks: ClaimDesks;
beforeAll(async () => {
  bench = await Workbench.open();
  desks = await ClaimDesks.open(bench);
});
afterAll(() => bench.close());

test('tells where and by whom it was found and what is asked, never an answer; each look is in the audit', async () => {
  const { id, itemId } = await desks.found();
  await desks.claim(itemId, (await bench.household()).id, ['Glockenspielchen']);
  const { body, text } = await bench.network.get(`/v1/items/${itemId}/found-record`).expect(200);
  expect(body).toMatchObject({ id, itemId, foundOn: '2026-05-08', foundPlace: PLACE, finder: FINDER, ownerKnown: false, questions: MARKS.map(({ question }) => ({ question })), claims: [{ state: 'open' }] });
  expect(text).not.toMatch(/brass|Ottilie|Glocken/);
  const audit = (await bench.network.get('/v1/audit-entries?limit=200').expect(200)).body.items as { operation: string; subjectId: string; outcome: string }[];
  expect(audit.filter(({ operation, subjectId, outcome }) => operation === 'getFoundRecord' && subjectId === itemId && outcome === 'read').length).toBeGreaterThan(1);
});

test('no list, search or read of the item holds a mark, an answer, the place or the finder', async () => {
  const { itemId } = await desks.found();
  const { network, incident } = bench;
  const texts = await Promise.all([`/v1/items/${itemId}`, `/v1/incidents/${incident.id}/items?limit=200`, `/v1/incidents/${incident.id}/item-search?q=quilt`, `/v1/items/${itemId}/triage`, `/v1/items/${itemId}/custody-events`].map(async (path) => (await network.get(path).expect(200)).text));
  for (const text of texts) expect(text).not.toMatch(/brass|Ottilie|sewn into|Karmesin|Xanthippe/);
  for (const word of ['brass', 'Ottilie', 'Karmesin', 'Xanthippe']) expect((await network.get(`/v1/incidents/${incident.id}/item-search?q=${word}`).expect(200)).body.hits).toEqual([]);
});

test('404 for a thing that was not found, and for one of another network', async () => {
  const { itemId } = await desks.found();
  await (await bench.server.network()).get(`/v1/items/${itemId}/found-record`).expect(404);
  await bench.network.get(`/v1/items/${(await bench.takeIn(await bench.household())).id}/found-record`).expect(404);
});
