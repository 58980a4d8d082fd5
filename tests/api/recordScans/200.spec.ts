import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { reserveTestTags, startTestServer, type TestServer } from '#testing';
import { scanWorld } from '../support/scans.js';

let server: TestServer;
let world: Awaited<ReturnType<typeof scanWorld>>;
beforeAll(async () => {
  server = await startTestServer();
  world = await scanWorld(server);
});
afterAll(() => server.close());

describe('a scan moves a thing', () => {
  test('to a shelf, and the same place again is only a sighting that moves the last look on', async () => {
    const item = await world.item();
    expect(await world.send(world.scan(item.tag, world.a, { baseSeq: 1, personId: world.incident.person('P2') }))).toEqual([
      { scanId: expect.any(String), verdict: 'applied', itemId: item.id, containerId: null, place: world.a, event: { kind: 'moved', seq: 2 }, problem: null },
    ]);
    server.clock.set(server.clock.nowMs() + 600_000);
    const [again] = await world.send(world.scan(item.tag, world.a, { baseSeq: 2 }));
    expect(again).toMatchObject({ verdict: 'seen-again', event: null, problem: null });
    const now = await world.now(item.id);
    expect(now).toMatchObject({ keeper: world.a, custodySeq: 2, lastSeenAt: new Date(server.clock.nowMs()).toISOString() });
    expect((await world.chain(item.id))[1]).toMatchObject({ kind: 'moved', refs: { personId: world.incident.person('P2') } });
    expect(await world.sightings(item.id)).toEqual([{ verdict: 'seen-again', place_id: world.a.id, at_seq: 2 }]);
  });

  test('by the kind of event that the place calls for: hung, frozen, taken out again, into the van', async () => {
    const item = await world.item({ materialClass: 'paper-uncoated', sizeClass: 'a4-sheet' });
    const freezer = { kind: 'freezer', id: world.incident.freezer('F1') };
    const kinds: unknown[] = [];
    let seq = 1;
    for (const place of [world.a, { kind: 'station', id: world.incident.station('WRAP') }, freezer, world.van, world.b, world.van]) {
      const [result] = await world.send(world.scan(item.tag, place, { baseSeq: seq }));
      kinds.push([result?.verdict, result?.event?.kind, (await world.now(item.id)).stage]);
      seq = result?.event?.seq ?? seq;
    }
    expect(kinds).toEqual([
      ['applied', 'moved', 'waiting'], ['applied', 'moved', 'waiting'], ['applied', 'frozen', 'held-frozen'], ['applied', 'moved', 'held-frozen'], ['applied', 'thawed', 'waiting'], ['applied', 'moved', 'waiting'],
    ]);
  });

  test('by tag of the place or of the container into which it is put; and a container with all that is in it', async () => {
    const item = await world.item();
    const [boxTag] = await reserveTestTags(world.network, world.incident, 1, 'container');
    const box = (await world.network.post(`/v1/incidents/${world.incident.id}/containers`, { siteId: world.incident.site(), tag: boxTag, kind: 'box', description: 'Box' }).expect(201)).body;
    const [put] = await world.send({ ...world.scan(item.tag, world.a, { baseSeq: 1 }), place: null, placeTag: boxTag });
    expect(put).toMatchObject({ verdict: 'applied', place: { kind: 'container', id: box.id }, event: { kind: 'moved', seq: 2 } });
    const [moved] = await world.send({ ...world.scan('', world.b), itemTag: null, containerTag: boxTag });
    expect(moved).toMatchObject({ verdict: 'applied', containerId: box.id, itemId: null, event: { kind: 'moved' } });
    expect((await world.now(item.id)).keeper).toEqual({ kind: 'container', id: box.id });
    const [into] = await world.send({ ...world.scan('', { kind: 'container', id: box.id }), itemTag: null, containerTag: boxTag });
    expect(into).toMatchObject({ verdict: 'refused', problem: { code: 'command_refused' } });
  });
});

describe('a batch', () => {
  test('is decided in the order in which its device saw things, whatever the order in which they were sent', async () => {
    const [item, other] = [await world.item(), await world.item()];
    const at = (minutes: number) => new Date(server.clock.nowMs() + minutes * 60_000).toISOString();
    const [second, first] = await world.send(world.scan(item.tag, world.b, { baseSeq: 1, seenAt: at(2) }), world.scan(item.tag, world.a, { baseSeq: 1, seenAt: at(1) }));
    expect([first?.event, second?.event]).toEqual([{ kind: 'moved', seq: 2 }, { kind: 'moved', seq: 3 }]);
    expect(await world.now(item.id)).toMatchObject({ keeper: world.b, locationDisputed: false });
    // Of one moment, in the order in which they were sent.
    const [one, two] = await world.send(world.scan(other.tag, world.b, { baseSeq: 1 }), world.scan(other.tag, world.a, { baseSeq: 1 }));
    expect([one?.event?.seq, two?.event?.seq]).toEqual([2, 3]);
  });

  test('is not sunk by bad scans: each is refused by itself with what to do, and changes nothing', async () => {
    const [good, other] = [await world.item(), await world.item()];
    const scans = [
      world.scan('KXXX-XXX-00', world.a), world.scan(good.tag, { kind: 'shelf', id: good.id }), { ...world.scan(good.tag, world.a), placeTag: other.tag }, { ...world.scan(good.tag, world.a), place: null, placeTag: other.tag },
      world.scan(good.tag, world.a, { baseSeq: 7 }), world.scan(good.tag, world.a, { seenAt: '2026-05-09T23:00:00Z' }), world.scan(good.tag, { kind: 'household', id: world.household.id }), world.scan(good.tag, world.a, { personId: good.id }),
      world.scan(good.tag, world.a, { baseSeq: 1 }),
    ];
    const results = await world.send(...scans);
    expect(results.map(({ verdict, problem }) => [verdict, problem?.code])).toEqual([
      ['refused', 'tag_invalid'], ['refused', 'reference_unknown'], ['refused', 'command_refused'], ['refused', 'tag_invalid'], ['refused', 'command_refused'], ['refused', 'command_refused'], ['refused', 'command_refused'], ['refused', 'reference_unknown'],
      ['applied', undefined],
    ]);
    expect(results[7]?.problem).toMatchObject({ errors: [{ pointer: '#/scans/7/personId' }], status: 422 });
    expect((await world.chain(good.id)).map(({ kind }) => kind)).toEqual(['taken-in', 'moved']);
    // Evidence is kept of each, as it was sent.
    const { rows } = await server.admin.query<{ said: { itemTag: string }; verdict: string }>('select said, verdict from scan where id = any($1::uuid[]) order by array_position($1::uuid[], id)', [scans.map(({ scanId }) => scanId)]);
    expect(rows.map((row) => [row.said.itemTag, row.verdict])).toEqual(scans.map((scan, index) => [scan.itemTag, index === 8 ? 'applied' : 'refused']));
  });

  test('a tag that was mistyped by one letter is answered with the one that was meant', async () => {
    const item = await world.item();
    const wrong = `${item.tag.slice(0, 1)}${item.tag[1] === 'B' ? 'C' : 'B'}${item.tag.slice(2)}`;
    const [result] = await world.send(world.scan(wrong, world.a));
    expect(result).toMatchObject({ verdict: 'refused', itemId: null, problem: { code: 'tag_invalid', nearest: expect.arrayContaining([item.tag]) } });
  });
});
