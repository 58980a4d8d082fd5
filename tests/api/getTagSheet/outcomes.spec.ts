import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { BUILT_IN_TEMPLATES, labelFrames, labelLayout } from '#custody';
import { type IncidentOnTest, startTestServer, takeInTestHousehold, takeInTestItem, type TestNetwork, type TestServer } from '#testing';
import { LABEL_TYPE } from '../../../apps/api/src/documents/label-type.js';
import { decodeQr, pageSizesPt, picturesOf, wordsOf, type Picture } from '../../unit/documents/pictures.support.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

const reserve = async (kind: string, count: number) => (await network.post(`/v1/incidents/${incident.id}/tag-blocks`, { kind, count, reservedFor: 'Doorway' }).expect(201)).body as { id: string; tags: string[] };
const sheet = async (blockId: string, query: string) => (await network.get(`/v1/tag-blocks/${blockId}/sheet?${query}`).expect(200)).body as Buffer;

test('200: a part of a block on a part-used sheet; each symbol reads as the tag that the block names', async () => {
  const block = await reserve('item', 30);
  const template = BUILT_IN_TEMPLATES.find(({ id }) => id === 'a4-64x38')?.template;
  const layout = template && labelLayout(template.label, LABEL_TYPE);
  if (!template || !layout) throw new Error('no template');
  const pdf = await sheet(block.id, 'template=a4-64x38&firstPosition=20&from=11&count=4');
  const pictures = await picturesOf(pdf);
  expect(pictures).toHaveLength(2);
  const read = labelFrames(template, 4, 19).map((frame) => decodeQr(pictures[frame.page] as Picture, { xMm: frame.xMm + layout.qr.xMm, yMm: frame.yMm + layout.qr.yMm, widthMm: layout.qr.widthMm, heightMm: layout.qr.heightMm }));
  expect(read).toEqual(block.tags.slice(10, 14).map((tag) => tag.replaceAll('-', '')));
}, 60_000);

test('200: the sign of a place names it once its tag is tied; words are those of the language', async () => {
  const block = await reserve('place', 1);
  await network.post(`/v1/tags/${block.tags[0]}/ties`, { place: { kind: 'freezer', id: incident.freezer('F1') } }).expect(201);
  const { name } = (await network.get(`/v1/tags/${block.tags[0]}`).expect(200)).body.place as { name: string };
  const { headers, body } = await network.get(`/v1/tag-blocks/${block.id}/sheet?template=sign-letter&language=es`).expect(200);
  expect(headers).toMatchObject({ 'content-type': 'application/pdf', 'content-language': 'es', 'content-disposition': 'inline; filename="tags.pdf"' });
  const words = (await wordsOf(body)).join(' ').replace(/\s+/g, ' ');
  expect(words).toContain(name);
  expect(words).toContain('Lugar');
});

test('200: a replaced tag is not printed again', async () => {
  const item = await takeInTestItem(network, incident, await takeInTestHousehold(network, incident));
  const block = await reserve('item', 2);
  await network.post(`/v1/tags/${item.tag}/replacements`, { newTag: block.tags[0], reason: 'lost' }).expect(201);
  const [spare] = (await reserve('item', 1)).tags;
  await network.post(`/v1/tags/${block.tags[0]}/replacements`, { newTag: spare, reason: 'lost' }).expect(201);
  const words = (await wordsOf(await sheet(block.id, 'template=roll-57x32'))).join(' ');
  expect(words).not.toContain(block.tags[0]?.slice(0, 4));
  expect(words).toContain(block.tags[1]?.slice(0, 4));
  await network.get(`/v1/tag-blocks/${block.id}/sheet?template=roll-57x32&count=1`).expect(422);
});

test('422 and 400: positions that are not there', async () => {
  const block = await reserve('person', 3);
  expect((await network.get(`/v1/tag-blocks/${block.id}/sheet?template=a4-64x38&firstPosition=22`).expect(422)).body.detail).toContain('has 21 labels');
  expect((await network.get(`/v1/tag-blocks/${block.id}/sheet?template=a4-64x38&from=4`).expect(422)).body.detail).toContain('has 3 tags');
  const large = await reserve('item', 1_001);
  expect((await network.get(`/v1/tag-blocks/${large.id}/sheet?template=a4-64x38`).expect(422)).body.detail).toContain('One file holds 1000 labels');
  await network.get(`/v1/tag-blocks/${block.id}/sheet`).expect(400);
  for (const query of ['template=a4-64x38&firstPosition=0', 'template=a4-64x38&count=x', 'template=a4-64x38&language=fr', 'template=a4-64x38&brand=x']) await network.get(`/v1/tag-blocks/${block.id}/sheet?${query}`).expect(400);
  await network.get(`/v1/tag-blocks/${block.id}/sheet?template=nothing`).expect(404);
});

test('200: while 500 labels are drawn, others are answered', async () => {
  const block = await reserve('item', 500);
  let longestMs = 0;
  let last = performance.now();
  const ticking = setInterval(() => {
    longestMs = Math.max(longestMs, performance.now() - last);
    last = performance.now();
  }, 10);
  const begun = performance.now();
  const pdf = await sheet(block.id, 'template=a4-64x38');
  clearInterval(ticking);
  process.stdout.write(`500 labels: ${Math.round(performance.now() - begun)} ms in the thread, ${Math.round(pdf.length / 1024)} KiB; the loop stood still for ${Math.round(longestMs)} ms at most\n`);
  expect(pageSizesPt(pdf)).toHaveLength(Math.ceil(500 / 21));
  expect(longestMs).toBeLessThan(performance.now() - begun);
}, 60_000);
