import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { constantRateFluxKgPerM2H, exposedAreaM2 } from '#climate';
import { readRoom, reckonAir } from '../support/air.js';
import { Workbench } from '../support/workbench.js';
import { setNumber } from '../setCalibration/calibration.support.js';

let bench: Workbench;
let shirts: string[];

beforeAll(async () => {
  bench = await Workbench.open();
  const household = await bench.household();
  shirts = [];
  for (let i = 0; i < 3; i += 1) {
    const { id } = await bench.testedQuilt(household, { sizeClass: 'garment', materialClass: 'textile-garment-3d' });
    for (const step of ['rinse', 'blot']) await bench.report(id, step).expect(201);
    shirts.push(id);
  }
});
afterAll(() => bench.close());

const at = (time: string) => bench.server.clock.set(Date.parse(`2026-05-09T${time}:00Z`));
const fits = async (headers: Record<string, string> = {}) => (await bench.network.get(`/v1/drying-rooms/${bench.incident.room('ROOM')}/fits`, headers).expect(200)).body;
const weigh = (itemId: string, time: string, scaleKg: number, resolutionKg = 0.002) => bench.network.post(`/v1/items/${itemId}/weighings`, { scaleKg, resolutionKg, weighedAt: `2026-05-09T${time}:00Z`, personId: bench.incident.person('P1') }).expect(201);
/** A garment of 1 m2 lies on mesh; the air is held at 20 C and 55 %. */
const LOST_KG_PER_H = exposedAreaM2(1, 'flat-on-mesh') * constantRateFluxKgPerM2H({ airTempC: 20, relativeHumidityPct: 55, arrangementFactor: 1 });
const massKg = (factor: number, hours: number, fromKg = 1.3) => Math.round((fromKg - LOST_KG_PER_H * factor * hours) * 500) / 500;

test('a room where nothing was weighed has no fits', async () => {
  at('08:00');
  for (const shirt of shirts) await bench.hang(shirt);
  expect(await fits()).toMatchObject({ room: { code: 'ROOM' }, asOf: '2026-05-09T08:00:00.000Z', weighings: 0, olderWeighings: 0, fits: [] });
});

test('one weighing tells nothing: the factor is what was believed before, and the answer says what to do', async () => {
  at('08:05');
  await weigh(shirts[0]!, '08:05', massKg(0.4, 0));
  const { fits: [only, ...others], weighings } = await fits();
  expect([weighings, others]).toEqual([1, []]);
  expect(only).toMatchObject({
    material: 'cotton', build: 'thin', arrangement: 'rack', dryingPlaceIds: [bench.incident.place('R1')], factor: 0.65, prior: { factor: 0.65 }, informative: false, appliedFactor: null, used: [],
    unused: [{ itemId: shirts[0], weighedAt: '2026-05-09T08:05:00.000Z', reason: 'no-partner', statement: 'There is no other weighing to compare it with: weigh it again after some hours.' }],
    inWords: ['No weighing could be used, so the room is reckoned with the general factor. Weigh a thing twice while it is clearly wet, some hours apart.'],
  });
  expect(only.interval95).toEqual(only.prior.interval95);
});

test('from several weighings comes the factor with its intervals, the data behind it, and each weighing that was left out with the reason', async () => {
  for (let half = 0; half <= 20; half += 1) {
    const moment = new Date(Date.parse('2026-05-09T08:00:00Z') + half * 1_800_000).toISOString();
    bench.server.clock.set(Date.parse(moment) + 600_000);
    // From 14:00 to 17:00 nobody reads the room.
    if (half < 12 || half > 17) await readRoom(bench.network, bench.incident, moment, 55, 20);
  }
  await weigh(shirts[0]!, '10:05', massKg(0.4, 2));
  await weigh(shirts[0]!, '12:05', massKg(0.4, 4));
  await weigh(shirts[1]!, '09:00', massKg(0.36, 0, 1.25));
  await weigh(shirts[1]!, '12:00', massKg(0.36, 3, 1.25));
  // Nobody knows the air of the way to this one.
  await weigh(shirts[1]!, '17:30', massKg(0.36, 8.5, 1.25));
  await weigh(shirts[2]!, '09:00', 0.6);
  const { fits: [fit], weighings } = await fits();
  expect(weighings).toBe(7);
  expect(fit.used).toEqual([
    expect.objectContaining({ itemId: shirts[0], from: '2026-05-09T08:05:00.000Z', to: '2026-05-09T12:05:00.000Z', weighings: 3, lossKg: Number((massKg(0.4, 0) - massKg(0.4, 4)).toFixed(3)) }),
    expect.objectContaining({ itemId: shirts[1], from: '2026-05-09T09:00:00.000Z', to: '2026-05-09T12:00:00.000Z', weighings: 2 }),
  ]);
  expect(fit.used[0].factor).toBeCloseTo(0.4, 2);
  expect(fit.used[0].lossAtFactor1Kg).toBeCloseTo(4 * LOST_KG_PER_H, 2);
  expect(fit.unused.map(({ itemId, reason }: { itemId: string; reason: string }) => [shirts.indexOf(itemId), reason])).toEqual([[2, 'below-critical'], [1, 'air-not-known']]);
  expect(fit.informative).toBe(true);
  expect(fit.factor).toBeGreaterThan(0.36);
  expect(fit.factor).toBeLessThan(0.44);
  for (const [inner, outer] of [[fit.interval80, fit.interval95], [fit.interval95, fit.prior.interval95]]) expect(inner.high - inner.low).toBeLessThan(outer.high - outer.low);
  expect(Math.abs(fit.appliedFactor / fit.factor - 1)).toBeLessThan(0.012);
  expect(fit.inWords[0]).toMatch(/^By 5 weighings such things dry at (5[5-9]|6[0-7]) % of the speed that is otherwise assumed, most likely \d+ to \d+ %\. The room is reckoned with it\.$/);
});

test('a weighing in doubt is named and not used', async () => {
  const { body } = await bench.network.post(`/v1/items/${shirts[0]}/weighings`, { scaleKg: 1.6, resolutionKg: 0.002, weighedAt: '2026-05-09T17:40:00Z', personId: bench.incident.person('P1') }).expect(201);
  expect(body.state).toBe('doubtful');
  const { fits: [fit] } = await fits();
  expect(fit.unused.at(-1)).toMatchObject({ itemId: shirts[0], weighedAt: '2026-05-09T17:40:00.000Z', reason: 'in-doubt' });
  expect(fit.used).toHaveLength(2);
});

test('the room is reckoned with it: things say so, and where mass and water are trusted their band is that of the fit', async () => {
  for (const key of ['bandDryMassError', 'bandWaterError']) expect((await setNumber(bench, `climate/${key}`, 0)).status).toBe(200);
  await reckonAir(bench.server, bench.network);
  const { body: { standing } } = await bench.network.get(`/v1/items/${shirts[0]}/climate`).expect(200);
  expect(standing.speed).toEqual({ basis: 'fitted', weighings: 5 });
  expect(standing.inWords).toContain('The speed of drying was fitted from 5 weighings of such things in this room.');
  const { fits: [fit] } = await fits();
  const took = (moment: string) => Date.parse(moment) - Date.parse(standing.water.knownAt);
  expect(took(standing.dryEarliestAt) / took(standing.dryExpectedAt)).toBeCloseTo(fit.factor / fit.interval80.high, 1);
  expect(took(standing.dryLatestAt) / took(standing.dryExpectedAt)).toBeCloseTo(fit.factor / fit.interval80.low, 1);
  const { rows } = await bench.server.admin.query<{ factor: number }>(`select (g->>'arrangementFactor')::float as factor from room_checkpoint c, jsonb_array_elements(c.state->'course'->'groups') g where c.drying_room_id = $1 and c.at = (select max(at) from room_checkpoint)`, [bench.incident.room('ROOM')]);
  // Each thing is reckoned at its usual pace, and at both ends of its band.
  expect(rows).toHaveLength(9);
  for (const { factor } of rows) expect(factor).toBeCloseTo(fit.appliedFactor, 3);
});

test('it is said in Spanish to who asks for it', async () => {
  const answer = await fits({ 'accept-language': 'es' });
  expect(answer.fits[0].inWords[0]).toMatch(/^Según 5 pesadas, los objetos así se secan al/);
  expect(answer.fits[0].unused[0].statement).toBe('Estaba casi seco, y entonces los objetos se secan más despacio por sí solos.');
});
