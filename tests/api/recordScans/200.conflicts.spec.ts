import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { recordCustody } from '#application';
import { newId } from '#platform';
import { startTestServer, type TestServer } from '#testing';
import { scanWorld } from '../support/scans.js';

// The cases of the conflict taxonomy in our reliability study, section 5.3.

let server: TestServer;
let world: Awaited<ReturnType<typeof scanWorld>>;
beforeAll(async () => {
  server = await startTestServer();
  world = await scanWorld(server);
});
afterAll(() => server.close());

const at = (minutes: number) => new Date(server.clock.nowMs() + minutes * 60_000).toISOString();

describe('two keepers claim one thing', () => {
  test('at once: the first to arrive is on record, the second is kept as a claim, and a person is asked to look', async () => {
    const item = await world.item();
    const claims = await Promise.all([world.a, world.b].map((place) => world.send(world.scan(item.tag, place, { baseSeq: 1 }))));
    const verdicts = claims.map(([result]) => result?.verdict).sort();
    expect(verdicts).toEqual(['applied', 'disputed']);
    const [won, lost] = claims.map(([result]) => result).sort((x, y) => ((x?.verdict ?? '') < (y?.verdict ?? '') ? -1 : 1));
    expect(lost).toMatchObject({ event: { kind: 'location-disputed', seq: 3 }, problem: { code: 'location_disputed', keeper: won?.place, claimed: lost?.place } });
    const now = await world.now(item.id);
    expect(now).toMatchObject({ keeper: won?.place, locationDisputed: true, custodySeq: 3 });
    expect((await world.chain(item.id))[2]?.refs).toMatchObject({ claimedKind: 'shelf', claimedId: lost?.place?.id, scanId: lost?.scanId });
    expect(await world.sightings(item.id)).toEqual([{ verdict: 'claims-elsewhere', place_id: lost?.place?.id, at_seq: 2 }]);
  });

  test('twenty devices at once: one move, and every other report is kept', async () => {
    const item = await world.item();
    const results = await Promise.all(Array.from({ length: 20 }, (_, index) => world.send(world.scan(item.tag, index % 2 === 0 ? world.a : world.b, { baseSeq: 1 }))));
    const count = (verdict: string) => results.filter(([result]) => result?.verdict === verdict).length;
    expect(count('applied')).toBe(1);
    expect(count('applied') + count('seen-again') + count('disputed')).toBe(20);
    expect(await world.sightings(item.id)).toHaveLength(19);
    expect((await world.chain(item.id)).map(({ kind }) => kind)).toEqual(['taken-in', 'moved', 'location-disputed']);
  });

  test('while it is disputed nothing moves it by a scan, and a further claim is kept without another event', async () => {
    const item = await world.item();
    await world.send(world.scan(item.tag, world.a, { baseSeq: 1 }));
    await world.send(world.scan(item.tag, world.b, { baseSeq: 1 }));
    const [result] = await world.send(world.scan(item.tag, world.van, { baseSeq: 3 }));
    expect(result).toMatchObject({ verdict: 'disputed', event: null, problem: { code: 'location_disputed' } });
    expect((await world.now(item.id)).keeper).toEqual(world.a);
    expect((await world.sightings(item.id)).map(({ verdict }) => verdict)).toEqual(['claims-elsewhere', 'claims-elsewhere']);
  });
});

test('a late scan is history: seen before the last event, it moves nothing and opens nothing', async () => {
  const item = await world.item();
  server.clock.set(server.clock.nowMs() + 3_600_000);
  await world.send(world.scan(item.tag, world.a, { baseSeq: 1 }));
  const [late] = await world.send(world.scan(item.tag, world.b, { baseSeq: 1, seenAt: at(-20) }));
  expect(late).toMatchObject({ verdict: 'seen-late', event: null, problem: null });
  expect(await world.now(item.id)).toMatchObject({ keeper: world.a, locationDisputed: false, lastSeenAt: at(0) });
  expect(await world.sightings(item.id)).toEqual([{ verdict: 'seen-late', place_id: world.b.id, at_seq: 2 }]);
});

test('a stale device that found the thing where it is on record only confirms it', async () => {
  const item = await world.item();
  await world.send(world.scan(item.tag, world.a, { baseSeq: 1 }));
  expect((await world.send(world.scan(item.tag, world.a, { baseSeq: 1, seenAt: at(2) })))[0]).toMatchObject({ verdict: 'seen-again' });
});

test('a device whose clock stands a day behind moves what it knows of', async () => {
  const item = await world.item();
  expect((await world.send(world.scan(item.tag, world.a, { baseSeq: 1, seenAt: at(-24 * 60) })))[0]).toMatchObject({ verdict: 'applied' });
  expect((await world.now(item.id)).lastSeenAt).toBe(item['lastSeenAt']);
});

test('a thing that has left and is seen here is told to the coordinator, and its record stays closed', async () => {
  const item = await world.item();
  const items = [{ itemId: item.id, conditionNote: 'Dry' }];
  await world.network.post(`/v1/households/${world.household.id}/hand-backs`, { items, receiver: 'contact', identityCheck: 'document-seen', signatureRef: 'receipts' }).expect(201);
  const gone = await world.now(item.id);
  expect(gone.stage).toBe('handed-back');
  const [result] = await world.send(world.scan(item.tag, world.a, { baseSeq: gone.custodySeq, seenAt: at(1) }));
  expect(result).toMatchObject({ verdict: 'refused', event: null, problem: { code: 'item_terminal' } });
  expect((await world.sightings(item.id)).map(({ verdict }) => verdict)).toEqual(['left-the-network']);
  expect(await world.now(item.id)).toMatchObject({ stage: 'handed-back', keeper: gone.keeper, custodySeq: gone.custodySeq });
});

test('a missing thing that is scanned is found only by the word of the person who has it; without one the sighting is kept', async () => {
  const item = await world.item();
  await server.unitOfWork.write(contextOf(), async (stores) => {
    const locked = await stores.items.lock(item.id);
    if (locked) await recordCustody(stores, callOf(), locked, { kind: 'reported-missing', from: locked.keeper, to: locked.keeper, refs: {}, occurredAtMs: server.clock.nowMs() });
  });
  const [kept] = await world.send(world.scan(item.tag, world.a, { baseSeq: 2, seenAt: at(1) }));
  expect(kept).toMatchObject({ verdict: 'refused', event: null, problem: { code: 'item_missing' } });
  expect((await world.sightings(item.id)).map(({ verdict }) => verdict)).toEqual(['found']);
  const [found] = await world.send(world.scan(item.tag, world.a, { baseSeq: 2, seenAt: at(1), personId: world.incident.person('P2') }));
  expect(found).toMatchObject({ verdict: 'applied', event: { kind: 'found-again', seq: 3 } });
  expect(await world.now(item.id)).toMatchObject({ keeper: world.a, missing: false });
});

test('what was frozen, went missing and is scanned on a shelf counts as thawed: its clock does not stand still any more', async () => {
  const item = await world.item();
  const [frozen] = await world.send(world.scan(item.tag, { kind: 'freezer', id: world.incident.freezer('F1') }, { baseSeq: 1 }));
  expect(frozen).toMatchObject({ verdict: 'applied', event: { kind: 'frozen' } });
  expect(await world.now(item.id)).toMatchObject({ stage: 'held-frozen', stabilisedAt: expect.any(String) });
  await world.network.post(`/v1/items/${item.id}/missing-reports`, {}).expect(201);
  const [found] = await world.send(world.scan(item.tag, world.a, { baseSeq: 3, seenAt: at(1), personId: world.incident.person('P2') }));
  expect(found).toMatchObject({ verdict: 'applied', event: { kind: 'found-again' } });
  expect(await world.now(item.id)).toMatchObject({ keeper: world.a, stage: 'waiting', stabilisedAt: null });
});

const contextOf = () => ({ networkId: world.network.networkId, incidentLimit: null, principalId: newId(), requestId: 'test', traceparent: '' });
const callOf = () => ({ context: contextOf(), env: { nowMs: server.clock.nowMs(), newId: () => newId() } });

test('a full shelf refuses the move and keeps the scan; of two for the last room one is taken', async () => {
  const small = await world.shelf('SMALL', 40);
  const [one, two] = [await world.item(), await world.item()];
  const answers = await Promise.all([one, two].map((item) => world.send(world.scan(item.tag, small, { baseSeq: 1 }))));
  expect(answers.map(([result]) => result?.verdict).sort()).toEqual(['applied', 'refused']);
  expect(answers.find(([result]) => result?.verdict === 'refused')?.[0]?.problem).toMatchObject({ code: 'capacity_full', unit: 'L' });
});
