import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { FileBench } from '../support/files.js';

let bench: FileBench;
beforeAll(async () => {
  bench = await FileBench.open();
});
afterAll(() => bench?.close());

test('an upload says where it stands, to HEAD and to GET', async () => {
  const id = await bench.begun(10);
  await bench.patch(id, 0, Buffer.alloc(4));
  expect(await bench.head(id)).toEqual({ status: 200, offset: '4', length: '10', cache: 'no-store' });
  expect((await bench.network.get(`/v1/uploads/${id}`).expect(200)).body).toMatchObject({ id, state: 'receiving', receivedBytes: 4 });
});

describe('and otherwise', () => {
  test('404 for one of another network, 410 when it has expired', async () => {
    const id = await bench.begun(10);
    const theirs = await bench.server.network();
    await theirs.get(`/v1/uploads/${id}`).expect(404);
    const now = bench.server.clock.nowMs();
    bench.server.clock.set(now + 25 * 3_600_000);
    expect((await bench.network.get(`/v1/uploads/${id}`).expect(410)).body.code).toBe('upload_expired');
    expect((await bench.head(id)).status).toBe(410);
    bench.server.clock.set(now);
  });
});
