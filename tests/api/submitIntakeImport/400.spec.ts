import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { NDJSON, submit } from './intake-files.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('submitIntakeImport answers 400', () => {
  test.each<[string, string | Buffer, Record<string, string> | undefined]>([
    ['file_empty', Buffer.from('\r\n\r\n'), undefined],
    ['file_without_rows', 'tag,household\n', undefined],
    ['header_missing', Buffer.from([0, 1, 2, 3, 255, 254]), undefined],
    ['column_missing', 'tag,object\nA,Quilt\n', undefined],
    ['column_twice', 'tag,household,Tag\nA,HH-1,B\n', undefined],
    ['quote_not_closed', 'tag,household\nA,"HH-1\n', undefined],
    ['too_many_rows', `tag,household\n${'A,B\n'.repeat(20_001)}`, undefined],
    ['cell_too_long', `tag,household\nA,${'B'.repeat(4_001)}\n`, undefined],
    ['line_not_json', 'tag,household\nA,HH-1\n', NDJSON],
  ])('a file is refused whole for %s, says what to do, and nothing is changed', async (code, content, headers) => {
    const network = await server.network();
    const incident = await network.incident();
    const { body } = await submit(network, incident, content, headers).expect(400);
    expect(body).toMatchObject({ code: 'validation_failed', errors: [{ code, detail: expect.stringMatching(/\.$/) }], detail: expect.stringContaining('Nothing was changed.') });
    const { rows } = await server.admin.query('select 1 from intake_import where network_id = $1 union all select 1 from outbox where network_id = $1', [network.networkId]);
    expect(rows).toHaveLength(0);
  });

  test('the sentences for the person at the screen come in the language asked for, the problem itself in English', async () => {
    const network = await server.network();
    const { body } = await submit(network, await network.incident(), 'tag,object\nA,Quilt\n', { 'content-type': 'text/csv', 'accept-language': 'es' }).expect(400);
    expect(body).toMatchObject({ detail: 'The column “household” is missing from the header line. Add it. Nothing was changed.', inWords: ['En la línea de encabezado falta la columna «household». Añádala.'] });
  });

  test.each(['', '?siteId=HALL', '?siteId=0198b7a0-0000-7000-8000-000000000001&fileName=', '?siteId=0198b7a0-0000-7000-8000-000000000001&state=done'])('the query %j names what is wrong with it', async (query) => {
    const network = await server.network();
    const incident = await network.incident();
    const { body } = await network.post(`/v1/incidents/${incident.id}/intake-imports${query}`, 'tag,household\nA,B\n', { 'content-type': 'text/csv' }).expect(400);
    expect(body.code).toBe('validation_failed');
    expect(body.errors.length).toBeGreaterThan(0);
  });

  test('no Idempotency-Key', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const { body } = await submit(network, incident, 'tag,household\nA,B\n', { 'content-type': 'text/csv', 'idempotency-key': '' }).expect(400);
    expect(body.code).toMatch(/^idempotency_key_/);
  });
});
