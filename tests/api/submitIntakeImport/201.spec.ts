import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { sha256Hex, startTestServer, type TestServer } from '#testing';
import { NDJSON, outboxOf, submit } from './intake-files.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('submitIntakeImport answers 201', () => {
  test('the file is queued with an outbox row of the same transaction, and the answer says how it was read', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const file = Buffer.from('Tag;Household;Shelf\r\nA;HH-1;3\r\n;;\r\nB;HH-2;4\r\n');
    const { body, headers } = await submit(network, incident, file).expect(201);
    expect(headers['location']).toBe(`/v1/intake-imports/${body.id}`);
    expect(body).toMatchObject({
      incidentId: incident.id, siteId: incident.site(), fileName: 'door-slips.csv', mediaType: 'text/csv', sha256: sha256Hex(file), encoding: 'utf-8', delimiter: 'semicolon',
      columns: [{ header: 'Tag', column: 'tag' }, { header: 'Household', column: 'household' }, { header: 'Shelf', column: null }],
      remarks: [{ kind: 'note', column: 'Shelf', code: 'column_not_used' }],
      state: 'queued', rowsTotal: 2, rowsDone: 0, accepted: 0, refused: 0, submittedAt: '2026-05-09T07:00:00.000Z', finishedAt: null, failure: null,
    });
    expect(await outboxOf(server, body.id)).toMatchObject([{ doneAt: null }]);
  });

  test('NDJSON and a charset behind the media type are taken', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const ndjson = await submit(network, incident, '{"tag":"A","household":"HH-1"}\n', NDJSON).expect(201);
    expect(ndjson.body).toMatchObject({ mediaType: 'application/x-ndjson', delimiter: null, rowsTotal: 1 });
    const csv = await submit(network, incident, Buffer.from('tag,household\nA\xe9,HH-1\n', 'latin1'), { 'content-type': 'text/csv; charset=windows-1252; header=present' }).expect(201);
    expect(csv.body).toMatchObject({ encoding: 'windows-1252', remarks: [{ code: 'encoding_assumed' }] });
  });

  test('the same file for another site is another import', async () => {
    const network = await server.network();
    const incident = await network.incident((document) => {
      document.sites.push({ code: 'BARN', name: 'Tithe barn', zones: ['dirty'] });
    });
    const file = 'tag,household\nA,HH-1\n';
    const first = await submit(network, incident, file, undefined, incident.site('HALL')).expect(201);
    const second = await submit(network, incident, file, undefined, incident.site('BARN')).expect(201);
    expect(second.body.id).not.toBe(first.body.id);
  });
});
