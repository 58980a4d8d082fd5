import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { elementsOf, pictureOf, plannedWorld, SAFE_PICTURE, type PlannedWorld } from '../support/plan-charts.js';

let world: PlannedWorld;
beforeAll(async () => { world = await plannedWorld(5); });
afterAll(() => world.bench.close());

const query = () => `resource=drying-area&what=${world.bench.incident.room('ROOM')}&hours=36`;
const path = (route: string) => `/v1/incidents/${world.bench.incident.id}/${route}?${query()}`;

test('it is a picture that may run nothing, with the numbers of the data and their words', async () => {
  const { body } = await world.bench.network.get(path('plan-load')).expect(200);
  const answer = await world.bench.network.get(path('plan-load/plot')).expect(200);
  expect(answer.headers).toMatchObject({ ...SAFE_PICTURE, 'content-language': 'en' });
  const elements = elementsOf(answer.body.toString());
  expect(elements.find(({ name }) => name === 'desc')!.text).toBe(body.told.join(' '));
  const levels = elements.filter(({ name, attributes }) => name === 'text' && attributes['text-anchor'] === 'end' && attributes['x'] === '56').map(({ attributes, text }) => ({ y: Number(attributes['y']) - 4, value: Number(text) }));
  const [low, high] = [levels[0]!, levels.at(-1)!];
  const valueAt = (y: number): number => low.value + ((y - low.y) / (high.y - low.y)) * (high.value - low.value);
  const line = (dash: string): number[] => elements.filter(({ name, attributes }) => name === 'path' && Number(attributes['stroke-width']) >= 1.8 && attributes['fill'] === 'none' && (attributes['stroke-dasharray'] ?? 'none') === dash).flatMap(({ attributes }) => [...attributes['d']!.matchAll(/V([\d.]+)H/g)].map((match) => valueAt(Number(match[1]))));
  const steps = body.steps as { used: number; available: number }[];
  expect(steps.length).toBeGreaterThan(1);
  for (const [drawn, wanted] of [[line('none'), steps.map(({ used }) => used)], [line('7 4'), steps.map(({ available }) => available)]] as const) {
    expect(drawn).toHaveLength(wanted.length);
    for (const [i, value] of wanted.entries()) expect(Math.abs(drawn[i]! - value)).toBeLessThan(high.value / 200);
  }
});

test('names cannot become markup, and it is said in Spanish', async () => {
  await world.bench.server.admin.query(`update site set name = '<script>alert(1)</script>' where id = $1`, [world.bench.incident.site()]);
  const svg = await pictureOf(world.bench.network, path('plan-load/plot'), { 'accept-language': 'es' });
  expect(svg).not.toContain('<script');
  expect(elementsOf(svg).find(({ name }) => name === 'title')!.text).toBe('Superficie de secado en la sala ROOM, en <script>alert(1)</script>');
  expect(elementsOf(svg).filter(({ name }) => name === 'text').map(({ text }) => text)).toEqual(expect.arrayContaining(['usa el plan', 'hay', 'metros cuadrados']));
});
