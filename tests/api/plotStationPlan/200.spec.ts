import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { elementsOf, pictureOf, plannedWorld, SAFE_PICTURE, type ChartedBar, type PlannedWorld } from '../support/plan-charts.js';

let world: PlannedWorld;
beforeAll(async () => { world = await plannedWorld(4, { description: '</text><script>alert(1)</script>' }); });
afterAll(() => world.bench.close());

const path = (query = '') => `/v1/stations/${world.bench.incident.station('RINSE')}/plan-chart${query}`;

test('it is a picture that may run nothing, and says its main numbers in words', async () => {
  const answer = await world.bench.network.get(path('/plot?hours=10')).expect(200);
  expect(answer.headers).toMatchObject({ ...SAFE_PICTURE, 'content-language': 'en' });
  const elements = elementsOf(answer.body.toString());
  expect([...new Set(elements.map(({ name }) => name))].every((name) => ['svg', 'title', 'desc', 'rect', 'text', 'g', 'line', 'path'].includes(name))).toBe(true);
  const { body } = await world.bench.network.get(path('?hours=10')).expect(200);
  expect(elements.find(({ name }) => name === 'desc')!.text).toBe(body.inWords.join(' '));
  expect(elements.find(({ name }) => name === 'title')!.text).toBe('Station RINSE (RINSE), work by the plan');
});

test('each bar of the data is drawn where its time is, in its row', async () => {
  const { body } = await world.bench.network.get(path('?hours=10')).expect(200);
  const bars = body.bars as ChartedBar[];
  const elements = elementsOf(await pictureOf(world.bench.network, path('/plot?hours=10')));
  const boxes = elements.filter(({ name, attributes }) => name === 'rect' && attributes['stroke'] !== undefined && Number(attributes['height']) > 20).map(({ attributes }) => ({ from: Number(attributes['x']), top: Number(attributes['y']), to: Number(attributes['x']) + Number(attributes['width']) }));
  expect(boxes).toHaveLength(bars.length);
  const x = (iso: string): number => Math.min(856, 64 + ((Date.parse(iso) - Date.parse(body.from)) / 36_000_000) * 792);
  const rows = [...new Set(boxes.map(({ top }) => top))].sort((a, b) => a - b);
  for (const [i, box] of boxes.entries()) {
    expect(Math.abs(box.from - x(bars[i]!.startsAt))).toBeLessThan(2);
    expect(Math.abs(box.to - x(bars[i]!.endsAt))).toBeLessThan(2);
    expect(rows.indexOf(box.top)).toBe(bars[i]!.lane);
  }
});

test('names of people cannot become markup', async () => {
  await world.bench.server.admin.query(`update station set name = '</title><script>alert(1)</script> & "baths"' where id = $1`, [world.bench.incident.station('RINSE')]);
  const svg = await pictureOf(world.bench.network, path('/plot'));
  expect(svg).not.toContain('<script');
  expect(elementsOf(svg).find(({ name }) => name === 'title')!.text).toBe('</title><script>alert(1)</script> & "baths" (RINSE), work by the plan');
});

test('it is said in Spanish to who asks for it, with the times of the network', async () => {
  await world.bench.server.admin.query("update network set time_zone = 'Asia/Kolkata' where network_id = $1", [world.bench.network.networkId]);
  const words = elementsOf(await pictureOf(world.bench.network, path('/plot'), { 'accept-language': 'es' })).filter(({ name }) => name === 'text').map(({ text }) => text);
  expect(words).toEqual(expect.arrayContaining(['por hacer', 'en curso', 'con retraso: ya debía haber empezado', 'ahora, 9 may, 12:30', 'Hora del reloj en Asia/Kolkata']));
});
