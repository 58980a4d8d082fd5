import { newId } from '#platform';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { FileBench } from '../support/files.js';

let bench: FileBench;
beforeAll(async () => {
  bench = await FileBench.open();
});
afterAll(() => bench?.close());

const TEXT = 'Invented words: sewn from the curtains of a house that burned. ¿Qué más?';
const write = (body: object = {}, headers: Record<string, string> = {}) => bench.network.post(`/v1/households/${bench.household.id}/words`, { itemId: bench.itemId, text: TEXT, ...body }, headers);

describe('what a family says of a thing', () => {
  test('is kept at once, sealed, and read by a link', async () => {
    const { body } = await write({ language: 'es' }).expect(201);
    expect(body).toMatchObject({ state: 'kept', kind: 'words', language: 'es', sensitive: true, mediaType: 'text/plain' });
    const answer = await bench.fetched(await bench.link(body.id));
    expect(answer.bytes.toString('utf8')).toBe(TEXT);
    expect(answer.headers.get('content-type')).toBe('text/plain; charset=utf-8');
    const [object] = await bench.objectsOf(body.id);
    expect(Buffer.from((await bench.vault.get(object?.name ?? '')) ?? []).includes('curtains')).toBe(false);
    const { rows } = await bench.server.admin.query('select (select string_agg(file::text, chr(10)) from file) || (select string_agg(outbox::text, chr(10)) from outbox) || (select string_agg(idempotency_record::text, chr(10)) from idempotency_record) || (select string_agg(audit_entry::text, chr(10)) from audit_entry) as all');
    expect((rows[0] as { all: string }).all).not.toContain('curtains');
  });

  test('is kept once, when the same is sent again with the same key', async () => {
    const key = { 'idempotency-key': `"${newId()}"` };
    const [first, second] = [await write({}, key).expect(201), await write({}, key).expect(201)];
    expect(second.body.id).toBe(first.body.id);
    expect((await bench.objectsOf(first.body.id)).length).toBe(1);
  });

  test('is refused when there are none, too many, or of an item that is not the household\'s', async () => {
    await write({ text: ' ' }).expect(400);
    await write({ text: 'a'.repeat(30_001) }).expect(400);
    expect((await write({ itemId: newId() }).expect(422)).body.code).toBe('reference_unknown');
  });
});
