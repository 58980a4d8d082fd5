import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { parse } from 'csv-parse/sync';
import { startTestServer, type TestServer } from '#testing';
import { NDJSON, reserve, take } from '../submitIntakeImport/intake-files.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

describe('getRefusedRows answers 200', () => {
  test('a CSV with the columns as they came, guarded, each row with all that must be mended', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const [a = ''] = await reserve(network, incident, 1);
    const importId = await take(server, network, incident, `Shelf;TAG;House hold;object;count;contactPhone\r\n1;${a};HH-1;Quilt;1;\r\n=2;;HH-1;"two\r\nlines; ""q""";x;+43 1\r\n`);
    const answer = await network.get(`/v1/intake-imports/${importId}/refused-rows`).expect(200);
    expect(answer.headers['content-type']).toBe('text/csv; charset=utf-8; header=present');
    expect(answer.headers['content-disposition']).toBe(`attachment; filename="refused-rows-${importId}.csv"`);
    expect(answer.text.startsWith('\uFEFFShelf,TAG,House hold,object,count,contactPhone,_problem\r\n')).toBe(true);
    expect(parse(answer.text, { bom: true })[1]).toEqual([
      "'=2", '', 'HH-1', 'two\r\nlines; "q"', 'x', "'+43 1",
      'Row 3: tag: A thing without a tag is lost among the others. Tie a tag to it and write its code here. count: Write the number of pieces as a whole number, 1 for a single thing.',
    ]);
  });

  test('only the header line when every row went in', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const [a = ''] = await reserve(network, incident, 1);
    const importId = await take(server, network, incident, `tag,household,object\n${a},HH-1,Quilt\n`);
    const { text } = await network.get(`/v1/intake-imports/${importId}/refused-rows`).expect(200);
    expect(text).toBe('\uFEFFtag,household,object,_problem\r\n');
  });

  test('a line of NDJSON that could not be taken apart is given whole', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const importId = await take(server, network, incident, '{"tag":"A","household":"HH-1"}\n{"tag":"B",\n', NDJSON);
    const { text } = await network.get(`/v1/intake-imports/${importId}/refused-rows`).expect(200);
    const records = parse(text, { bom: true });
    expect(records.map((record) => record.slice(0, 3))).toEqual([['tag', 'household', '_line'], ['A', 'HH-1', ''], ['', '', '{"tag":"B",']]);
  });

  test('more rows than one look at the database fetches', async () => {
    const network = await server.network();
    const incident = await network.incident();
    const importId = await take(server, network, incident, `tag,household\n${Array.from({ length: 1_205 }, (_, at) => `,H-${at}`).join('\n')}\n`);
    const { text } = await network.get(`/v1/intake-imports/${importId}/refused-rows`).expect(200);
    expect(parse(text, { bom: true }).slice(1).map((record) => record[1])).toEqual(Array.from({ length: 1_205 }, (_, at) => `H-${at}`));
  });
});
