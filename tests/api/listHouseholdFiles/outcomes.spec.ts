import { jpeg } from '../support/pictures.js';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { FileBench } from '../support/files.js';

let bench: FileBench;
beforeAll(async () => {
  bench = await FileBench.open();
});
afterAll(() => bench?.close());

describe('the files of a household', () => {
  test('are those of its items and its own', async () => {
    const ofItem = await bench.sent(await jpeg(), 'image/jpeg');
    const own = (await bench.network.post(`/v1/households/${bench.household.id}/words`, { text: 'Invented.' }).expect(201)).body as { id: string };
    const { body } = await bench.network.get(`/v1/households/${bench.household.id}/files`).expect(200);
    expect(body.items.map((file: { id: string }) => file.id)).toEqual([ofItem.id, own.id]);
  });

  test('are unknown where the household is', async () => {
    await (await bench.server.network()).get(`/v1/households/${bench.household.id}/files`).expect(404);
  });
});
