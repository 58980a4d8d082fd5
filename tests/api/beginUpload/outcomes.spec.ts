import { newId } from '#platform';
import { networkDigest } from '#testing';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { FileBench } from '../support/files.js';

let bench: FileBench;
beforeAll(async () => {
  bench = await FileBench.open();
});
afterAll(() => bench?.close());

describe('an upload is begun', () => {
  test('and answers where it goes on, by tus 1.0', async () => {
    const answer = await bench.begin(1_000, { event: 'intake' }).expect(201);
    expect(answer.headers['location']).toBe(`/v1/uploads/${answer.body.id}`);
    expect(answer.headers['tus-resumable']).toBe('1.0.0');
    expect(answer.body).toMatchObject({ state: 'receiving', announcedBytes: 1_000, receivedBytes: 0, event: { kind: 'intake', id: null, seq: 1 }, sensitive: false });
    expect(Date.parse(answer.body.expiresAt) - Date.parse(answer.body.begunAt)).toBe(24 * 3_600_000);
  });

  test('once, however often the same command comes', async () => {
    const key = { 'idempotency-key': `"${newId()}"` };
    const first = await bench.begin(1_000, {}, bench.network, key).expect(201);
    const second = await bench.begin(1_000, {}, bench.network, key).expect(201);
    expect(second.body.id).toBe(first.body.id);
    await bench.begin(2_000, {}, bench.network, key).expect(422);
  });

  test('with a file name that is kept nowhere', async () => {
    const name = Buffer.from('../../etc/passwd <script>').toString('base64');
    const { body } = await bench.begin(10, {}, bench.network, { 'upload-metadata': `filename ${name}` }).expect(201);
    const { rows } = await bench.server.admin.query('select file::text as row from file where id = $1', [body.id]);
    expect(JSON.stringify([body, rows])).not.toMatch(/passwd|script/);
  });

  test('of a letter as sensitive unless somebody says otherwise', async () => {
    const letter = await bench.bench.takeIn(bench.household, { materialClass: 'paper-uncoated', sizeClass: 'a4-sheet' });
    expect((await bench.begin(10, { itemId: letter.id }).expect(201)).body.sensitive).toBe(true);
    expect((await bench.begin(10, { itemId: letter.id, sensitive: 'false' }).expect(201)).body.sensitive).toBe(false);
  });
});

describe('and is refused, with nothing changed', () => {
  const digest = () => networkDigest(bench.server.admin, bench.network.networkId, ['idempotency_record', 'audit_entry']);

  test.each<[string, number | string, Record<string, string>, Record<string, string>, number, string]>([
    ['without the version of the protocol', 10, {}, { 'tus-resumable': '0.2.2' }, 412, 'tus_version'],
    ['without a length', '', {}, {}, 400, 'validation_failed'],
    ['of nothing', 0, {}, {}, 400, 'validation_failed'],
    ['of a length that is no number', '1e9', {}, {}, 400, 'validation_failed'],
    ['of a photograph that is too large', 15_000_001, {}, {}, 413, 'body_too_large'],
    ['of a recording that is too large', 25_000_001, { kind: 'voice' }, {}, 413, 'body_too_large'],
    ['of a kind that is not ours', 10, { kind: 'film' }, {}, 400, 'validation_failed'],
    ['with a checksum that is none', 10, { sha256: 'abc' }, {}, 400, 'validation_failed'],
    ['of a hand-back without its id', 10, { event: 'hand-back' }, {}, 400, 'validation_failed'],
    ['of an event that takes no id', 10, { event: 'intake', eventId: newId() }, {}, 400, 'validation_failed'],
    ['of an assessment without its item', 10, { event: 'assessment', itemId: '' }, {}, 400, 'validation_failed'],
    ['of an assessment that is not there', 10, { event: 'assessment', eventId: newId() }, {}, 422, 'reference_unknown'],
    ['of a custody event that is not there', 10, { event: 'custody', eventSeq: '99' }, {}, 422, 'reference_unknown'],
    ['of an item that is not there', 10, { itemId: newId() }, {}, 422, 'reference_unknown'],
    ['by a person who is not there', 10, { personId: newId() }, {}, 422, 'reference_unknown'],
  ])('%s', async (_what, length, query, headers, status, code) => {
    const before = await digest();
    const answer = await bench.begin(length, query, bench.network, headers);
    expect([answer.status, answer.body.code]).toEqual([status, code]);
    expect(await digest()).toEqual(before);
  });

  test('when the owner wants no photographs of it; another word of the owner allows it again', async () => {
    const household = await bench.bench.household();
    const { id } = await bench.bench.takeIn(household);
    const begin = () => bench.network.post(`/v1/households/${household.id}/uploads?kind=photograph&itemId=${id}`, undefined, { 'tus-resumable': '1.0.0', 'upload-length': '10' });
    const say = (given: boolean) => bench.network.post(`/v1/households/${household.id}/consents`, { scope: 'photograph', given, manner: 'spoken' }).expect(201);
    await begin().expect(201);
    await say(false);
    expect((await begin().expect(409)).body.code).toBe('consent_missing');
    await say(true);
    await begin().expect(201);
  });

  test('when fifty of the household are unfinished', async () => {
    const household = await bench.bench.household();
    const begin = () => bench.network.post(`/v1/households/${household.id}/uploads?kind=photograph`, undefined, { 'tus-resumable': '1.0.0', 'upload-length': '10' });
    for (let count = 0; count < 50; count += 1) await begin().expect(201);
    expect((await begin().expect(409)).body.code).toBe('uploads_full');
  });
});
