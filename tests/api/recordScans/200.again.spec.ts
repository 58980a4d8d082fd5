import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { scanWorld, sendScans } from '../support/scans.js';

let server: TestServer;
let world: Awaited<ReturnType<typeof scanWorld>>;
beforeAll(async () => {
  server = await startTestServer();
  world = await scanWorld(server);
});
afterAll(() => server.close());

test('the same scans again, under another Idempotency-Key and later, get the same answers and do nothing', async () => {
  const [item, other] = [await world.item(), await world.item()];
  const scans = [world.scan(item.tag, world.a, { baseSeq: 1 }), world.scan('KXXX-XXX-00', world.a), world.scan(other.tag, { kind: 'holding', id: world.incident.holding('dirty') })];
  const first = await world.send(...scans);
  await world.send(world.scan(item.tag, world.b, { baseSeq: 2 }));
  expect(await world.send(...scans)).toEqual(first);
  expect(await world.send(...[...scans].reverse())).toEqual([...first].reverse().map((result) => ({ ...result, problem: result.problem === null ? null : expect.objectContaining({ code: result.problem.code }) })));
  expect(await world.now(item.id)).toMatchObject({ keeper: world.b, custodySeq: 3 });
  expect(await world.sightings(other.id)).toHaveLength(1);
});

test('the same scans sent ten times at once, in different orders, are carried out once', async () => {
  const items = await Promise.all(Array.from({ length: 8 }, () => world.item()));
  const scans = items.map((item, index) => world.scan(item.tag, index % 2 === 0 ? world.a : world.b, { baseSeq: 1 }));
  const answers = await Promise.all(Array.from({ length: 10 }, (_, turn) => world.send(...(turn % 2 === 0 ? scans : [...scans].reverse()))));
  const byId = (results: { scanId: string }[]) => [...results].sort((a, b) => (a.scanId < b.scanId ? -1 : 1));
  for (const answer of answers) expect(byId(answer)).toEqual(byId(answers[0] ?? []));
  for (const [index, item] of items.entries()) {
    expect(await world.chain(item.id)).toHaveLength(2);
    expect((await world.now(item.id)).keeper).toEqual(index % 2 === 0 ? world.a : world.b);
  }
});

test('a scan that stands twice in a batch has one answer twice; the same id with other content is refused and its first answer stands', async () => {
  const item = await world.item();
  const scan = world.scan(item.tag, world.a, { baseSeq: 1 });
  const [first, twin, other] = await world.send(scan, scan, { ...scan, place: world.b });
  expect([first?.verdict, twin]).toEqual(['applied', first]);
  expect(other).toMatchObject({ verdict: 'refused', problem: { code: 'already_exists', errors: [{ pointer: '#/scans/2/scanId' }] } });
  expect((await world.send({ ...scan, place: world.b }))[0]).toMatchObject({ verdict: 'refused', problem: { code: 'already_exists' } });
  expect(await world.chain(item.id)).toHaveLength(2);
});

test('a scan id of another incident is no clash: nobody learns of it, and both are carried out', async () => {
  const other = await scanWorld(server);
  const [ours, theirs] = [await world.item(), await other.item()];
  const scan = world.scan(ours.tag, world.a, { baseSeq: 1 });
  await world.send(scan);
  const [result] = await sendScans(other.network, other.incident, [{ ...other.scan(theirs.tag, other.a, { baseSeq: 1 }), scanId: scan.scanId }]);
  expect(result).toMatchObject({ verdict: 'applied', itemId: theirs.id });
});
