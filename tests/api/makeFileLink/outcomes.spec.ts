import { jpeg, jpegWithPlace } from '../support/pictures.js';
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
