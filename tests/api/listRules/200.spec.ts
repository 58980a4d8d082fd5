import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { buildBook, RULE_BOOK } from '#care';
import { startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

type RuleShown = { id: string; text: string; conclusions: string[]; source: { mark: string; cite: string }; floor: boolean; since: string };

async function all(query: string): Promise<RuleShown[]> {
  const rules: RuleShown[] = [];
  for (let cursor = ''; ; ) {
    const { body } = await network.get(`/v1/rulebook/rules?limit=40${query}${cursor}`).expect(200);
    rules.push(...body.items);
    if (body.nextCursor === null) return rules;
    cursor = `&cursor=${encodeURIComponent(body.nextCursor)}`;
  }
}

test('every rule is shown once, over all pages, with its conclusions in words and what it rests on', async () => {
  const rules = await all('');
  expect(rules.map(({ id }) => id)).toEqual(RULE_BOOK.map(({ id }) => id).toSorted());
  for (const { id, text, conclusions, source } of rules) {
    expect([id, text.length > 5, source.cite.length > 5]).toEqual([id, true, true]);
    // Nothing is said in codes: no braces, no names of conclusions.
    for (const words of conclusions) expect([id, /[{}]|undefined|hold-frozen|bar-people/.test(words), words.length > 3]).toEqual([id, false, true]);
  }
});

test('filters by material and by mark narrow the list and can be combined', async () => {
  const quilts = await all('&materialClass=textile-quilt-padded');
  expect(quilts.map(({ id }) => id)).toContain('mould.clock');
  expect(quilts.some(({ id }) => id.startsWith('painting.'))).toBe(false);
  const remembered = await all('&mark=from-memory');
  expect(new Set(remembered.map(({ source }) => source.mark))).toEqual(new Set(['from-memory']));
  const both = await all('&materialClass=textile-quilt-padded&mark=published');
  expect(both.length).toBeLessThan(quilts.length);
  expect(both.every(({ source }) => source.mark === 'published')).toBe(true);
});

test('the rules are those of the book that the network follows', async () => {
  const incident = await network.incident();
  const shown = async (id: string) => (await all('')).find((rule) => rule.id === id);
  const clock = (await shown('mould.clock'))?.conclusions.join(' ') ?? '';
  expect(clock).toContain('48');
  await network.post('/v1/rulebook/choices', { choices: { 'heat-for-metal': 'none', 'mould-clock': '24h' }, reason: 'No warmth in this hall.', personId: incident.person('P1') }, { 'if-match': '"0"' }).expect(201);
  expect((await shown('mould.clock'))?.conclusions.join(' ')).toContain('after 24 hours');
  expect(await shown('metal.gentle-warmth')).toBeUndefined();
});

test('a mark that there is not, and a cursor of another filter, are refused', async () => {
  await network.get('/v1/rulebook/rules?mark=hearsay').expect(400);
  const { body } = await network.get('/v1/rulebook/rules?limit=1').expect(200);
  expect((await network.get(`/v1/rulebook/rules?limit=1&mark=published&cursor=${encodeURIComponent(body.nextCursor)}`).expect(400)).body.code).toBe('cursor_invalid');
});

test('the rules of another release are listed as they stood, each with the release that first had it so', async () => {
  const old = await all('&release=2026.2');
  expect(old.map(({ id }) => id)).toEqual(buildBook({ release: '2026.2', choices: { 'heat-for-metal': 'none', 'mould-clock': '24h' } }).rules.map(({ id }) => id).toSorted());
  const shown = async (release: string) => (await all(`&release=${release}`)).find(({ id }) => id === 'photo.colour.route');
  const [before, now] = [await shown('2026.2'), await shown('2026.11')];
  expect([before?.since, now?.since]).toEqual(['2026.2', '2026.11']);
  expect(before?.conclusions).toContain('Never touch the picture side.');
  expect(now?.conclusions).not.toContain('Never touch the picture side.');
});
