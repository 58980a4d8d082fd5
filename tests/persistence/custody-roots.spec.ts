/** Which events go under which root: every one under exactly one, whatever the clocks and the transactions do. */
import { afterAll, beforeAll, beforeEach, describe, expect, test } from '@jest/globals';
import { giveUpCustodyRoots, makeRoot, recordCustody, runCustodyRoots } from '#application';
import { verifyRootLine, verifyUnderRoot } from '#custody';
import { newId, verifyEd25519 } from '#platform';
import { type IncidentOnTest, startTestServer, takeInManyTestItems, takeInTestHousehold, takeInTestItem, type TestNetwork, type TestServer } from '#testing';
import { HOUR_MS, looksOf, makeRoots, SIGNER, testSigner } from '../api/support/custody-roots.js';
import { workerContextOf } from '../unit/plan-problem/support/runs.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
}, 60_000);
beforeEach(async () => {
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

const take = async () => takeInTestItem(network, incident, await takeInTestHousehold(network, incident));
const many = async (count: number) => takeInManyTestItems(server, network, incident, await takeInTestHousehold(network, incident), count);
const context = () => workerContextOf(network);
const roots = () => server.unitOfWork.read(context(), (stores) => stores.custodyRoots.page(100, 0));
const env = () => ({ nowMs: server.clock.nowMs(), newId: () => newId() });

/** Events of the network, each with the number of roots that it is under and whether it waits. */
async function standing(): Promise<{ events: number; once: number; waiting: number; wrong: number }> {
  const { rows } = await server.admin.query(
    `select count(*)::int as events, count(r.root_no)::int as once, count(w.seq)::int as waiting, count(*) filter (where (r.root_no is null) = (w.seq is null))::int as wrong
     from custody_event e left join custody_root_event r on r.network_id = e.network_id and r.chain_id = e.item_id and r.seq = e.seq
     left join custody_root_waiting w on w.network_id = e.network_id and w.chain_id = e.item_id and w.seq = e.seq where e.network_id = $1`, [network.networkId]);
  return rows[0];
}

/** No fault in the line of roots, nor under any of them. */
async function sound(): Promise<void> {
  await server.unitOfWork.read(context(), async (stores) => {
    const line = await stores.custodyRoots.page(1_000, 0);
    const keys = await stores.custodyRoots.keys();
    expect(verifyRootLine(network.networkId, line, { publicKeyOf: (id) => keys.find(({ keyId }) => keyId === id)?.publicKey ?? null, verifySignature: verifyEd25519 })).toEqual([]);
    for (const root of line) {
      const { leaves, subtreesHold } = await stores.custodyAudit.leaves(root.rootNo);
      expect([subtreesHold, verifyUnderRoot(root, leaves, await stores.custodyAudit.assigned(root.rootNo))]).toEqual([true, []]);
    }
  });
}

describe('an event goes under exactly one root', () => {
  test('nothing goes under a root before its hour has been over for the grace, and then all of it', async () => {
    await many(5);
    // The clock of the tests stands on the hour.
    expect(await makeRoots(server, network, HOUR_MS + 59_999)).toEqual({ made: 0, events: 0 });
    expect(await makeRoots(server, network, HOUR_MS + 60_000)).toEqual({ made: 1, events: 5 });
    expect(await standing()).toEqual({ events: 5, once: 5, waiting: 0, wrong: 0 });
    await sound();
  });

  test('a transaction that is held open across the hour: its events are not in the root of the hour, but in the next, once', async () => {
    await many(3);
    const item = await take();
    let commit = () => undefined as void;
    const held = new Promise<void>((resolve) => { commit = resolve; });
    let written = () => undefined as void;
    const isWritten = new Promise<void>((resolve) => { written = resolve; });
    const slow = server.unitOfWork.write(context(), async (stores) => {
      const record = await stores.items.lock(item.id);
      if (!record) throw new Error('the item is gone');
      await recordCustody(stores, { context: context(), env: env() }, record, { kind: 'moved', from: record.keeper, to: { kind: 'holding', id: incident.holding('clean') }, occurredAtMs: server.clock.nowMs(), refs: {} });
      written();
      await held;
    });
    await isWritten;
    expect(await makeRoots(server, network)).toEqual({ made: 1, events: 4 });
    expect(await standing()).toEqual({ events: 4, once: 4, waiting: 0, wrong: 0 });
    commit();
    await slow;
    expect(await standing()).toEqual({ events: 5, once: 4, waiting: 1, wrong: 0 });
    expect(await makeRoots(server, network, 3 * HOUR_MS)).toEqual({ made: 1, events: 1 });
    expect(await standing()).toEqual({ events: 5, once: 5, waiting: 0, wrong: 0 });
    // It shows the hour that it belongs to.
    const [first, second] = await roots();
    expect([second?.fromMs, second?.toMs]).toEqual([first?.fromMs, first?.toMs]);
    await sound();
  });

  test('a transaction that is rolled back leaves nothing to wait', async () => {
    const item = await take();
    await makeRoots(server, network);
    const broken = server.unitOfWork.write(context(), async (stores) => {
      const record = await stores.items.lock(item.id);
      if (!record) throw new Error('the item is gone');
      await recordCustody(stores, { context: context(), env: env() }, record, { kind: 'moved', from: record.keeper, to: { kind: 'holding', id: incident.holding('clean') }, occurredAtMs: server.clock.nowMs(), refs: {} });
      throw new Error('the power went');
    });
    await expect(broken).rejects.toThrow('the power went');
    expect(await makeRoots(server, network, 5 * HOUR_MS)).toEqual({ made: 0, events: 0 });
    expect(await standing()).toEqual({ events: 1, once: 1, waiting: 0, wrong: 0 });
  });

  test('a root that is not saved takes nothing away', async () => {
    await many(4);
    const broken = { publicKey: SIGNER.publicKey, sign: () => { throw new Error('the key was pulled out'); } };
    await expect(makeRoots(server, network, 2 * HOUR_MS, { signer: broken })).rejects.toThrow('pulled out');
    expect(await standing()).toEqual({ events: 4, once: 0, waiting: 4, wrong: 0 });
    expect(await makeRoots(server, network)).toEqual({ made: 1, events: 4 });
    await sound();
  });

  test('an hour with more events than go under one root has several, each with its next number', async () => {
    await many(23);
    expect(await makeRoots(server, network, 2 * HOUR_MS, { maxEvents: 10 })).toEqual({ made: 3, events: 23 });
    expect((await roots()).map(({ rootNo, eventCount }) => [rootNo, eventCount])).toEqual([[1, 10], [2, 10], [3, 3]]);
    expect(await standing()).toEqual({ events: 23, once: 23, waiting: 0, wrong: 0 });
    await sound();
  });

  test('a root over more than one block of leaves holds, and every event is proved through the blocks', async () => {
    const ids = await many(300);
    expect(await makeRoots(server, network)).toEqual({ made: 1, events: 300 });
    await sound();
    for (const id of [ids[0], ids[150], ids[299]]) expect((await network.get(`/v1/items/${id}/custody-verification`).expect(200)).body).toMatchObject({ sound: true, underRoots: 1 });
  }, 60_000);
});

describe('several at once', () => {
  test('ten makers at the same moment make one root', async () => {
    await many(6);
    const settings = { signer: SIGNER, periodMs: HOUR_MS };
    const made = await Promise.all(Array.from({ length: 10 }, () => server.unitOfWork.write(context(), (stores) => makeRoot(stores, network.networkId, server.clock.nowMs() + 2 * HOUR_MS, settings))));
    expect(made.filter((root) => root !== null)).toHaveLength(1);
    expect(await standing()).toEqual({ events: 6, once: 6, waiting: 0, wrong: 0 });
    await sound();
  });

  test('makers and recorders beside each other: no number is left out, no event is under two roots or none', async () => {
    const ids = await many(12);
    const to = [{ kind: 'holding', id: incident.holding('clean') }, { kind: 'holding', id: incident.holding('dirty') }] as const;
    const settings = { signer: SIGNER, periodMs: HOUR_MS, maxEvents: 7 };
    const record = async (id: string) => {
      for (let turn = 0; turn < 6; turn += 1) {
        await server.unitOfWork.write(context(), async (stores) => {
          const item = await stores.items.lock(id);
          if (item) await recordCustody(stores, { context: context(), env: env() }, item, { kind: 'moved', from: item.keeper, to: to[turn % 2] ?? to[0], occurredAtMs: server.clock.nowMs(), refs: {} });
        });
      }
    };
    const make = async () => {
      for (let turn = 0; turn < 12; turn += 1) await server.unitOfWork.write(context(), (stores) => makeRoot(stores, network.networkId, server.clock.nowMs() + 2 * HOUR_MS, settings));
    };
    await Promise.all([...ids.map(record), make(), make()]);
    await makeRoots(server, network, 2 * HOUR_MS, settings);
    expect(await standing()).toEqual({ events: 84, once: 84, waiting: 0, wrong: 0 });
    const line = await roots();
    expect(line.map(({ rootNo }) => rootNo)).toEqual(line.map((_, index) => index + 1));
    await sound();
  }, 60_000);

  test('networks have lines of their own', async () => {
    await many(2);
    const other = await server.network();
    const elsewhere = await other.incident();
    await takeInTestItem(other, elsewhere, await takeInTestHousehold(other, elsewhere));
    await makeRoots(server, network);
    expect(await makeRoots(server, other)).toEqual({ made: 1, events: 1 });
    expect((await roots()).map(({ rootNo, eventCount }) => [rootNo, eventCount])).toEqual([[1, 2]]);
  });
});

describe('the look for roots', () => {
  test('lies in the outbox from the first thing that is taken in, once, and the next one is due at the next edge', async () => {
    expect(await looksOf(server, network)).toEqual([]);
    await take();
    await take();
    expect(await looksOf(server, network)).toHaveLength(1);
    await makeRoots(server, network, 2 * HOUR_MS);
    const [next, ...others] = await looksOf(server, network);
    expect(others).toEqual([]);
    expect(next?.inMs).toBeGreaterThan(50_000);
    expect(next?.inMs).toBeLessThanOrEqual(60_000);
    await makeRoots(server, network, 2 * HOUR_MS + 90_000);
    expect((await looksOf(server, network))[0]?.inMs).toBeGreaterThan(HOUR_MS - 60_000);
  });

  test('in an hour without events no root is made, and the look goes on', async () => {
    await take();
    for (const hours of [2, 3, 4, 5]) await makeRoots(server, network, hours * HOUR_MS);
    expect(await roots()).toHaveLength(1);
    expect(await looksOf(server, network)).toHaveLength(1);
  });

  test('that is run twice, beside itself, is done once and leaves one next look', async () => {
    await many(3);
    const [look] = await looksOf(server, network);
    if (!look) throw new Error('no look');
    const message = { id: look.id, incidentId: look.incidentId, kind: 'custody.root' as const, subjectId: network.networkId, traceparent: '' };
    const later = { ...env(), nowMs: server.clock.nowMs() + 2 * HOUR_MS };
    const outcomes = await Promise.all([1, 2, 3].map(() => runCustodyRoots(server.unitOfWork, message, context(), later, { signer: SIGNER, periodMs: HOUR_MS })));
    expect(outcomes.filter((outcome) => outcome === 'overtaken')).toHaveLength(2);
    expect(await roots()).toHaveLength(1);
    expect(await looksOf(server, network)).toHaveLength(1);
  });

  test('that was written twice becomes one again', async () => {
    await take();
    await server.admin.query("insert into outbox (network_id, id, incident_id, kind, subject_id) values ($1, $2, $3, 'custody.root', $1)", [network.networkId, newId(), incident.id]);
    expect(await looksOf(server, network)).toHaveLength(2);
    await makeRoots(server, network);
    expect(await looksOf(server, network)).toHaveLength(1);
    await makeRoots(server, network);
    expect(await looksOf(server, network)).toHaveLength(1);
  });

  test('that was given up is followed by another', async () => {
    await take();
    const [look] = await looksOf(server, network);
    if (!look) throw new Error('no look');
    await giveUpCustodyRoots(server.unitOfWork, { id: look.id, incidentId: look.incidentId, kind: 'custody.root', subjectId: network.networkId, traceparent: '' }, context(), env(), HOUR_MS);
    await server.admin.query('update outbox set dead_at = now() where id = $1', [look.id]);
    expect(await looksOf(server, network)).toHaveLength(1);
    expect(await makeRoots(server, network)).toEqual({ made: 1, events: 1 });
  });

  test('where nobody signs, everything goes on waiting until somebody does', async () => {
    await take();
    expect(await makeRoots(server, network, 2 * HOUR_MS, { signer: null })).toBe('no-key');
    expect(await standing()).toEqual({ events: 1, once: 0, waiting: 1, wrong: 0 });
    expect(await makeRoots(server, network)).toEqual({ made: 1, events: 1 });
  });
});

test('a changed key signs what comes, and what the old one signed still holds', async () => {
  await take();
  await makeRoots(server, network);
  await take();
  const second = testSigner();
  await makeRoots(server, network, 3 * HOUR_MS, { signer: second });
  const { body } = await network.get('/v1/custody-keys').expect(200);
  expect(body.items.map((key: { publicKey: string }) => key.publicKey)).toEqual([SIGNER.publicKey, second.publicKey]);
  await sound();
});

test('what a root says can be neither changed nor removed, not by the application and not by a superuser while the triggers stand', async () => {
  await many(2);
  await makeRoots(server, network);
  const column: Record<string, string> = { custody_key: 'public_key', custody_root: 'hash', custody_root_block: 'subtree', custody_root_event: 'leaf_index' };
  for (const [table, name] of Object.entries(column)) {
    const { rows } = await server.admin.query(`select has_table_privilege('wl_app', '${table}', 'update') or has_table_privilege('wl_app', '${table}', 'delete') or has_table_privilege('wl_app', '${table}', 'truncate') as may`);
    expect([table, rows[0].may]).toEqual([table, false]);
    for (const statement of [`update ${table} set ${name} = ${name}`, `delete from ${table}`, `truncate ${table} cascade`]) await expect(server.admin.query(statement)).rejects.toMatchObject({ code: '23001' });
  }
});
