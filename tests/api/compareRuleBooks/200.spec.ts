import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { RULE_BOOK_VERSION } from '#care';
import { networkDigest, takeInManyTestItems } from '#testing';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const compare = (choices: object, more: object = {}) => bench.network.post('/v1/rulebook/comparisons', { to: { choices }, incidentId: bench.incident.id, ...more });

test('before a lead decides she sees what would change: how many, how first ways move, and the less strictly judged first; nothing is stored', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  await takeInManyTestItems(bench.server, bench.network, bench.incident, household, 4);
  const gone = await bench.takeIn(household);
  await bench.handBack(household, [gone.id]).expect(201);
  const before = await networkDigest(bench.server.admin, bench.network.networkId);
  const { body, headers } = await compare({ 'rinse-soaked-pieces': 'museum' }).expect(200);
  expect(headers['idempotency-key']).toBeUndefined();
  expect(await networkDigest(bench.server.admin, bench.network.networkId)).toEqual(before);
  expect(body).toMatchObject({ versions: { before: RULE_BOOK_VERSION, after: `${RULE_BOOK_VERSION}+rinse-soaked-pieces=museum` }, items: 6, compared: 6, more: 0 });
  // By CCI Notes 13/14 stuffed quilts are not rinsed; garments are not concerned.
  const shown = body.differing.find((thing: { itemId: string }) => thing.itemId === quilt.id);
  expect(shown).toMatchObject({ tag: quilt.tag, differences: expect.arrayContaining([expect.objectContaining({ what: 'route' }), expect.objectContaining({ what: 'never' })]) });
  expect(body.changed).toBe(body.differing.length);
  expect(body.counts.route).toBeGreaterThan(0);
});

test('things that would be judged less strictly stand first and are counted', async () => {
  const { body } = await compare({ 'mould-clock': '72h', 'rinse-soaked-pieces': 'museum' }).expect(200);
  expect(body.laxer).toBeGreaterThan(0);
  const marks: boolean[] = body.differing.map((thing: { laxer: boolean }) => thing.laxer);
  expect(marks).toEqual(marks.toSorted((a, b) => Number(b) - Number(a)));
  expect(marks.filter(Boolean)).toHaveLength(body.laxer);
});

test('the same choices change nothing', async () => {
  expect((await compare({}).expect(200)).body).toMatchObject({ changed: 0, laxer: 0, differing: [], firstDispositions: [] });
});

test('others are answered while hundreds of things are compared', async () => {
  await takeInManyTestItems(bench.server, bench.network, bench.incident, await bench.household(), 600);
  const order: string[] = [];
  const comparing = compare({ 'mould-clock': '24h' }).expect(200).then(({ body }) => {
    order.push('comparison');
    return body;
  });
  const others = Array.from({ length: 5 }, async () => {
    await bench.network.get('/v1/rulebook').expect(200);
    order.push('other');
  });
  const [body] = await Promise.all([comparing, ...others]);
  expect(order.at(-1)).toBe('comparison');
  expect(body.compared).toBeGreaterThan(300);
  expect(body.differing.length).toBeLessThanOrEqual(100);
  expect(body.more).toBe(body.changed - body.differing.length);
}, 120_000);

test('two releases are compared over what is on record: what the newer one says more is counted by kind, nothing is judged less strictly, and the way back is', async () => {
  const household = await bench.household();
  const acetate = await bench.takeIn(household);
  await bench.assess(acetate.id, { fibre: 'acetate', materialClass: 'textile-flat-small' }).expect(201);
  const there = (await compare({}, { from: { release: '2026.2' }, to: { release: '2026.11' } }).expect(200)).body;
  expect(there).toMatchObject({ versions: { before: '2026.2', after: '2026.11' }, laxer: 0 });
  expect(there.changed).toBe(there.compared);
  expect([there.counts.cautions > 0, there.counts.never > 0, there.counts.startBy]).toEqual([true, true, 0]);
  // CCI Notes 13/14 and 13/7: early man-made fibres are no candidates for washing.
  const strict = (await compare({}, { from: { release: '2026.2' }, to: { release: '2026.11' }, only: ['never'] }).expect(200)).body;
  expect(strict.differing.map((thing: { itemId: string }) => thing.itemId)).toEqual([acetate.id]);
  expect([strict.changed, strict.counts]).toEqual([there.changed, there.counts]);
  const back = (await compare({}, { from: { release: '2026.11' }, to: { release: '2026.2' }, only: ['never'] }).expect(200)).body;
  expect(back.differing).toMatchObject([{ itemId: acetate.id, laxer: true }]);
});
