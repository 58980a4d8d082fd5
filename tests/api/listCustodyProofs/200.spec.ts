import { createHash } from 'node:crypto';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { HOUR_MS, makeRoots } from '../support/custody-roots.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const sha256 = (...parts: (Buffer | string)[]) => createHash('sha256').update(Buffer.concat(parts.map((part) => Buffer.from(part as string)))).digest();

/** RFC 9162, section 2.1.3.2, written down a second time, as a third party would from the text. */
function rootBy(leaf: Buffer, index: number, size: number, path: Buffer[]): Buffer {
  let [fn, sn, r] = [index, size - 1, leaf];
  for (const p of path) {
    if (fn % 2 === 1 || fn === sn) {
      r = sha256(Buffer.of(1), p, r);
      if (fn % 2 === 0) while (fn % 2 === 0 && fn !== 0) [fn, sn] = [fn >> 1, sn >> 1];
    } else r = sha256(Buffer.of(1), r, p);
    [fn, sn] = [fn >> 1, sn >> 1];
  }
  return r;
}

test('every event that is under a root is proved by a path that a stranger can walk, without a word of other things', async () => {
  const household = await bench.household();
  const items = [];
  for (let n = 0; n < 5; n += 1) items.push(await bench.takeIn(household));
  await makeRoots(bench.server, bench.network);
  const quilt = items[3];
  if (!quilt) throw new Error('no quilt');
  const clean = { kind: 'holding', id: bench.incident.holding('clean') };
  await bench.network.post(`/v1/items/${quilt.id}/custody-events`, { kind: 'moved', from: quilt.keeper, to: clean }).expect(201);
  await makeRoots(bench.server, bench.network, 3 * HOUR_MS);
  await bench.network.post(`/v1/items/${quilt.id}/custody-events`, { kind: 'moved', from: clean, to: quilt.keeper }).expect(201);

  const { body, text } = await bench.network.get(`/v1/items/${quilt.id}/custody-proof`).expect(200);
  expect(body.items.map(({ event, inclusion }: { event: { seq: number }; inclusion: { rootNo: number } | null }) => [event.seq, inclusion?.rootNo ?? null])).toEqual([[1, 1], [2, 2], [3, null]]);
  for (const { event, inclusion } of body.items.slice(0, 2)) {
    const leaf = sha256(Buffer.of(0), `${event.itemId}|${event.seq}|${event.hash}`);
    const root = rootBy(leaf, inclusion.leafIndex, inclusion.root.eventCount, inclusion.path.map((hash: string) => Buffer.from(hash, 'hex')));
    expect(root.toString('hex')).toBe(inclusion.root.merkleRoot);
    expect(JSON.parse(inclusion.root.statement)).toContain(root.toString('hex'));
  }
  for (const other of items.filter((item) => item !== quilt)) expect(text).not.toContain(other.id);

  const page = await bench.network.get(`/v1/items/${quilt.id}/custody-proof?limit=2`).expect(200);
  const rest = await bench.network.get(`/v1/items/${quilt.id}/custody-proof?limit=2&cursor=${page.body.nextCursor}`).expect(200);
  expect([...page.body.items, ...rest.body.items]).toEqual(body.items);
});

test('a key of another incident gets no proof, and one of this incident gets the whole path', async () => {
  const quilt = await bench.takeIn(await bench.household());
  const elsewhere = await bench.network.incident();
  await makeRoots(bench.server, bench.network, 5 * HOUR_MS);
  const [own, other] = [await bench.network.newKey({ incidentId: bench.incident.id }), await bench.network.newKey({ incidentId: elsewhere.id })];
  await bench.network.as(other).get(`/v1/items/${quilt.id}/custody-proof`).expect(404);
  const limited = await bench.network.as(own).get(`/v1/items/${quilt.id}/custody-proof`).expect(200);
  expect(limited.body).toEqual((await bench.network.get(`/v1/items/${quilt.id}/custody-proof`).expect(200)).body);
});
