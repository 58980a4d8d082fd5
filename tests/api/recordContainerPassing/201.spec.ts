import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { ALL_WELL, Carrying, openTwoSites } from '../support/carrying.js';
import type { Workbench } from '../support/workbench.js';

let bench: Workbench;
let carry: Carrying;
beforeAll(async () => {
  bench = await openTwoSites();
  carry = new Carrying(bench);
});
afterAll(() => bench.close());

test('what is inside moves with it and keeps it as its keeper', async () => {
  const [outer, inner] = [await carry.container(), await carry.container()];
  await carry.moveContainer(inner.id, inner.keeper, { kind: 'container', id: outer.id }).expect(201);
  const item = await carry.itemIn(inner.id, await bench.household());
  const van = await carry.vehicle();
  const moved = await carry.moveContainer(outer.id, outer.keeper, van).expect(201);
  expect(moved.body).toMatchObject({ itemId: outer.id, seq: 2, kind: 'moved', from: outer.keeper, to: van, stage: 'waiting' });
  expect((await bench.read(item.id)).keeper).toEqual({ kind: 'container', id: inner.id });
  expect(await carry.readContainer(inner.id)).toMatchObject({ standsAt: van, insideContainers: [outer.id], keeper: { kind: 'container', id: outer.id } });
  expect(await carry.readContainer(outer.id)).toMatchObject({ contents: { items: 1, pieces: 1, containers: 1 }, standsAt: van, custodySeq: 2 });
  expect(await carry.reconciled()).toEqual(ALL_WELL);
});

test('one that is missing is found again by a person', async () => {
  const crate = await carry.container();
  await carry.moveContainer(crate.id, crate.keeper, crate.keeper, { kind: 'reported-missing' }).expect(201);
  expect((await carry.moveContainer(crate.id, crate.keeper, carry.storeArea()).expect(409)).body.code).toBe('item_missing');
  await carry.moveContainer(crate.id, crate.keeper, carry.storeArea(), { kind: 'found-again' }).expect(201);
  expect(await carry.readContainer(crate.id)).toMatchObject({ missing: false, keeper: carry.storeArea() });
});

test('one from before containers had records begins its record with its first move', async () => {
  const crate = await carry.container();
  // As a database shows it that was made before: no event, and nothing of one.
  await bench.server.admin.query(`alter table container_event disable trigger container_event_append_only;
    delete from container_event where container_id = '${crate.id}';
    delete from custody_root_waiting where chain_id = '${crate.id}';
    update container set seq = 0, head_hash = repeat('0', 64), keeper_kind = null, keeper_id = null where id = '${crate.id}';
    alter table container_event enable trigger container_event_append_only`);
  expect(await carry.readContainer(crate.id)).toMatchObject({ keeper: null, standsAt: null, custodySeq: 0 });
  await carry.moveContainer(crate.id, null, carry.storeArea()).expect(201);
  expect(await carry.readContainer(crate.id)).toMatchObject({ keeper: carry.storeArea(), custodySeq: 1 });
  expect((await carry.reconciled()).inContainers).toEqual([]);
});
