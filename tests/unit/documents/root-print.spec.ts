/** The printed root, looked at by a renderer that did not draw it. Set WRACKLINE_PICTURES to a folder to look at it yourself. */
import { expect, test } from '@jest/globals';
import { LANGUAGES } from '#care';
import { grouped, printRoot } from '../../../apps/api/src/documents/root-print.js';
import { decodeQr, inkBox, pageSizesPt, picturesOf, savePng } from './pictures.support.js';

const hex = (seed: string, digits = 64) => seed.repeat(digits).slice(0, digits);
const id = '0198b7a0-0000-7000-8000-000000000001';

/** The longest that there can be: every number at its widest. */
const ROOT = {
  networkId: id, rootNo: 2_147_483_647, periodFrom: '2026-05-09T07:00:00.000Z', periodTo: '2026-05-09T08:00:00.000Z', eventCount: 8_192, merkleRoot: hex('0a1b2c3d4e5f6789'), prevRootHash: hex('fedcba98'),
  keyId: hex('9f', 16), publicKey: hex('77aa'), hash: hex('31415926'), signature: hex('deadbeefcafe', 128),
  statement: `["wrackline-custody-root",1,"${id}",2147483647,1778310000000,1778313600000,8192,"${hex('0a1b2c3d4e5f6789')}","${hex('fedcba98')}","${hex('9f', 16)}"]`,
};

test('hex is grouped by four, eight groups to a line', () => {
  expect(grouped('0123456789abcdef')).toEqual(['0123 4567 89ab cdef']);
  expect(grouped(hex('0123456789abcdef'))).toEqual(['0123 4567 89ab cdef 0123 4567 89ab cdef', '0123 4567 89ab cdef 0123 4567 89ab cdef']);
});

test.each(LANGUAGES)('in %s the longest root stays on one page, within margins that also fit US Letter, and its square is read back', async (language) => {
  const pdf = await printRoot(ROOT, language);
  expect(pageSizesPt(pdf)).toHaveLength(1);
  const [picture] = await picturesOf(pdf);
  if (!picture) throw new Error('no page');
  if (process.env['WRACKLINE_PICTURES']) savePng(picture, `${process.env['WRACKLINE_PICTURES']}/custody-root-${language}.png`);
  const ink = inkBox(picture, { xMm: 0, yMm: 0, widthMm: 210, heightMm: 297 });
  if (!ink) throw new Error('a blank page');
  expect(ink.xMm).toBeGreaterThanOrEqual(19);
  expect(ink.xMm + ink.widthMm).toBeLessThanOrEqual(191);
  // US Letter is 279 mm high; 6 mm that printers leave free.
  expect(ink.yMm + ink.heightMm).toBeLessThanOrEqual(273);
  expect(decodeQr(picture, { xMm: 15, yMm: 150, widthMm: 90, heightMm: 140 })).toBe(`${ROOT.statement}\n${ROOT.signature}`);
}, 60_000);

test('a root whose key is gone is printed all the same, and says so', async () => {
  expect((await printRoot({ ...ROOT, publicKey: null }, 'en')).length).toBeGreaterThan(1_000);
});
