import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { makeRoots } from '../support/custody-roots.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

async function recorded() {
  const quilt = await bench.takeIn(await bench.household());
  await makeRoots(bench.server, bench.network);
  await bench.network.post(`/v1/items/${quilt.id}/custody-events`, { kind: 'moved', from: quilt.keeper, to: { kind: 'holding', id: bench.incident.holding('clean') } }).expect(201);
  return quilt.id;
}
const found = async (itemId: string) => (await bench.network.get(`/v1/items/${itemId}/custody-verification`).expect(200)).body;

async function tampered(statement: string, values: unknown[]): Promise<void> {
  const client = await bench.server.admin.connect();
  try {
    await client.query("begin; set local session_replication_role = 'replica'");
    await client.query(statement, values);
    await client.query('commit');
  } finally {
    client.release();
  }
}

test('a sound record is said to be sound, with what is under a root and what waits', async () => {
  const itemId = await recorded();
  expect(await found(itemId)).toEqual({ itemId, sound: true, events: 2, underRoots: 1, waiting: 1, faults: [] });
});

test('an event that was altered is named by its number', async () => {
  const itemId = await recorded();
  await tampered("update custody_event set refs = refs || '{\"x\":\"y\"}' where item_id = $1 and seq = 2", [itemId]);
  expect(await found(itemId)).toMatchObject({ sound: false, faults: [{ seq: 2, rootNo: null, fault: 'hash' }] });
});

test('an event that was exchanged with its hash is named by the root that it was under', async () => {
  const itemId = await recorded();
  await tampered("update custody_event set hash = repeat('e', 64) where item_id = $1 and seq = 1", [itemId]);
  const body = await found(itemId);
  expect(body.sound).toBe(false);
  expect(body.faults).toContainEqual({ seq: 1, rootNo: expect.any(Number), fault: 'not_under_root' });
});

test('a present state that the last event does not give is named', async () => {
  const itemId = await recorded();
  await tampered("update item set stage = 'drying' where id = $1", [itemId]);
  expect((await found(itemId)).faults).toEqual([{ seq: 2, rootNo: null, fault: 'head_mismatch' }]);
});

test('a root whose signature does not fit is named', async () => {
  const itemId = await recorded();
  const { rows } = await bench.server.admin.query('select root_no from custody_root_event where chain_id = $1', [itemId]);
  await tampered("update custody_root set signature = repeat('e', 128) where network_id = $1 and root_no = $2", [bench.network.networkId, rows[0].root_no]);
  expect((await found(itemId)).faults).toEqual([{ seq: null, rootNo: rows[0].root_no, fault: 'signature' }]);
});

test("another network's item is not there", async () => {
  const itemId = await recorded();
  await (await bench.server.network()).get(`/v1/items/${itemId}/custody-verification`).expect(404);
});
