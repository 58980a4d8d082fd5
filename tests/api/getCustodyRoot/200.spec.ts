import { createHash, createPublicKey, verify } from 'node:crypto';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { makeRoots, SIGNER } from '../support/custody-roots.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
  await bench.takeIn(await bench.household());
  await makeRoots(bench.server, bench.network);
});
afterAll(() => bench.close());

test('a root is checked by a stranger with nothing but SHA-256 and Ed25519', async () => {
  const { body } = await bench.network.get('/v1/custody-roots/1').expect(200);
  expect(body).toMatchObject({ networkId: bench.network.networkId, rootNo: 1, periodFrom: '2026-05-09T07:00:00.000Z', periodTo: '2026-05-09T08:00:00.000Z', eventCount: 1, publicKey: SIGNER.publicKey, form: 1 });
  expect(JSON.parse(body.statement)).toEqual(['wrackline-custody-root', 1, body.networkId, 1, Date.parse(body.periodFrom), Date.parse(body.periodTo), 1, body.merkleRoot, '0'.repeat(64), body.keyId]);
  expect(createHash('sha256').update(body.statement).digest('hex')).toBe(body.hash);
  const key = createPublicKey({ key: { kty: 'OKP', crv: 'Ed25519', x: Buffer.from(body.publicKey, 'hex').toString('base64url') }, format: 'jwk' });
  expect(verify(null, Buffer.from(body.statement), key, Buffer.from(body.signature, 'hex'))).toBe(true);
  expect(verify(null, Buffer.from(`${body.statement} `), key, Buffer.from(body.signature, 'hex'))).toBe(false);
});

test.each(['2', '0', '-1', '1.5', 'x', '99999999999'])('a number that no root of the network has answers 404: %s', async (rootNo) => {
  expect((await bench.network.get(`/v1/custody-roots/${rootNo}`).expect(404)).body.code).toBe('not_found');
});

test("another network's root is not there", async () => {
  await (await bench.server.network()).get('/v1/custody-roots/1').expect(404);
});
