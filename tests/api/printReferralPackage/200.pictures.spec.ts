import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { FileBench } from '../support/files.js';
import { jpeg } from '../support/pictures.js';
import { imagesIn, wordsOf } from '../../unit/documents/pictures.support.js';

let bench: FileBench;
/** In the order in which they were taken. */
const photographs: string[] = [];
beforeAll(async () => {
  bench = await FileBench.open();
  for (let count = 0; count < 8; count += 1) photographs.push((await bench.sent(await jpeg(900 - count, 600), 'image/jpeg')).id);
});
afterAll(() => bench?.close());

const consent = (given: boolean) => bench.network.post(`/v1/households/${bench.household.id}/consents`, { scope: 'photograph', given, manner: 'spoken' }).expect(201);
const printed = async (client = bench.network as Pick<typeof bench.network, 'get'>, language = 'en') => {
  const pdf = (await client.get(`/v1/items/${bench.itemId}/referral-package/paper?language=${language}`).expect(200)).body as Buffer;
  return { pdf, images: await imagesIn(pdf), text: (await wordsOf(pdf)).join('\n').replaceAll(/\s+/g, ' ') };
};
const listed = async () => ((await bench.network.get(`/v1/items/${bench.itemId}/referral-package`).expect(200)).body.photographs as { reference: string }[]).map(({ reference }) => reference);

test('without a yes of the owner no picture is printed, whether nobody asked or the owner said no; the paper says so', async () => {
  for (const word of [null, false]) {
    if (word !== null) await consent(word);
    const { images, text } = await printed();
    expect(images).toBe(0);
    expect(text).toContain('its owner has not agreed that they are shown to others');
  }
  expect(await listed()).toEqual(['photo-1', ...photographs]);
});

test('with it the six newest are printed, small, with their days, and the paper says that older ones are kept', async () => {
  await consent(true);
  const { pdf, images, text } = await printed();
  expect(images).toBe(6);
  for (const id of photographs.slice(-6)) expect(text).toContain(`…${id.slice(-6)}, 2026-05-09`);
  for (const id of photographs.slice(0, 2)) expect(text).not.toContain(`…${id.slice(-6)}`);
  expect(text).toContain('2 older pictures are kept; ask us for them.');
  expect(pdf.length).toBeLessThan(400_000);
  expect((await printed(bench.network, 'es')).text).toContain('Se guardan 2 imágenes más antiguas');
});

test('another reader finds the same six, each no larger than a picture in a list', async () => {
  // Poppler is no dependency of ours: where it is not installed, what pdfium counts above stands alone.
  if (spawnSync('pdfimages', ['-v']).error !== undefined) return void process.stdout.write('pdfimages of poppler-utils is not installed: the pictures are counted by pdfium alone\n');
  const folder = mkdtempSync(join(tmpdir(), 'wl-pdf-'));
  try {
    const file = join(folder, 'referral.pdf');
    writeFileSync(file, (await printed()).pdf);
    const rows = spawnSync('pdfimages', ['-list', file], { encoding: 'utf8' }).stdout.split('\n').slice(2).filter((row) => row !== '').map((row) => row.trim().split(/\s+/));
    expect(rows.map(([, , kind, width, height, , , , encoding]) => [kind, Number(width) <= 320 && Number(height) <= 320, encoding])).toEqual(photographs.slice(-6).map(() => ['image', true, 'jpeg']));
    const look = process.env['WRACKLINE_LOOK'];
    if (look !== undefined) writeFileSync(join(look, 'referral-pictures.pdf'), (await printed()).pdf);
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test('a key that may not read files prints none', async () => {
  const { images, text } = await printed(bench.network.as(await bench.network.newKey({ scopes: ['item:read'] })));
  expect([images, text.includes('The pictures are not printed here; ask us for them.')]).toEqual([0, true]);
});

test('a file that is not where it was put is named, leaves no frame, and holds up nothing', async () => {
  const gone = photographs[5] ?? '';
  const { name } = (await bench.objectsOf(gone)).find(({ role }) => role === 'small') ?? { name: '' };
  await bench.vault.delete(name);
  const { images, text } = await printed();
  expect(images).toBe(5);
  expect(text).toContain(`The picture ${gone} could not be read when this was printed; ask us for it.`);
});

test('one that shows a document is neither listed nor printed', async () => {
  const last = photographs[7] ?? '';
  await bench.server.admin.query('update file set sensitive = true where id = $1', [last]);
  const { text } = await printed();
  expect([await listed(), text.includes(last)]).toEqual([['photo-1', ...photographs.slice(0, 7)], false]);
});
