import { afterAll, beforeAll, beforeEach, describe, expect, test } from '@jest/globals';
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import sharp from 'sharp';
import { FileBench, sha256 } from '../api/support/files.js';
import { animationControl, chunk, jpeg, jpegWithPlace, movingWebp, pixelBomb, png, pngWith, textBomb, webp } from '../api/support/pictures.js';
import { m4a, mp3, opus, SECRET, wav, webm } from '../api/support/sounds.js';

// OWASP ASVS 5.0.0, 5.2.1, 5.2.2, 5.2.6, 5.3.2; attempts on uploads and links, and what each is answered.

/** Growth of the memory of the process that holds the API and the worker's part, over everything below; and the most that a check may take. */
const GROWTH_MB = 350;
const CHECK_MB = 700;

let bench: FileBench;
let beforeMb = 0;
let mostMb = 0;
let watch: NodeJS.Timeout;
const table: [string, string][] = [];

const rssMb = () => process.memoryUsage().rss / 1_048_576;
setFlagsFromString('--expose-gc');
/** Before each attempt: how much garbage of the ones before still lies about is chance, and nothing that an attempt takes. */
const collectGarbage = runInNewContext('gc') as () => void;
beforeEach(() => collectGarbage());

beforeAll(async () => {
  bench = await FileBench.open();
  await bench.sent(await jpeg(), 'image/jpeg');
  collectGarbage();
  beforeMb = rssMb();
  watch = setInterval(() => void (mostMb = Math.max(mostMb, rssMb())), 20);
});
afterAll(async () => {
  clearInterval(watch);
  await bench?.close();
});

/** Uploads bytes by the protocol and answers in a few words what became of them. */
async function became(bytes: Uint8Array, query: Record<string, string> = {}): Promise<string> {
  const { state, refusal, removed } = await bench.uploaded(bytes, query);
  return refusal === null ? `${state}${removed.length === 0 ? '' : ` without ${removed.map(({ code }) => code).join(', ')}`}` : `${state}: ${refusal.code}`;
}

/** The status and code of an answer. */
const told = ({ status, body }: { status: number; body: object }): string => `${status} ${'code' in body ? String(body.code) : ''}`.trim();

const gif = Buffer.from('474946383961010001000000002c00000000010001000002024401003b', 'hex');
const withHtml = async () => Buffer.concat([await jpeg(), Buffer.from('<html><script>alert(1)</script></html>')]);
const withZip = async () => Buffer.concat([await jpeg(), Buffer.from('504b0304', 'hex'), Buffer.from('PK-payload-of-an-archive')]);
const htmlFirst = async () => Buffer.concat([Buffer.from('<html><script>alert(1)</script>'), await jpeg()]);
const cutInHalf = async (whole: Promise<Buffer>) => {
  const bytes = await whole;
  return bytes.subarray(0, Math.floor(bytes.length / 2));
};
const movingPng = async () => pngWith(animationControl(10_000));

const PICTURES: [string, () => Promise<Uint8Array>, string][] = [
  ['a PNG of 256 million pixels in a few hundred kilobytes', async () => pixelBomb(16_000), 'refused: too-many-pixels'],
  ['a PNG that says it has 2^31 - 1 by 2^31 - 1 pixels', async () => Buffer.concat([Buffer.from('89504e470d0a1a0a', 'hex'), chunk('IHDR', Buffer.from('7fffffff7fffffff0800000000', 'hex')), chunk('IDAT', Buffer.alloc(10)), chunk('IEND', Buffer.alloc(0))]), 'refused: broken'],
  ['an SVG that reads a file of the server', async () => Buffer.from('<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg"><image href="file:///etc/passwd"/></svg>'), 'refused: svg'],
  ['an SVG behind four thousand spaces', async () => Buffer.from(`${' '.repeat(4_200)}<svg xmlns="http://www.w3.org/2000/svg"/>`), 'refused: not-on-the-list'],
  ['a GIF', async () => gif, 'refused: gif'],
  ['a TIFF', async () => Buffer.from('49492a0008000000', 'hex'), 'refused: tiff'],
  ['a PDF', async () => Buffer.from('%PDF-1.7 and so on'), 'refused: pdf'],
  ['a HEIC', async () => Buffer.from('0000001866747970686569630000000068656963', 'hex'), 'refused: heic'],
  ['an archive under the name of a picture', async () => Buffer.from('504b0304140000000000', 'hex'), 'refused: document'],
  ['a program', async () => Buffer.from('7f454c460201010000000000', 'hex'), 'refused: not-on-the-list'],
  ['a page with a picture behind it', htmlFirst, 'refused: not-on-the-list'],
  ['a picture with a page behind it', withHtml, 'kept without trailing-bytes'],
  ['a picture with an archive behind it', withZip, 'kept without trailing-bytes'],
  ['a WebP that moves', () => movingWebp(3), 'refused: animated'],
  ['a PNG that says it has 10,000 frames', movingPng, 'refused: animated'],
  ['a WebP of 10,000 frames', () => movingWebp(10_000, 4), 'refused: animated'],
  ['a JPEG cut in half', () => cutInHalf(jpegNoise()), 'refused: broken'],
  ['a PNG cut in half', () => cutInHalf(png(800, 800)), 'refused: broken'],
  ['a WebP cut in half', () => cutInHalf(webp(800, 800)), 'refused: broken'],
  ['a PNG with wrong check values', async () => (await png()).fill(0xee, 60, 64), 'refused: broken'],
  ['a PNG with a text that unfolds to 200 million bytes', async () => pngWith(textBomb(200_000_000)), 'kept without comments'],
  ['a PNG with a colour profile of 200 million bytes', async () => pngWith(chunk('iCCP', Buffer.concat([Buffer.from('x\0\0'), textBomb(200_000_000).subarray(17)]))), 'kept without comments'],
  ['a picture that says where it was taken and by whom', jpegWithPlace, 'kept without exif, location, xmp, colour-profile'],
  ['a JPEG that is only its first three bytes', async () => Buffer.from('ffd8ff', 'hex'), 'refused: broken'],
  ['a recording sent as a photograph', async () => wav(), 'refused: kind-differs'],
];

/** Noise, which no coder makes small: half of the file is half of the picture. */
function jpegNoise(): Promise<Buffer> {
  const raw = Buffer.from(Array.from({ length: 400 * 400 * 3 }, (_, index) => (index * 7_919) % 251));
  return sharp(raw, { raw: { width: 400, height: 400, channels: 3 } }).jpeg({ quality: 95 }).toBuffer();
}

const SOUNDS: [string, () => Uint8Array, string][] = [
  ['a film sent as a recording', () => m4a('vide'), 'refused: holds-pictures'],
  ['a picture sent as a recording', () => Buffer.from('ffd8ffe000104a4649460001', 'hex'), 'refused: kind-differs'],
  ['a page sent as a recording', () => Buffer.from('<html><script>alert(1)</script></html>'), 'refused: not-sound'],
  ['an M4A that says where it was recorded', () => m4a(), 'kept without tags'],
  ['an MP3 with a name in its tags', () => mp3(), 'kept without tags'],
  ['an Ogg with a name in its comments', () => opus(), 'kept without tags'],
  ['a WebM with a name in its tags', () => webm(), 'kept without tags'],
  ['a WAV cut in half', () => wav().subarray(0, 8_000), 'refused: broken'],
];

describe('what is uploaded is answered', () => {
  test.each(PICTURES)('%s', async (what, make, expected) => {
    const answer = await became(await make());
    table.push([what, answer]);
    expect(answer).toBe(expected);
  });

  test.each(SOUNDS)('%s', async (what, make, expected) => {
    const answer = await became(make(), { kind: 'voice' });
    table.push([what, answer]);
    expect(answer).toBe(expected);
  });
});

describe('what is sent otherwise than announced is answered', () => {
  const ATTEMPTS: [string, () => Promise<string>, string][] = [
    ['another checksum than announced', async () => became(await jpeg(), { sha256: '0'.repeat(64) }), 'refused: checksum-differs'],
    ['an upload of no bytes', async () => told(await bench.begin(0)), '400 validation_failed'],
    ['an upload of 15,000,001 bytes', async () => told(await bench.begin(15_000_001)), '413 body_too_large'],
    ['more bytes than announced', async () => told(await bench.patch(await bench.begun(10), 0, Buffer.alloc(1_000_000))), '413 body_too_large'],
    ['a part at a byte that is not its turn', async () => told(await bench.patch(await bench.begun(10), 5, Buffer.alloc(5))), '409 upload_offset'],
    ['the same part twice', async () => {
      const id = await bench.begun(10);
      await bench.patch(id, 0, Buffer.alloc(5));
      return told(await bench.patch(id, 0, Buffer.alloc(5)));
    }, '409 upload_offset'],
    ['two parts beside each other', async () => {
      const id = await bench.begun(500_000);
      return (await Promise.all([0, 1].map((byte) => bench.patch(id, 0, Buffer.alloc(500_000, byte))))).map(({ status }) => status).sort().join(' and ');
    }, '204 and 409'],
    ['a part after the time of the upload', async () => {
      const id = await bench.begun(10);
      const now = bench.server.clock.nowMs();
      bench.server.clock.set(now + 25 * 3_600_000);
      const answer = told(await bench.patch(id, 0, Buffer.alloc(10)));
      bench.server.clock.set(now);
      return answer;
    }, '410 upload_expired'],
    ['a part with another media type', async () => told(await bench.patch(await bench.begun(10), 0, Buffer.alloc(10), { 'content-type': 'image/jpeg' })), '415 media_type_unsupported'],
    ['a picture in one request under a media type that is not on the list', async () => told(await bench.send(gif, 'image/gif')), '415 media_type_unsupported'],
    ['a PNG under the media type of a JPEG', async () => (await bench.sent(await png(), 'image/jpeg')).state, 'kept'],
    ['a file name that leads out of the folder and holds a script', async () => {
      const metadata = `filename ${Buffer.from('../../../../etc/cron.d/x"><script>').toString('base64')}`;
      const { status, body } = await bench.begin(10, {}, bench.network, { 'upload-metadata': metadata });
      return `${status}, kept nowhere: ${!JSON.stringify([body, (await bench.server.admin.query('select file::text from file where id = $1', [body.id])).rows]).includes('script')}`;
    }, '201, kept nowhere: true'],
    ['an upload of another network, its address known', async () => told(await bench.patch(await bench.begun(10), 0, Buffer.alloc(10), {}, (await bench.server.network()).key)), '404 not_found'],
    ['an address that leads out of the uploads', async () => told(await bench.patch('..%2f..%2ffiles', 0, Buffer.alloc(10))), '404 not_found'],
    ['a made-up link', async () => String((await bench.fetched(`/files/${'A'.repeat(96)}`)).status), '404'],
    ['a thousand made-up links', async () => {
      const found = new Set<number>();
      for (let attempt = 0; attempt < 1_000; attempt += 1) found.add((await bench.fetched(`/files/${Buffer.from(sha256(Buffer.from(String(attempt))) + sha256(Buffer.from('x')), 'hex').toString('base64url')}`)).status);
      return [...found].join(', ');
    }, '404'],
    ['more uploads than may be unfinished', async () => {
      const other = await bench.bench.household();
      const begin = () => bench.network.post(`/v1/households/${other.id}/uploads?kind=photograph`, undefined, { 'tus-resumable': '1.0.0', 'upload-length': '10' });
      let last = '';
      for (let attempt = 0; attempt < 60 && !last.startsWith('409'); attempt += 1) last = told(await begin());
      return last;
    }, '409 uploads_full'],
  ];

  test.each(ATTEMPTS)('%s', async (what, attempt, expected) => {
    const answer = await attempt();
    table.push([what, answer]);
    expect(answer).toBe(expected);
  }, 400_000);
});

describe('and nothing of it is left', () => {
  test('in what was kept: no place, no name, no text, no second file; every picture is a plain JPEG', async () => {
    const { rows } = await bench.server.admin.query<{ id: string; kind: string }>("select id, kind from file where state = 'kept' order by id");
    expect(rows.length).toBeGreaterThan(5);
    for (const { id, kind } of rows) {
      for (const size of kind === 'photograph' ? ['full', 'medium', 'small'] : ['full']) {
        const { bytes } = await bench.fetched(await bench.link(id, { size }));
        for (const trace of ['InventedCamera', 'Invented Person', 'InventedXmpSecret', '<script>', 'PK-payload', SECRET]) expect(bytes.includes(trace)).toBe(false);
        if (kind !== 'photograph') continue;
        const { format, exif, xmp, iptc, icc, comments } = await sharp(bytes).metadata();
        expect({ format, exif, xmp, iptc, icc, comments }).toEqual({ format: 'jpeg' });
      }
    }
  }, 400_000);

  test('outside: no byte of what was refused, and nothing in the clear', async () => {
    while ((await bench.work()).length > 0);
    const known = (await bench.server.admin.query<{ name: string }>('select name from file_object')).rows.map(({ name }) => name).sort();
    const paths = (await readdir(bench.server.filesFolder, { recursive: true, withFileTypes: true })).filter((entry) => entry.isFile());
    expect(paths.map(({ name }) => name).sort()).toEqual(known);
    expect(await bench.server.admin.query("select 1 from file_object o join file f on f.id = o.file_id where f.state in ('refused', 'deleted', 'expired')")).toMatchObject({ rows: [] });
    for (const { parentPath, name } of paths) {
      const bytes = await readFile(join(parentPath, name));
      for (const clear of ['\xff\xd8\xff\xe0\x00\x10JFIF', '\xff\xd8\xff\xdb\x00\x43\x00', 'OpusHead', 'WAVEfmt ', 'ftypM4A ']) expect(bytes.includes(Buffer.from(clear, 'latin1'))).toBe(false);
    }
  });

  test('the refusals stay, with their reasons', async () => {
    const { rows } = await bench.server.admin.query<{ n: string }>("select count(*) as n from file where state = 'refused' and refusal is not null and settled_at is not null");
    expect(Number(rows[0]?.n)).toBeGreaterThanOrEqual(20);
  });

  test('and memory was bounded all the while', () => {
    const peakMb = Math.max(...bench.peaksMb);
    const width = Math.max(...table.map(([what]) => what.length));
    process.stdout.write(`${table.map(([what, answer]) => `${what.padEnd(width)}  ${answer}`).join('\n')}\n${table.length} attempts; API and worker together had ${Math.round(mostMb)} MB at most, ${Math.round(mostMb - beforeMb)} MB more than before, a check took ${peakMb} MB at most (of ${bench.peaksMb.length})\n`);
    expect(table.length).toBeGreaterThanOrEqual(40);
    expect(mostMb - beforeMb).toBeLessThan(GROWTH_MB);
    expect(peakMb).toBeLessThan(CHECK_MB);
  });
});

describe('a check that takes too much', () => {
  test('is ended: for time and for memory the file is refused, and the next one is looked into', async () => {
    for (const limits of [{ timeoutMs: 50 }, { memoryMb: 60 }]) {
      const small = await FileBench.open(limits);
      expect(await small.uploaded(await jpeg(1_200, 900))).toMatchObject({ state: 'refused', refusal: { code: 'too-costly' } });
      await small.close();
    }
    expect(await bench.uploaded(await jpeg(90, 70))).toMatchObject({ state: 'kept', refusal: null });
  }, 400_000);
});
