import { networkDigest } from '#testing';
import { jpeg } from '../support/pictures.js';
import { sha256 } from '../support/files.js';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { FileBench } from '../support/files.js';

let bench: FileBench;
beforeAll(async () => {
  bench = await FileBench.open();
});
afterAll(() => bench?.close());

test('a file that comes in parts is put together, looked into and kept', async () => {
  const bytes = await jpeg();
  const id = await bench.begun(bytes.length, { sha256: sha256(bytes) });
  const half = Math.floor(bytes.length / 2);
  expect(await bench.patch(id, 0, bytes.subarray(0, half))).toMatchObject({ status: 204, offset: String(half) });
  expect(await bench.head(id)).toEqual({ status: 200, offset: String(half), length: String(bytes.length), cache: 'no-store' });
  expect(await bench.patch(id, half, bytes.subarray(half))).toMatchObject({ status: 204, offset: String(bytes.length) });
  expect((await bench.read(id)).state).toBe('received');
  await bench.work();
  expect(await bench.read(id)).toMatchObject({ state: 'kept', mediaType: 'image/jpeg', widthPx: 640, heightPx: 480, refusal: null });
  // What was sent is gone; three sizes of ours are there.
  await bench.work();
  expect((await bench.objectsOf(id)).map(({ role, state }) => [role, state])).toEqual([['full', 'there'], ['medium', 'there'], ['small', 'there']]);
});

test('a line that breaks off loses nothing of what had arrived, and the same bytes make the same file', async () => {
  const bytes = Buffer.concat([await jpeg(1_600, 1_200), Buffer.alloc(5_000_000, 1)]);
  const id = await bench.begun(bytes.length, { sha256: sha256(bytes) });
  const cut = new AbortController();
  const body = new ReadableStream({
    async pull(controller) {
      const sent = this as unknown as { at?: number };
      const at = sent.at ?? 0;
      if (at >= 3_200_000) return void cut.abort();
      controller.enqueue(bytes.subarray(at, at + 100_000));
      sent.at = at + 100_000;
      await new Promise((resolve) => setTimeout(resolve, 5));
    },
  });
  await fetch(`${bench.server.url}/v1/uploads/${id}`, { method: 'PATCH', body, duplex: 'half', signal: cut.signal, headers: { authorization: `Bearer ${bench.network.key}`, 'tus-resumable': '1.0.0', 'upload-offset': '0', 'content-type': 'application/offset+octet-stream' } } as RequestInit).catch(() => undefined);
  let offset = 0;
  for (let look = 0; look < 40 && offset < 3_000_000; look += 1) {
    await new Promise((resolve) => setTimeout(resolve, 50));
    offset = Number((await bench.head(id)).offset);
  }
  expect(offset).toBeGreaterThanOrEqual(2_097_152);
  expect(offset).toBeLessThanOrEqual(3_200_000);
  expect(await bench.patch(id, offset, bytes.subarray(offset))).toMatchObject({ status: 204, offset: String(bytes.length) });
  await bench.work();
  expect(await bench.read(id)).toMatchObject({ state: 'kept', widthPx: 1_600, removed: [{ code: 'trailing-bytes' }] });
});

describe('a part is refused, with nothing changed', () => {
  const digest = () => networkDigest(bench.server.admin, bench.network.networkId);

  test.each<[string, number, Record<string, string>, number, string]>([
    ['at another byte than the upload stands at', 5, {}, 409, 'upload_offset'],
    ['that goes beyond the announced length', 0, {}, 413, 'body_too_large'],
    ['without its place', 0, { 'upload-offset': '' }, 400, 'validation_failed'],
    ['at a place that is no number', 0, { 'upload-offset': '-1' }, 400, 'validation_failed'],
    ['without the version of the protocol', 0, { 'tus-resumable': '9.9.9' }, 400, 'validation_failed'],
    ['of another media type', 0, { 'content-type': 'application/json' }, 400, 'body_malformed'],
    ['of a media type that nobody reads', 0, { 'content-type': 'application/x-what' }, 415, 'media_type_unsupported'],
  ])('%s', async (_what, offset, headers, status, code) => {
    const id = await bench.begun(10);
    const before = await digest();
    const answer = await bench.patch(id, offset, Buffer.alloc(20, 1), headers);
    expect([answer.status, answer.body['code']]).toEqual([status, code]);
    expect(await digest()).toEqual(before);
  });

  test('after its time: 410, and what had arrived is removed', async () => {
    const id = await bench.begun(10);
    expect((await bench.patch(id, 0, Buffer.alloc(4))).status).toBe(204);
    const now = bench.server.clock.nowMs();
    bench.server.clock.set(now + 25 * 3_600_000);
    const answer = await bench.patch(id, 4, Buffer.alloc(6));
    expect([answer.status, answer.body['code']]).toEqual([410, 'upload_expired']);
    await bench.work(true);
    bench.server.clock.set(now);
    expect(await bench.objectsOf(id)).toEqual([]);
    expect((await bench.read(id)).state).toBe('expired');
  });

  test('of another network: 404, as for one that never was, and the upload goes on', async () => {
    const id = await bench.begun(10);
    const theirs = await bench.server.network();
    expect((await bench.patch(id, 0, Buffer.alloc(10), {}, theirs.key)).status).toBe(404);
    expect((await bench.head(id, theirs.key)).status).toBe(404);
    expect((await bench.patch(id, 0, Buffer.alloc(10))).status).toBe(204);
  });
});

/** How long a request waits at an upload before it ends the one that is at it (`lockDrainTimeout`). Only a busy machine takes so long here. */
const DRAIN_MS = 1_000;

test('of two that send the same part at the same moment one moves it on, and the other is told where it stands', async () => {
  for (let round = 0; round < 5; round += 1) {
    const bytes = Buffer.alloc(300_000, round + 1);
    const id = await bench.begun(bytes.length);
    const begun = performance.now();
    const answers = await Promise.all([bench.patch(id, 0, bytes), bench.patch(id, 0, bytes)]);
    if (performance.now() - begun < DRAIN_MS) {
      expect(answers.map(({ status }) => status).sort()).toEqual([204, 409]);
      expect((await bench.objectsOf(id)).filter(({ state }) => state === 'there').length).toBe(1);
    } else {
      // Who waits so long at an upload ends the other's part where it stands, by the protocol: then the sender goes on from there.
      const refused = answers.filter(({ status }) => status !== 204);
      expect(refused).toHaveLength(1);
      expect([409, 503]).toContain(refused[0]?.status);
      const at = Number((await bench.head(id)).offset ?? bytes.length);
      if (at < bytes.length) expect(await bench.patch(id, at, bytes.subarray(at))).toMatchObject({ status: 204, offset: String(bytes.length) });
    }
    const { rows: [stored] } = await bench.server.admin.query("select sum(bytes)::int as bytes from file_object where file_id = $1 and state = 'there'", [id]);
    expect(stored).toEqual({ bytes: bytes.length });
    const { rows } = await bench.server.admin.query("select 1 from outbox where subject_id = $1 and kind = 'file.check'", [id]);
    expect(rows.length).toBe(1);
  }
});
