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

const chainOf = async (itemId: string) => (await bench.network.get(`/v1/items/${itemId}/custody-events`).expect(200)).body.items as { seq: number; kind: string; to: object; stage: string; refs: Record<string, string>; corrects: { seq: number; reason: string } | null }[];

/** A shirt that lies on the clean side though the record has it on the dirty one. */
async function misplaced() {
  const [shirt] = await taking.shirts(1);
  const id = await taking.begin([bench.holding('dirty')]);
  await taking.send(id, [taking.seen(shirt!.tag, bench.holding('clean'))]).expect(200);
  return { id, shirt: shirt! };
}
const about = async (id: string, itemId: string) => (await taking.differences(id)).find((difference) => difference.itemId === itemId);

test('move-on-record: the record follows the thing by a correction that says why and who', async () => {
  const { id, shirt } = await misplaced();
  const { body } = await taking.resolve(id, shirt.id, 'move-on-record', { reason: 'Lay under the table' }).expect(201);
  expect((await bench.read(shirt.id)).keeper).toEqual(bench.holding('clean'));
  const last = (await chainOf(shirt.id)).at(-1);
  expect(last).toMatchObject({ seq: body.eventSeq, kind: 'correction', corrects: { seq: body.eventSeq - 1, reason: 'stock-take' }, refs: { stockTakeId: id, personId: taking.lead, reason: 'Lay under the table' } });
  expect(await about(id, shirt.id)).toBeUndefined();
  expect((await taking.read(id)).resolutions).toEqual([body]);
});

test('what it means for the clock: seen on a rack it dries; seen in a freezer it waits until somebody says that it is frozen; a frozen thing seen outside waits, and its clock runs again', async () => {
  const [hung, laid, thawed] = await taking.shirts(3);
  await bench.pass(thawed!.id, 'frozen', bench.freezer());
  const id = await taking.begin([bench.holding('dirty'), bench.freezer()]);
  const rack = { kind: 'drying-place', id: bench.incident.place('R1') };
  await taking.send(id, [taking.seen(hung!.tag, rack), taking.seen(laid!.tag, bench.freezer()), taking.seen(thawed!.tag, bench.holding('cold'))]).expect(200);
  const after = async (item: { id: string }) => {
    await taking.resolve(id, item.id, 'move-on-record').expect(201);
    return (await bench.server.admin.query('select stage, keeper_kind, stabilised_at is not null as still from item where id = $1', [item.id])).rows[0];
  };
  expect(await after(hung!)).toEqual({ stage: 'drying', keeper_kind: 'drying-place', still: true });
  expect(await after(laid!)).toEqual({ stage: 'waiting', keeper_kind: 'freezer', still: false });
  expect(await after(thawed!)).toEqual({ stage: 'waiting', keeper_kind: 'holding', still: false });
});

test('put-back: the thing follows the record; nothing is put on record, and a later look elsewhere opens it again', async () => {
  const { id, shirt } = await misplaced();
  expect((await taking.resolve(id, shirt.id, 'put-back').expect(201)).body.eventSeq).toBeNull();
  expect(await chainOf(shirt.id)).toHaveLength(1);
  expect(await about(id, shirt.id)).toBeUndefined();
  bench.server.clock.set(bench.server.clock.nowMs() + 1_000);
  await taking.send(id, [taking.seen(shirt.tag, bench.holding('cold'))]).expect(200);
  expect(await about(id, shirt.id)).toMatchObject({ kind: 'misplaced', state: 'open' });
});

test('reported-missing: an event says that it was looked for; seen again, it is open again and found by moving it on record', async () => {
  const [shirt] = await taking.shirts(1);
  const id = await taking.begin([bench.holding('dirty')]);
  await taking.resolve(id, shirt!.id, 'reported-missing').expect(201);
  expect((await chainOf(shirt!.id)).at(-1)?.kind).toBe('reported-missing');
  expect(await about(id, shirt!.id)).toMatchObject({ kind: 'missing', state: 'settled' });
  await taking.send(id, [taking.seen(shirt!.tag, bench.holding('dirty'))]).expect(200);
  expect(await about(id, shirt!.id)).toMatchObject({ kind: 'misplaced', state: 'open' });
  await taking.resolve(id, shirt!.id, 'move-on-record').expect(201);
  expect((await chainOf(shirt!.id)).at(-1)?.kind).toBe('found-again');
  expect(await about(id, shirt!.id)).toBeUndefined();
});

test('recount: earlier looks count no more, and it waits for the next one', async () => {
  const { id, shirt } = await misplaced();
  await taking.resolve(id, shirt.id, 'recount').expect(201);
  expect(await about(id, shirt.id)).toMatchObject({ kind: 'missing', state: 'open' });
  await taking.send(id, [taking.seen(shirt.tag, bench.holding('dirty'))]).expect(200);
  expect(await about(id, shirt.id)).toBeUndefined();
});

test('foreign-to-coordinator: a tag that nobody knows is settled until it is scanned again; a thing of ours from elsewhere can be put on record here', async () => {
  const [stray] = await taking.shirts(1);
  const unknown = await taking.foreignTag();
  const id = await taking.begin([bench.holding('cold')]);
  await taking.send(id, [taking.seen(unknown, bench.holding('cold')), taking.seen(stray!.tag, bench.holding('cold'))]).expect(200);
  const foreign = (await taking.differences(id)).find(({ standing }) => standing === 'unknown');
  await taking.resolve(id, foreign!.id, 'foreign-to-coordinator').expect(201);
  expect((await taking.differences(id)).find(({ standing }) => standing === 'unknown')?.state).toBe('settled');
  await taking.send(id, [taking.seen(unknown, bench.holding('cold'))]).expect(200);
  expect((await taking.differences(id)).find(({ standing }) => standing === 'unknown')?.state).toBe('open');
  await taking.resolve(id, stray!.id, 'move-on-record').expect(201);
  expect((await bench.read(stray!.id)).keeper).toEqual(bench.holding('cold'));
  expect(await about(id, stray!.id)).toBeUndefined();
});
