import { jpeg, jpegWithPlace } from '../support/pictures.js';
import { wav } from '../support/sounds.js';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { FileBench } from '../support/files.js';

let bench: FileBench;
beforeAll(async () => {
  bench = await FileBench.open();
});
afterAll(() => bench?.close());

const consent = (given: boolean) => bench.network.post(`/v1/households/${bench.household.id}/consents`, { scope: 'photograph', given, manner: 'spoken' }).expect(201);

describe('a link', () => {
  test('leads to a picture without a key, and the browser is told to run nothing and to keep nothing', async () => {
    const { id } = await bench.sent(await jpegWithPlace(), 'image/jpeg');
    const { status, headers, bytes } = await bench.fetched(await bench.link(id, { size: 'small' }));
    expect(status).toBe(200);
    expect(await sharp(bytes).metadata()).toMatchObject({ format: 'jpeg', width: 160, height: 320 });
    expect(Object.fromEntries(['content-type', 'x-content-type-options', 'cache-control', 'referrer-policy', 'x-robots-tag'].map((name) => [name, headers.get(name)]))).toEqual({ 'content-type': 'image/jpeg', 'x-content-type-options': 'nosniff', 'cache-control': 'no-store', 'referrer-policy': 'no-referrer', 'x-robots-tag': 'noindex' });
    expect(headers.get('content-security-policy')).toContain("default-src 'none'");
    expect(headers.get('content-disposition')).toMatch(/^inline; filename="photograph-[0-9a-f]{8}\.jpg"$/);
    expect((await bench.fetched(await bench.link(id, { download: true }))).headers.get('content-disposition')).toMatch(/^attachment/);
  });

  test('to a recording serves parts of it, and says so where there is none', async () => {
    const { id } = await bench.sent(wav(2), 'audio/wav');
    const url = await bench.link(id);
    const { bytes: whole, headers } = await bench.fetched(url);
    expect(headers.get('accept-ranges')).toBe('bytes');
    const part = async (range: string, more: Record<string, string> = {}) => {
      const answer = await fetch(`${bench.server.url}${url}`, { headers: { range, ...more } });
      return { status: answer.status, range: answer.headers.get('content-range'), type: answer.headers.get('content-type'), length: answer.headers.get('content-length'), bytes: Buffer.from(await answer.arrayBuffer()) };
    };
    const size = whole.length;
    expect(await part('bytes=0-1')).toEqual({ status: 206, range: `bytes 0-1/${size}`, type: 'audio/wav', length: '2', bytes: whole.subarray(0, 2) });
    expect(await part('bytes=100-')).toMatchObject({ status: 206, range: `bytes 100-${size - 1}/${size}`, bytes: whole.subarray(100) });
    expect(await part('bytes=-44')).toMatchObject({ status: 206, range: `bytes ${size - 44}-${size - 1}/${size}`, bytes: whole.subarray(-44) });
    const outside = await part(`bytes=${size}-`);
    expect(outside).toMatchObject({ status: 416, range: `bytes */${size}`, type: 'application/problem+json; charset=utf-8' });
    expect(JSON.parse(outside.bytes.toString('utf8'))).toMatchObject({ code: 'range_not_satisfiable' });
    for (const range of ['bytes=0-1,4-5', 'lines=1-2', 'bytes=9-3']) expect(await part(range)).toMatchObject({ status: 200, range: null, bytes: whole });
    expect(await part('bytes=0-1', { 'if-range': '"abc"' })).toMatchObject({ status: 200, bytes: whole });
    const picture = await bench.sent(await jpeg(), 'image/jpeg');
    const seen = await fetch(`${bench.server.url}${await bench.link(picture.id)}`, { headers: { range: 'bytes=0-1' } });
    expect([seen.status, seen.headers.get('accept-ranges')]).toEqual([200, null]);
  });

  test('that was changed at any place, or has ended, leads nowhere, with one answer', async () => {
    const { id } = await bench.sent(await jpeg(), 'image/jpeg');
    const url = await bench.link(id);
    const token = url.slice('/files/'.length);
    const answers = new Set<string>();
    for (const wrong of ['x', `${token}A`, token.slice(0, -4), ...[0, 3, 30, 45, 50, token.length - 2].map((at) => `${token.slice(0, at)}${token[at] === 'A' ? 'B' : 'A'}${token.slice(at + 1)}`)]) {
      const { status, bytes } = await bench.fetched(`/files/${wrong}`);
      expect(status).toBe(404);
      answers.add((JSON.parse(bytes.toString('utf8')) as { detail: string }).detail);
    }
    expect(answers.size).toBe(1);
    await bench.network.post(`/v1/files/${id}/deletions`, { personId: bench.bench.incident.person('P1'), reason: 'The family asked for it.' }).expect(200);
    expect((await bench.fetched(url)).status).toBe(404);
  });

  test('for others needs the word of the owner, and ends when it is taken back', async () => {
    const { id } = await bench.sent(await jpeg(), 'image/jpeg');
    const ask = (purpose: string) => bench.network.post(`/v1/files/${id}/links`, { purpose });
    expect((await ask('specialist').expect(409)).body.code).toBe('consent_missing');
    await consent(true);
    const url = (await ask('specialist').expect(201)).body.url as string;
    expect((await bench.fetched(url)).status).toBe(200);
    await consent(false);
    expect((await bench.fetched(url)).status).toBe(404);
    expect((await ask('publication').expect(409)).body.code).toBe('consent_missing');
    // The work itself goes on.
    await ask('work').expect(201);
    await consent(true);
  });

  test('to what is sensitive is never made for everybody, and for the family\'s page only when somebody looked', async () => {
    const { id } = await bench.sent(await jpeg(), 'image/jpeg', { sensitive: 'true' });
    const ask = (body: object) => bench.network.post(`/v1/files/${id}/links`, body);
    expect((await ask({ purpose: 'publication', sensitiveToo: true }).expect(409)).body.code).toBe('file_sensitive');
    expect((await ask({ purpose: 'family' }).expect(409)).body.code).toBe('file_sensitive');
    await ask({ purpose: 'family', sensitiveToo: true }).expect(201);
  });

  test('is refused to what is not kept, and of another network', async () => {
    const upload = await bench.begun(10);
    expect((await bench.network.post(`/v1/files/${upload}/links`, {}).expect(409)).body.code).toBe('file_state');
    await (await bench.server.network()).post(`/v1/files/${upload}/links`, {}).expect(404);
  });
});
