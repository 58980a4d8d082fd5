import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

const A4 = { page: { widthMm: 210, heightMm: 297 }, marginLeftMm: 8, marginTopMm: 10, columns: 2, rows: 5, pitchXMm: 98, pitchYMm: 55, label: { widthMm: 96, heightMm: 52 }, cornerMm: 2 };

test('201: measures of a sheet of one’s own, with what a tag looks like on it', async () => {
  const { body } = await network.post('/v1/label-templates', { name: 'Film of the parish', template: A4 }).expect(201);
  expect(body).toMatchObject({ name: 'Film of the parish', builtIn: false, template: A4, labelsPerPage: 10, notes: [] });
  await network.get(`/v1/label-templates/${body.id}/calibration-page`).expect(200);
});

test('201: labels on which the code is small are stored, and the answer says so', async () => {
  const template = { ...A4, columns: 1, rows: 1, label: { widthMm: 42, heightMm: 21 } };
  const { body } = await network.post('/v1/label-templates', { name: 'Low', template }).expect(201);
  expect(body.codeHeightMm).toBeLessThan(5);
  expect(body.notes[0]).toMatch(/5 mm or more read better/);
});

describe('422: a grid that does not fit is refused with what to change', () => {
  test.each([
    ['too wide', { pitchXMm: 110 }, /columns end 214 mm from the left, but the page is 210 mm wide/],
    ['too high', { rows: 6 }, /rows end 337 mm from the top/],
    ['on one another', { pitchXMm: 90 }, /lie on one another/],
    ['too small for a tag', { label: { widthMm: 30, heightMm: 15 } }, /needs a label of 41 mm by 20.5 mm or more/],
    ['too round', { cornerMm: 40 }, /half of the label/],
  ])('%s', async (_, change, detail) => {
    const { body } = await network.post('/v1/label-templates', { name: 'X', template: { ...A4, ...change } }).expect(422);
    expect(body).toMatchObject({ code: 'template_unfit', detail: expect.stringMatching(detail) });
    expect(body.errors[0].pointer).toBe('#/template');
  });
});

test('400: no page is wider than printers, no label less than nothing', async () => {
  for (const change of [{ page: { widthMm: 1e9, heightMm: 297 } }, { columns: 0 }, { columns: 1.5 }, { pitchXMm: -4 }, { label: { widthMm: 'x', heightMm: 3 } }]) await network.post('/v1/label-templates', { name: 'X', template: { ...A4, ...change } }).expect(400);
});
