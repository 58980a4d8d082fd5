import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { readdir } from 'node:fs/promises';
import { networkDigest } from '#testing';
import { FileBench, TUS } from '../support/files.js';
import { jpeg } from '../support/pictures.js';

let bench: FileBench;
let reader: string;
beforeAll(async () => {
  bench = await FileBench.open();
  reader = await bench.network.newKey({ scopes: ['file:read'] });
});
afterAll(() => bench?.close());

async function end(id: string, { key = bench.network.key, headers = TUS as Record<string, string> } = {}) {
  const answer = await fetch(`${bench.server.url}/v1/uploads/${id}`, { method: 'DELETE', headers: { ...headers, authorization: `Bearer ${key}` } });
  const text = await answer.text();
  return { status: answer.status, tus: answer.headers.get('tus-resumable'), code: text === '' ? null : (JSON.parse(text) as { code: string }).code };
}
const digest = () => networkDigest(bench.server.admin, bench.network.networkId);
const outside = async () => (await readdir(bench.server.filesFolder, { recursive: true, withFileTypes: true })).filter((entry) => entry.isFile()).length;

// tus 1.0.0, extension Termination: 204 with an empty body; the server should free what it took, and must answer later requests with 404 or 410.
test('204, its parts are freed, and whatever comes after it is answered with 410', async () => {
  const before = await outside();
  const id = await bench.begun(10);
  expect((await bench.patch(id, 0, Buffer.alloc(4, 1))).status).toBe(204);
  expect(await outside()).toBe(before + 1);
  expect(await end(id)).toEqual({ status: 204, tus: '1.0.0', code: null });
  await bench.work();
  expect([await outside(), await bench.objectsOf(id)]).toEqual([before, []]);
  const part = await bench.patch(id, 4, Buffer.alloc(6, 1));
  expect([part.status, part.body['code']]).toEqual([410, 'upload_expired']);
  expect((await bench.head(id)).status).toBe(410);
  expect(await end(id)).toMatchObject({ status: 410, code: 'upload_expired' });
  // The look that was written when it began finds nothing more to do.
  expect(await bench.work(true)).not.toContain('again');
});

test('is put down in the audit with who did it; an end that is refused is not', async () => {
  const id = await bench.begun(10);
  const ofIt = async () => (await bench.server.admin.query("select operation, subject_kind, subject_id, outcome, k.prefix from audit_entry a join api_key k on k.id = a.principal_id where a.operation = 'endUpload' and subject_id = $1", [id])).rows;
  expect((await end(id, { key: reader })).status).toBe(403);
  expect(await ofIt()).toEqual([]);
  expect((await end(id)).status).toBe(204);
  expect((await end(id)).status).toBe(410);
  expect(await ofIt()).toEqual([{ operation: 'endUpload', subject_kind: 'uploads', subject_id: id, outcome: 'done', prefix: bench.network.key.split('_')[1] }]);
});

test('gives its place back to others', async () => {
  const begun: string[] = [];
  for (;;) {
    const answer = await bench.begin(10);
    if (answer.status !== 201) {
      expect(answer.body.code).toBe('uploads_full');
      break;
    }
    begun.push(answer.body.id as string);
  }
  expect((await end(begun[0] ?? '')).status).toBe(204);
  begun.push(await bench.begun(10));
  for (const id of begun.slice(1)) expect((await end(id)).status).toBe(204);
});

test('beside a part that is under way: the upload ends, and no part of it stays', async () => {
  const before = await outside();
  for (let round = 0; round < 4; round += 1) {
    const id = await bench.begun(1_000_000);
    const [part, ended] = await Promise.all([bench.patch(id, 0, Buffer.alloc(900_000, 1)), end(id)]);
    expect([ended.status, [204, 409, 410, 503].includes(part.status)]).toEqual([204, true]);
    expect((await bench.head(id)).status).toBe(410);
    await bench.work();
    await bench.server.admin.query("update file_object set made_at = made_at - interval '2 hours' where file_id = $1", [id]);
    await bench.work(true);
    expect(await bench.objectsOf(id)).toEqual([]);
  }
  expect(await outside()).toBe(before);
});

describe('is refused, with nothing changed', () => {
  test('409 for a finished one, before and after it was looked into', async () => {
    const bytes = await jpeg();
    const id = await bench.begun(bytes.length);
    expect((await bench.patch(id, 0, bytes)).status).toBe(204);
    for (const state of ['received', 'kept']) {
      expect((await bench.read(id)).state).toBe(state);
      const before = await digest();
      expect(await end(id)).toMatchObject({ status: 409, code: 'file_state' });
      expect(await digest()).toEqual(before);
      await bench.work();
    }
  });

  test.each<[string, number, string, (id: string) => ReturnType<typeof end>]>([
    ['of another network', 404, 'not_found', async (id) => end(id, { key: (await bench.server.network()).key })],
    ['that never was', 404, 'not_found', async () => end('0198b7a0-0000-7000-8000-00000000dead')],
    ['with a key that may not send files', 403, 'scope_missing', async (id) => end(id, { key: reader })],
    ['without the version of the protocol', 412, 'tus_version', async (id) => end(id, { headers: {} })],
  ])('one %s: %i %s', async (_, status, code, ask) => {
    const id = await bench.begun(10);
    const before = await digest();
    expect(await ask(id)).toMatchObject({ status, code });
    expect([await digest(), (await bench.head(id)).status]).toEqual([before, 200]);
  });
});
