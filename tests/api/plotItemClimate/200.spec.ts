import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { readDrawn, type Drawn } from '../support/drawn.js';
import { Workbench } from '../support/workbench.js';
import { readRoom, reckonAir } from '../support/air.js';

let bench: Workbench;
let quilt: Awaited<ReturnType<Workbench['testedQuilt']>>;
beforeAll(async () => {
  bench = await Workbench.open();
  quilt = await bench.testedQuilt(await bench.household());
});
afterAll(() => bench.close());

const at = (time: string) => bench.server.clock.set(Date.parse(`2026-05-09T${time}:00Z`));
const plot = (query = '', headers: Record<string, string> = {}) => bench.network.get(`/v1/items/${quilt.id}/climate/plot${query}`, headers).expect(200);
const drawn = async (query = '', headers: Record<string, string> = {}): Promise<Drawn> => readDrawn((await plot(query, headers)).body.toString());
const weigh = (scaleKg: number, time: string) => bench.network.post(`/v1/items/${quilt.id}/weighings`, { scaleKg, resolutionKg: 0.01, weighedAt: `2026-05-09T${time}:00Z`, personId: bench.incident.person('P1') }).expect(201);
const standing = async () => (await bench.network.get(`/v1/items/${quilt.id}/climate`).expect(200)).body.standing;

/** The dry mass of a double quilt on record. */
const DRY_KG = 2.1;

test('of a thing that never hung the picture says so in words', async () => {
  const answer = await plot();
  expect(answer.headers).toMatchObject({ 'content-type': 'image/svg+xml; charset=utf-8', 'content-security-policy': "default-src 'none'; frame-ancestors 'none'; sandbox", 'x-content-type-options': 'nosniff' });
  const picture = readDrawn(answer.body.toString());
  expect(picture.title).toBe(`Thing ${quilt.tag}`);
  expect(picture.desc).toMatch(/^Nothing is reckoned of this thing: it has not hung in a drying room/);
  expect(picture.panels).toHaveLength(1);
});

test('weighings are crosses at the water that the scale showed, the reckoning goes through them, and the band lies about it', async () => {
  for (const step of ['rinse', 'blot']) await bench.report(quilt.id, step).expect(201);
  await bench.hang(quilt.id);
  at('13:00');
  for (let quarter = 0; quarter <= 24; quarter += 1) await readRoom(bench.network, bench.incident, new Date(Date.parse('2026-05-09T07:00:00Z') + quarter * 900_000).toISOString(), 55 + (quarter % 4), 20);
  await reckonAir(bench.server, bench.network);
  // Before anybody has weighed, the speed of drying is the general one.
  expect((await drawn()).panels[0]!.legend).toEqual(['reckoned', '30 % faster, or up to 4 times slower: it is thick', 'forecast']);
  await weigh(4.2, '08:00');
  await weigh(3.6, '11:00');
  await reckonAir(bench.server, bench.network);
  const now = await standing();
  const dryAt = DRY_KG * (1 + now.water.targetX);
  const picture = await drawn('?hoursBack=8&hoursAhead=24');
  const [water, clock, temperature, humidity] = picture.panels;
  expect(picture.title).toBe(`Thing ${quilt.tag} in Drying room (ROOM)`);
  expect(picture.desc).toContain('2 weighings are shown');
  expect(water!.legend).toEqual(['reckoned', 'faster as fitted by weighings (80 %), or up to 4 times slower: thick', 'forecast', 'weighed']);
  expectClose(water!.marks, [4.2 - dryAt, 3.6 - dryAt], 0.02);
  const past = water!.lines[0]!;
  for (const kg of [4.2 - dryAt, 3.6 - dryAt]) expect(past.values.some((value) => Math.abs(value - kg) < 0.02)).toBe(true);
  expect(past.values.at(-1)).toBeCloseTo(now.water.leftKg, 1);
  expect(water!.lines[1]).toMatchObject({ dash: '7 4' });
  expect(water!.lines[1]!.values.at(-1)).toBeLessThan(past.values.at(-1)!);
  // The clock: used hours never fall, end at the stored dose, and the limits are 24 and 48 h.
  expect(clock!.label).toBe('Mould clock, hours used of 48 h at 22 °C and soaked');
  expectClose(clock!.limits, [24, 48], 0.3);
  const used = clock!.lines[0]!.values;
  expect(used.at(-1)).toBeCloseTo(now.clock.dose * 48, 0);
  for (let i = 1; i < used.length; i += 1) expect(used[i]!).toBeGreaterThanOrEqual(used[i - 1]! - 0.3);
  expect(clock!.lines[1]!.values[0]).toBeCloseTo(now.clock.dose * 48, 0);
  expect(temperature!.label).toBe('Air temperature, °C');
  // One was read when the room was registered.
  expect(humidity!.marks).toHaveLength(1 + 25);
  expect(picture.words.join(' ')).toMatch(/rule of practice and no forecast/);
});

test('a weighing in doubt is a ring, and the reckoning does not go by it', async () => {
  await weigh(4.9, '12:30');
  await reckonAir(bench.server, bench.network);
  const [water] = (await drawn('?hoursBack=8&hoursAhead=24')).panels;
  expect(water!.legend).toContain('in doubt, not counted (outside the axis: at its edge)');
  expect(water!.marks).toHaveLength(3);
});

test('it is said in Spanish to who asks for it', async () => {
  const answer = await plot('', { 'accept-language': 'es' });
  expect(answer.headers).toMatchObject({ 'content-language': 'es', vary: 'Accept-Language' });
  const picture = readDrawn(answer.body.toString());
  expect(picture.title).toBe(`Objeto ${quilt.tag} en Drying room (ROOM)`);
  expect(picture.words.join(' ')).toContain('El plazo del moho es una regla práctica');
  // A longer entry than a row of the legend would run out of the picture.
  for (const { legend } of picture.panels) for (const entry of legend) expect(entry.length).toBeLessThan(100);
});

test('of what was taken down the picture ends there, and foresees nothing', async () => {
  at('14:00');
  await bench.pass(quilt.id, 'drying-ended', bench.holding('clean'));
  await readRoom(bench.network, bench.incident, '2026-05-09T14:00:00Z', 55);
  await reckonAir(bench.server, bench.network);
  const { panels: [water, clock], desc, words } = await drawn('?hoursBack=8');
  expect(desc).toMatch(/^It hangs there no longer\./);
  expect(words).toContain('taken down 9 May, 14:00');
  expect(water!.lines.map(({ dash }) => dash)).toEqual(['none']);
  expect(water!.lines[0]!.values.at(-1)).toBeCloseTo((await standing()).water.leftKg, 1);
  expect(clock!.lines.map(({ dash }) => dash)).toEqual(['none']);
});

function expectClose(drawnAt: readonly number[], wanted: readonly number[], within: number): void {
  expect(drawnAt).toHaveLength(wanted.length);
  for (const [i, value] of wanted.entries()) expect(Math.abs(drawnAt[i]! - value)).toBeLessThan(within);
}
