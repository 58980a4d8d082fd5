/** What is reckoned of things in a drying room is what plans, the drying list and the room for more go by. */
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { constantRateFluxKgPerM2H, exposedAreaM2 } from '#climate';
import { readRoom, reckonAir } from '../api/support/air.js';
import { Workbench } from '../api/support/workbench.js';
import { workerContextOf } from '../unit/plan-problem/support/runs.js';

let bench: Workbench;
beforeAll(async () => { bench = await Workbench.open(); });
afterAll(() => bench.close());

const at = (time: string) => bench.server.clock.set(Date.parse(`2026-05-09T${time}:00Z`));
const loaded = async () => (await bench.server.unitOfWork.read(workerContextOf(bench.network), (stores) => stores.plans.loadInput(bench.incident.id)))!;
const reckonedOf = async (itemId: string) => (await loaded()).items.find(({ id }) => id === itemId)!.reckoned ?? null;
const climateOf = async (itemId: string) => (await bench.network.get(`/v1/items/${itemId}/climate`).expect(200)).body.standing;
const weigh = (itemId: string, time: string, scaleKg: number) => bench.network.post(`/v1/items/${itemId}/weighings`, { scaleKg, resolutionKg: 0.002, weighedAt: `2026-05-09T${time}:00Z`, personId: bench.incident.person('P1') }).expect(201);

async function shirt(seen: object = {}, steps = ['rinse', 'blot']) {
  const { id } = await bench.takeIn(await bench.household(), { sizeClass: 'garment', materialClass: 'textile-garment-3d' });
  await bench.assess(id, seen).expect(201);
  await bench.colourTest(id, 'no-transfer').expect(201);
  for (const step of steps) await bench.report(id, step).expect(201);
  return id;
}

test('a plan takes up the water of a hanging thing once its room has reckoned it there, and again what a scale says; what has gone elsewhere has none', async () => {
  at('07:30');
  const id = await shirt();
  await bench.hang(id);
  await readRoom(bench.network, bench.incident, '2026-05-09T07:30:00Z', 55);
  expect(await reckonedOf(id)).toBeNull();
  at('08:30');
  await readRoom(bench.network, bench.incident, '2026-05-09T08:30:00Z', 55);
  await reckonAir(bench.server, bench.network);
  const first = (await reckonedOf(id))!;
  const standing = await climateOf(id);
  expect(first.moistureX).toBeCloseTo(standing.water.moistureX, 4);
  expect(new Date(first.dryLatestMs!).toISOString()).toBe(standing.dryLatestAt);
  expect(new Date(first.modelDryMs!).toISOString()).toBe(standing.dryExpectedAt);
  expect(first).toMatchObject({ asOfMs: Date.parse('2026-05-09T08:30:00Z'), build: 'thin', dry: false });

  await weigh(id, '08:30', 0.62);
  await reckonAir(bench.server, bench.network);
  const weighed = (await reckonedOf(id))!;
  expect(weighed.moistureX).toBeCloseTo(0.62 / 0.5 - 1, 3);
  expect(weighed.dryLatestMs!).toBeLessThan(first.dryLatestMs!);

  await bench.pass(id, 'drying-ended', bench.holding('clean'));
  expect(await reckonedOf(id)).toBeNull();
});

test('the drying list tells of what hangs what its room reckons', async () => {
  at('09:00');
  const id = await shirt();
  await bench.hang(id);
  await readRoom(bench.network, bench.incident, '2026-05-09T09:00:00Z', 55);
  await reckonAir(bench.server, bench.network);
  await weigh(id, '09:00', 0.6);
  await reckonAir(bench.server, bench.network);
  const { body } = await bench.network.get(`/v1/sites/${bench.incident.site()}/drying-list`).expect(200);
  const { dryEarliestAt, dryLatestAt } = await climateOf(id);
  expect(body.hanging.find(({ itemId }: { itemId: string }) => itemId === id)).toMatchObject({ earliestDryAt: dryEarliestAt, latestDryAt: dryLatestAt });
});

test('what was found damp and not wetted since is hung with less water than what drips, and a rinse ends that', async () => {
  at('09:30');
  const [damp, wet, rinsed] = [await shirt({ wetState: 'damp' }, []), await shirt({ wetState: 'wet' }, []), await shirt({ wetState: 'damp' }, ['rinse'])];
  for (const id of [damp, wet, rinsed]) {
    const { keeper } = await bench.read(id);
    await bench.network.post(`/v1/items/${id}/custody-events`, { kind: 'drying-started', from: keeper, to: { kind: 'drying-place', id: bench.incident.place('R1') }, personId: bench.incident.person('P1'), reason: 'The baths are full.' }).expect(201);
  }
  await readRoom(bench.network, bench.incident, '2026-05-09T09:30:00Z', 55);
  await reckonAir(bench.server, bench.network);
  const x = async (id: string) => (await climateOf(id)).water.moistureX;
  expect(await x(damp)).toBeCloseTo(0.6, 2);
  expect(await x(wet)).toBeCloseTo(1.65, 2);
  expect(await x(rinsed)).toBeCloseTo(1.65, 2);
});

describe('a speed that weighings have fitted', () => {
  const LOST_KG_PER_H = exposedAreaM2(1, 'flat-on-mesh') * constantRateFluxKgPerM2H({ airTempC: 20, relativeHumidityPct: 55, arrangementFactor: 1 });
  const massKg = (factor: number, hours: number) => Math.round((1.3 - LOST_KG_PER_H * factor * hours) * 500) / 500;
  const garments = async () => (await bench.network.get(`/v1/drying-rooms/${bench.incident.room('ROOM')}/acceptance?kinds=garment,a4-sheet`).expect(200)).body.kinds;

  test('goes for what may be hung, with its interval, and for the plan of what is to be hung', async () => {
    const [before] = await garments();
    expect(before).toMatchObject({ speed: { basis: 'general', factor: 0.65, low: 0.455, high: 0.929, weighings: 0 } });
    expect(before.itemsAtLeast).toBeLessThanOrEqual(before.items);
    at('10:00');
    const shirts = [await shirt(), await shirt()];
    // Beside what hangs there unrinsed from before, which a lead answers for.
    for (const id of shirts) await bench.network.post(`/v1/items/${id}/custody-events`, { kind: 'drying-started', from: (await bench.read(id)).keeper, to: { kind: 'drying-place', id: bench.incident.place('R1') }, personId: bench.incident.person('P1'), reason: 'There is a sheet between them.' }).expect(201);
    for (let half = 0; half <= 8; half += 1) {
      const moment = Date.parse('2026-05-09T10:00:00Z') + half * 1_800_000;
      bench.server.clock.set(moment);
      await readRoom(bench.network, bench.incident, new Date(moment).toISOString(), 55);
    }
    for (const id of shirts) for (const [time, hours] of [['10:00', 0], ['12:00', 2], ['14:00', 4]] as const) await weigh(id, time, massKg(0.4, hours));
    await reckonAir(bench.server, bench.network);
    const [fit] = (await bench.network.get(`/v1/drying-rooms/${bench.incident.room('ROOM')}/fits`).expect(200)).body.fits;
    const [after, sheets] = await garments();
    expect(after.speed).toMatchObject({ basis: 'fitted', factor: Number(fit.appliedFactor.toFixed(3)), weighings: 6 });
    expect(after.speed.low).toBeLessThan(after.speed.factor);
    expect(after.speed.high).toBeLessThan(0.65);
    expect(sheets.speed.basis).toBe('general');
    const [room] = (await loaded()).rooms.filter(({ id }) => id === bench.incident.room('ROOM'));
    expect(room!.arrangements).toEqual(['rack', 'screen']);
    expect(room!.speeds).toMatchObject([{ material: 'cotton', build: 'thin', arrangement: 'rack', weighings: 6 }]);
  });
});
