import { createPublicKey, verify } from 'node:crypto';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { grouped } from '../../../apps/api/src/documents/root-print.js';
import { decodeQr, pageSizesPt, picturesOf, savePng, wordsOf } from '../../unit/documents/pictures.support.js';
import { makeRoots } from '../support/custody-roots.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
  await bench.takeIn(await bench.household());
  await makeRoots(bench.server, bench.network);
});
afterAll(() => bench.close());

const print = async (headers: Record<string, string> = {}) => {
  const answer = await bench.network.get('/v1/custody-roots/1/print', headers).responseType('blob').expect(200);
  return { headers: answer.headers as Record<string, string>, pdf: answer.body as Buffer };
};

test('one page holds the whole root to compare by eye, and a square that an independent decoder reads the signed statement from', async () => {
  const { headers, pdf } = await print();
  expect([headers['content-type'], headers['content-language']]).toEqual(['application/pdf', 'en']);
  expect(pageSizesPt(pdf)).toHaveLength(1);
  const { body } = await bench.network.get('/v1/custody-roots/1').expect(200);
  const [words = ''] = await wordsOf(pdf);
  for (const hash of [body.merkleRoot, body.hash, body.prevRootHash, body.publicKey]) for (const line of grouped(hash)) expect(words).toContain(line);
  expect(words).toContain(body.networkId);
  const [picture] = await picturesOf(pdf);
  if (!picture) throw new Error('no page');
  if (process.env['WRACKLINE_PICTURES']) savePng(picture, `${process.env['WRACKLINE_PICTURES']}/custody-root.png`);
  const read = decodeQr(picture, { xMm: 15, yMm: 150, widthMm: 90, heightMm: 147 });
  expect(read).toBe(`${body.statement}\n${body.signature}`);
  const key = createPublicKey({ key: { kty: 'OKP', crv: 'Ed25519', x: Buffer.from(body.publicKey, 'hex').toString('base64url') }, format: 'jwk' });
  const [statement = '', signature = ''] = (read ?? '').split('\n');
  expect(verify(null, Buffer.from(statement), key, Buffer.from(signature, 'hex'))).toBe(true);
}, 60_000);

test('the same root gives the same bytes, and the page speaks Spanish when asked', async () => {
  const [one, again, spanish] = [await print(), await print(), await print({ 'accept-language': 'es' })];
  expect(one.pdf.equals(again.pdf)).toBe(true);
  expect(spanish.headers['content-language']).toBe('es');
  expect((await wordsOf(spanish.pdf)).join(' ')).toContain('Registro de custodia');
});

test('a root that is not there is not printed', async () => {
  expect((await bench.network.get('/v1/custody-roots/7/print').expect(404)).body.code).toBe('not_found');
});
