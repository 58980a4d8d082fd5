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

test('the same scan sent again counts once, also at the same moment and by several people', async () => {
  const shirts = await taking.shirts(20);
  const id = await taking.begin([bench.holding('dirty')]);
  const batch = shirts.map(({ tag }) => taking.seen(tag, bench.holding('dirty')));
  const answers = await Promise.all([taking.send(id, batch), taking.send(id, batch.slice(0, 10)), taking.send(id, batch.slice(10).toReversed())]);
  const verdicts = answers.flatMap(({ body }) => (body.results as { verdict: string }[]).map(({ verdict }) => verdict));
  expect(answers.map(({ status }) => status)).toEqual([200, 200, 200]);
  expect(verdicts.filter((verdict) => verdict === 'counted')).toHaveLength(20);
  expect(verdicts.filter((verdict) => verdict === 'again')).toHaveLength(20);
  expect((await bench.server.admin.query('select 1 from stock_take_scan where stock_take_id = $1', [id])).rowCount).toBe(20);
  const twice = taking.seen(shirts[0]!.tag, bench.holding('dirty'));
  expect((await taking.send(id, [twice, twice]).expect(200)).body.results).toMatchObject([{ verdict: 'counted' }, { verdict: 'again' }]);
});

test('what cannot be read is refused by itself, with what to mend, and the rest is counted', async () => {
  const [shirt] = await taking.shirts(1);
  const id = await taking.begin([bench.holding('dirty')]);
  const dirty = bench.holding('dirty');
  const later = (ms: number) => ({ seenAt: new Date(bench.server.clock.nowMs() + ms).toISOString() });
  const { body } = await taking.send(id, [
    taking.seen('KBBB-BBB-99', dirty), taking.seen(shirt!.tag, dirty, { place: null }), taking.seen(shirt!.tag, { kind: 'shelf', id: bench.incident.id }), taking.seen(shirt!.tag, { kind: 'household', id: bench.incident.id }),
    taking.seen(shirt!.tag, dirty, later(-60_000)), taking.seen(shirt!.tag, dirty, later(600_000)), taking.seen(shirt!.tag, dirty, { personId: bench.incident.id }), taking.seen(shirt!.tag, dirty),
  ]).expect(200);
  const found = (body.results as { verdict: string; problem: { code: string; errors: { pointer: string }[] } | null }[]).map(({ verdict, problem }) => [verdict, problem?.code ?? null, problem?.errors[0]?.pointer ?? null]);
  expect(found).toEqual([
    ['refused', 'tag_invalid', '#/scans/0/itemTag'], ['refused', 'command_refused', '#/scans/1/placeTag'], ['refused', 'reference_unknown', '#/scans/2/place/id'], ['refused', 'command_refused', '#/scans/3/place/kind'],
    ['refused', 'command_refused', '#/scans/4/seenAt'], ['refused', 'command_refused', '#/scans/5/seenAt'], ['refused', 'reference_unknown', '#/scans/6/personId'], ['counted', null, null],
  ]);
});

test('a place is scanned by its tag, too', async () => {
  const [shirt] = await taking.shirts(1);
  const [tag] = (await bench.network.post(`/v1/incidents/${bench.incident.id}/tag-blocks`, { kind: 'container', count: 1, reservedFor: 'tests' }).expect(201)).body.tags as string[];
  const box = (await bench.network.post(`/v1/incidents/${bench.incident.id}/containers`, { siteId: bench.incident.site(), tag, kind: 'box', to: bench.holding('clean') }).expect(201)).body;
  await bench.pass(shirt!.id, 'moved', { kind: 'container', id: box.id });
  const id = await taking.begin([{ kind: 'container', id: box.id }]);
  await taking.send(id, [taking.seen(shirt!.tag, bench.holding('clean'), { place: null, placeTag: tag })]).expect(200);
  expect(await taking.read(id)).toMatchObject({ expected: 1, inPlace: 1 });
});

test('what was seen is seen by the record: it moves on when the thing was last met, and nothing else', async () => {
  const [shirt] = await taking.shirts(1);
  const before = (await bench.server.admin.query('select * from item where id = $1', [shirt!.id])).rows[0];
  bench.server.clock.set(bench.server.clock.nowMs() + 3_600_000);
  const id = await taking.begin([bench.holding('dirty')]);
  await taking.send(id, [taking.seen(shirt!.tag, bench.holding('clean'))]).expect(200);
  const after = (await bench.server.admin.query('select * from item where id = $1', [shirt!.id])).rows[0];
  expect(after.last_seen_at.getTime()).toBe(bench.server.clock.nowMs());
  expect({ ...after, last_seen_at: null }).toEqual({ ...before, last_seen_at: null });
});
