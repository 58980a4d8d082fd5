import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestNetwork, type TestServer } from '#testing';
import { pageSizesPt, wordsOf } from '../../unit/documents/pictures.support.js';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

test('a page of exact size in the language asked for', async () => {
  for (const [query, said, language] of [['', 'Print this page on plain paper at 100 %', 'en'], ['?language=es', 'Imprima esta página en papel normal al 100 %', 'es']] as const) {
    const { headers, body } = await network.get(`/v1/label-templates/letter-67x25/calibration-page${query}`).expect(200);
    expect(headers).toMatchObject({ 'content-type': 'application/pdf', 'content-language': language, 'x-content-type-options': 'nosniff' });
    expect(pageSizesPt(body)).toEqual([{ width: 612, height: 792 }]);
    expect((await wordsOf(body)).join(' ')).toContain(said);
  }
});

test('404 as a problem for a template that is not there, and for one of another network', async () => {
  const other = await server.network();
  const template = { page: { widthMm: 100, heightMm: 60 }, marginLeftMm: 0, marginTopMm: 0, columns: 1, rows: 1, pitchXMm: 100, pitchYMm: 60, label: { widthMm: 100, heightMm: 60 }, cornerMm: 0 };
  const { body } = await other.post('/v1/label-templates', { name: 'Theirs', template }).expect(201);
  for (const id of ['a4-1x1', body.id]) {
    const answer = await network.get(`/v1/label-templates/${id}/calibration-page`).expect(404);
    expect(answer.headers['content-type']).toContain('application/problem+json');
  }
});
