import { newId } from '#platform';
import { jpeg, png, webp } from '../support/pictures.js';
import { wav } from '../support/sounds.js';
import { sha256 } from '../support/files.js';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { FileBench } from '../support/files.js';

let bench: FileBench;
beforeAll(async () => {
  bench = await FileBench.open();
});
afterAll(() => bench?.close());

describe('a small file comes in one request', () => {
  test('a JPEG, a PNG, a WebP and a recording are kept', async () => {
    for (const [bytes, type] of [[await jpeg(), 'image/jpeg'], [await png(), 'image/png'], [await webp(), 'image/webp']] as const) expect(await bench.sent(bytes, type, { event: 'intake', sha256: sha256(bytes) })).toMatchObject({ state: 'kept', kind: 'photograph', mediaType: 'image/jpeg', widthPx: 640 });
    expect(await bench.sent(wav(), 'audio/wav')).toMatchObject({ state: 'kept', kind: 'voice', mediaType: 'audio/wav', durationS: 1 });
  });

  test('once, when the same is sent again with the same key; a break between is made good', async () => {
    const bytes = await jpeg();
    const key = { 'idempotency-key': `"${newId()}"` };
    const first = await bench.send(bytes, 'image/jpeg', {}, bench.network, key).expect(201);
    // As if the process had died after the command and before its bytes were there.
    await bench.server.admin.query("delete from outbox where subject_id = $1 and kind = 'file.check'", [first.body.id]);
    await bench.server.admin.query('delete from file_object where file_id = $1', [first.body.id]);
    await bench.server.admin.query("update file set state = 'receiving', received_at = null, offset_bytes = 0 where id = $1", [first.body.id]);
    const second = await bench.send(bytes, 'image/jpeg', {}, bench.network, key).expect(201);
    expect(second.body).toMatchObject({ id: first.body.id, state: 'received', receivedBytes: bytes.length });
    const third = await bench.send(bytes, 'image/jpeg', {}, bench.network, key).expect(201);
    expect(third.body.id).toBe(first.body.id);
    const { rows } = await bench.server.admin.query("select 1 from outbox where subject_id = $1 and kind = 'file.check'", [first.body.id]);
    expect(rows.length).toBe(1);
  });

  test('and belongs to an event of its item', async () => {
    await bench.bench.assess(bench.itemId).expect(201);
    const { rows } = await bench.server.admin.query<{ id: string }>('select id from assessment where item_id = $1 order by recorded_at desc, id desc limit 1', [bench.itemId]);
    const event = { kind: 'assessment', id: rows[0]?.id, seq: null };
    expect((await bench.sent(await jpeg(), 'image/jpeg', { event: 'assessment' }))['event']).toEqual(event);
    expect((await bench.sent(await jpeg(), 'image/jpeg', { event: 'assessment', eventId: event.id ?? '' }))['event']).toEqual(event);
    expect((await bench.sent(await jpeg(), 'image/jpeg', { event: 'custody', eventSeq: '1' }))['event']).toEqual({ kind: 'custody', id: null, seq: 1 });
  });
});

describe('and is refused', () => {
  test.each<[string, Buffer, string, Record<string, string>, number, string]>([
    ['as a media type that is not on the list', Buffer.from('GIF89a'), 'image/gif', {}, 415, 'media_type_unsupported'],
    ['as JSON', Buffer.from('{}'), 'application/json', {}, 415, 'media_type_unsupported'],
    ['with nothing in it', Buffer.alloc(0), 'image/jpeg', {}, 400, 'body_malformed'],
    ['with another checksum', Buffer.from('ffd8ff', 'hex'), 'image/jpeg', { sha256: '0'.repeat(64) }, 400, 'validation_failed'],
    ['beyond ten mebibytes', Buffer.alloc(10 * 1_048_576 + 1), 'image/jpeg', {}, 413, 'body_too_large'],
  ])('%s', async (_what, bytes, type, query, status, code) => {
    const answer = await bench.send(bytes, type, query);
    expect([answer.status, answer.body.code]).toEqual([status, code]);
  });
});
