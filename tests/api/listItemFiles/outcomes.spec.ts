import { jpeg } from '../support/pictures.js';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { FileBench } from '../support/files.js';

let bench: FileBench;
beforeAll(async () => {
  bench = await FileBench.open();
});
afterAll(() => bench?.close());

describe('the files of an item', () => {
  test('come page by page, what is kept, or everything', async () => {
    const { id } = await bench.bench.takeIn(bench.household);
    const kept = [await bench.sent(await jpeg(), 'image/jpeg', { itemId: id }), await bench.sent(await jpeg(50, 50), 'image/jpeg', { itemId: id })].map((file) => file.id);
    const refused = (await bench.sent(Buffer.from('GIF89a......'), 'image/png', { itemId: id })).id;
    const first = await bench.network.get(`/v1/items/${id}/files?limit=1`).expect(200);
    const second = await bench.network.get(`/v1/items/${id}/files?limit=1&cursor=${encodeURIComponent(first.body.nextCursor)}`).expect(200);
    expect([...first.body.items, ...second.body.items].map((file: { id: string }) => file.id)).toEqual(kept);
    expect(second.body.nextCursor).toBeNull();
    expect((await bench.network.get(`/v1/items/${id}/files?everyState=true`).expect(200)).body.items.map((file: { id: string }) => file.id)).toEqual([...kept, refused]);
  });

  test('are unknown where the item is', async () => {
    await (await bench.server.network()).get(`/v1/items/${bench.itemId}/files`).expect(404);
  });
});
