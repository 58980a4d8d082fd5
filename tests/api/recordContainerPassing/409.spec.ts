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

test('the volume of what is inside counts toward the shelf, put there in the crate or into the crate there', async () => {
  const household = await bench.household();
  const crate = await carry.container();
  const first = await carry.itemIn(crate.id, household);
  const volumeL = Number(first['freezerVolumeL']);
  const shelf = await carry.shelf(volumeL * 2 - 1);
  const small = await carry.shelf(volumeL - 1);
  expect((await carry.moveContainer(crate.id, crate.keeper, small).expect(409)).body).toMatchObject({ code: 'capacity_full', wanted: volumeL, unit: 'L' });
  await carry.moveContainer(crate.id, crate.keeper, shelf).expect(201);
  const second = await bench.takeIn(household);
  const into = (to: object) => bench.network.post(`/v1/items/${second.id}/custody-events`, { kind: 'moved', from: second.keeper, to, personId: carry.person('P2') });
  expect((await into({ kind: 'container', id: crate.id }).expect(409)).body).toMatchObject({ code: 'capacity_full', free: volumeL - 1 });
  expect((await into(shelf).expect(409)).body.code).toBe('capacity_full');
  // Out of the crate and onto the shelf where it stands takes no more room.
  await bench.network.post(`/v1/items/${first.id}/custody-events`, { kind: 'moved', from: first.keeper, to: shelf, personId: carry.person('P2') }).expect(201);
});

test('who moves it from where it is not is told where it is', async () => {
  const crate = await carry.container();
  const { body } = await carry.moveContainer(crate.id, carry.storeArea(), carry.storeArea('dirty')).expect(409);
  expect(body).toMatchObject({ code: 'wrong_keeper', keeper: crate.keeper });
});

test('two crates put into each other at the same moment: exactly one move takes place, however often', async () => {
  for (let round = 0; round < 8; round += 1) {
    const [a, b] = [await carry.container(), await carry.container()];
    const answers = await Promise.all([
      carry.moveContainer(a.id, a.keeper, { kind: 'container', id: b.id }),
      carry.moveContainer(b.id, b.keeper, { kind: 'container', id: a.id }),
    ]);
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 422]);
  }
  expect(await carry.reconciled()).toEqual(ALL_WELL);
});

test('a ring of three closed at the same moment stays open', async () => {
  for (let round = 0; round < 5; round += 1) {
    const [a, b, c] = [await carry.container(), await carry.container(), await carry.container()];
    const into = (one: typeof a, other: typeof a) => carry.moveContainer(one.id, one.keeper, { kind: 'container', id: other.id });
    const statuses = (await Promise.all([into(a, b), into(b, c), into(c, a)])).map(({ status }) => status).sort();
    expect(statuses).toEqual([201, 201, 422]);
  }
  expect(await carry.reconciled()).toEqual(ALL_WELL);
});
