import { createHash } from 'node:crypto';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { HOUR_MS, makeRoots, SIGNER, testSigner } from '../support/custody-roots.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('every key that signed is answered, the earliest first, under a name that anybody can make from it', async () => {
  expect((await bench.network.get('/v1/custody-keys').expect(200)).body).toEqual({ items: [] });
  const second = testSigner();
  for (const [hours, signer] of [[2, SIGNER], [3, second], [4, second]] as const) {
    await bench.takeIn(await bench.household());
    await makeRoots(bench.server, bench.network, hours * HOUR_MS, { signer });
  }
  const { body } = await bench.network.get('/v1/custody-keys').expect(200);
  expect(body.items.map(({ publicKey }: { publicKey: string }) => publicKey)).toEqual([SIGNER.publicKey, second.publicKey]);
  for (const { keyId, publicKey, algorithm } of body.items) expect([keyId, algorithm]).toEqual([createHash('sha256').update(Buffer.from(publicKey, 'hex')).digest('hex').slice(0, 16), 'Ed25519']);
  expect((await bench.network.get('/v1/custody-roots/1').expect(200)).body.publicKey).toBe(SIGNER.publicKey);
});
