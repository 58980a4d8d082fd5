import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Carrying, openTwoSites } from '../support/carrying.js';
import type { Workbench } from '../support/workbench.js';

let bench: Workbench;
let carry: Carrying;
beforeAll(async () => {
  bench = await openTwoSites();
  carry = new Carrying(bench);
});
afterAll(() => bench.close());

test('it stands where it was registered: by default the first waiting area of its site', async () => {
  const plain = await carry.container({ description: 'Fruit crate' });
  expect(await carry.readContainer(plain.id)).toMatchObject({
    description: 'Fruit crate', keeper: bench.holding('dirty'), standsAt: bench.holding('dirty'), insideContainers: [], contents: { items: 0, pieces: 0, containers: 0, volumeL: 0 }, custodySeq: 1, missing: false, openHandOver: null,
  });
  const onShelf = await carry.shelf();
  expect((await carry.container({ to: onShelf })).keeper).toEqual(onShelf);
});

test('an id of nobody is not found', async () => {
  await bench.network.get(`/v1/containers/${bench.incident.id}`).expect(404);
});
