import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

interface Entry {
  origin: string;
  firstDisposition: string;
  seenAgain: { reason: string } | null;
  change: { inWords: string[]; observations: string[]; differences: { what: string }[]; rulesGained: { ruleId: string; because: string[] }[]; byTimeAlone: boolean } | null;
}

async function history(itemId: string, query = ''): Promise<{ items: Entry[]; nextCursor: string | null }> {
  return (await bench.network.get(`/v1/items/${itemId}/triage/history${query}`).expect(200)).body;
}

test('every triage stands there newest first, with what it changed against the one before and why, in words and as data', async () => {
  const quilt = await bench.takeIn(await bench.household());
  await bench.assess(quilt.id).expect(201);
  const bled = await bench.colourTest(quilt.id, 'any-transfer').expect(201);
  const { items } = await history(quilt.id);
  expect(items.map(({ origin }) => origin)).toEqual(['colour-test', 'person', 'person']);
  expect(items[2]?.change).toBeNull();
  expect(items[0]?.change).toEqual(bled.body.change);
  expect(items[0]?.change).toMatchObject({ observations: ['colourTests', 'allColoursTested'], byTimeAlone: false, rulesGained: expect.arrayContaining([{ ruleId: 'textile.bleeding.refer-always', because: expect.arrayContaining(['colourTests']) }]) });
  expect(items[0]?.change?.inWords.at(-1)).toBe('Told anew: colour tests, whether every colour is tested.');
  expect(items[1]?.change?.observations).toEqual(expect.arrayContaining(['fibre', 'wetState']));
});

test('a look that corrects an earlier one is kept with its reason, and so is the earlier one', async () => {
  const quilt = await bench.assessedQuilt(await bench.household());
  const reason = 'Under the lamp the thread is silk,\nnot cotton.';
  await bench.assess(quilt.id, { fibre: 'silk', seenAgain: { reason } }).expect(201);
  const { items } = await history(quilt.id);
  expect(items[0]).toMatchObject({ seenAgain: { reason }, change: { observations: ['fibre'] } });
  expect(items[1]?.seenAgain).toBeNull();
});

test('work that only stops the clocks is a change by the work alone', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.network.post(`/v1/items/${quilt.id}/disposition-overrides`, { disposition: 'hold-frozen', reason: 'The tables are full.', personId: bench.incident.person('P1') }).expect(201);
  await bench.report(quilt.id, 'wrap').expect(201);
  const frozen = await bench.report(quilt.id, 'freeze', 'done', { to: bench.freezer() }).expect(201);
  const { items } = await history(quilt.id);
  expect(items[0]?.change).toEqual(frozen.body.change);
  expect(items[0]?.change).toMatchObject({ byTimeAlone: true, observations: [] });
});

test('pages join without a gap, and the change at the end of a page is against the first of the next', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  const whole = await history(quilt.id);
  const paged: Entry[] = [];
  for (let cursor = ''; ; ) {
    const page = await history(quilt.id, `?limit=1${cursor}`);
    paged.push(...page.items);
    if (page.nextCursor === null) break;
    cursor = `&cursor=${encodeURIComponent(page.nextCursor)}`;
  }
  expect(paged).toEqual(whole.items);
});

test('in Spanish the words are Spanish and the data stay', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  const { body } = await bench.network.get(`/v1/items/${quilt.id}/triage/history`, { 'accept-language': 'es' }).expect(200);
  const english = await history(quilt.id);
  expect(body.items[0].change.inWords.join(' ')).not.toBe(english.items[0]?.change?.inWords.join(' '));
  expect(body.items[0].change.observations).toEqual(english.items[0]?.change?.observations);
});

test("another network's item answers 404", async () => {
  const quilt = await bench.takeIn(await bench.household());
  const stranger = await bench.server.network();
  await stranger.get(`/v1/items/${quilt.id}/triage/history`).expect(404);
});
