import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { assignmentsOf } from '../../unit/plan-problem/support/runs.js';
import { plannedWorld, type PlannedWorld } from '../support/plan-charts.js';

interface Step { from: string; to: string; used: number; available: number }

let world: PlannedWorld;
beforeAll(async () => { world = await plannedWorld(5); });
afterAll(() => world.bench.close());

const load = async (query: string, language = 'en') => (await world.bench.network.get(`/v1/incidents/${world.bench.incident.id}/plan-load?${query}`, { 'accept-language': language }).expect(200)).body;
const site = () => world.bench.incident.site();
const at = (steps: Step[], iso: string): Step => steps.find(({ from, to }) => from <= iso && iso < to)!;

test('stations of a step: as many are in use at a time as the plan has at work', async () => {
  const body = await load(`resource=station&what=rinse&siteId=${site()}&hours=24`);
  expect(body).toMatchObject({ revision: { number: 1 }, resource: 'station', what: 'rinse', unit: 'stations', thing: null, site: { id: site() }, inWords: 'Stations for “rinse”' });
  const all = await assignmentsOf(world.bench.network, world.bench.incident);
  const there = all.filter(({ stationId }) => stationId === world.bench.incident.station('RINSE'));
  for (const { startsAt } of there) expect(at(body.steps, startsAt).used).toBe(there.filter((other) => other.startsAt <= startsAt && startsAt < other.endsAt).length);
  for (const { used, available } of body.steps as Step[]) expect(used).toBeLessThanOrEqual(available);
  expect(Math.max(...body.steps.map(({ available }: Step) => available))).toBe(2);
});

test('people, area, air and freezer are in units that people read, and cover the time that the plan reaches', async () => {
  const people = await load(`resource=crew&siteId=${site()}&hours=12`);
  expect(people).toMatchObject({ unit: 'people', inWords: 'People' });
  expect(Math.max(...people.steps.map(({ used }: Step) => used))).toBeGreaterThan(0);
  const room = world.bench.incident.room('ROOM');
  const area = await load(`resource=drying-area&what=${room}&hours=48`);
  const { rows: [places] } = await world.bench.server.admin.query<{ m2: number }>('select sum(area_dm2)::float8 / 100 as m2 from drying_place where drying_room_id = $1', [room]);
  expect(area).toMatchObject({ unit: 'm2', thing: { id: room, code: 'ROOM' }, site: { id: site() }, inWords: 'Drying area in room ROOM' });
  expect(area.steps.every(({ available }: Step) => available === places!.m2)).toBe(true);
  const dries = (await assignmentsOf(world.bench.network, world.bench.incident)).filter(({ step }) => step === 'dry');
  expect(dries.length).toBeGreaterThan(0);
  expect(at(area.steps, dries.at(-1)!.startsAt).used).toBeGreaterThan(0);
  const air = await load(`resource=room-air&what=${room}&siteId=${site()}&hours=48`);
  expect(air.unit).toBe('g-per-h');
  // Water falls while things dry: the load is not one step up and one down.
  expect(new Set(air.steps.map(({ used }: Step) => used)).size).toBeGreaterThan(2);
  expect(await load(`resource=freezer&what=${world.bench.incident.freezer('F1')}`)).toMatchObject({ unit: 'L', thing: { code: 'F1' } });
  for (const { steps, from, to } of [people, area, air]) {
    expect([steps[0].from, steps.at(-1).to]).toEqual([from, to]);
    for (let i = 1; i < steps.length; i += 1) expect(steps[i].from).toBe(steps[i - 1].to);
  }
});

test('what had begun before may be more than there is, and that is said', async () => {
  const before = await load(`resource=station&what=rinse&siteId=${site()}&hours=6`);
  const { rows: [row] } = await world.bench.server.admin.query<{ document: Buffer }>('select document from plan_ground where revision_id = $1', [before.revision.id]);
  const { gunzipSync, gzipSync } = await import('node:zlib');
  const ground = JSON.parse(gunzipSync(row!.document).toString());
  const use = { itemId: world.quilts[0], step: 'rinse', stationId: world.bench.incident.station('RINSE'), personIds: [], dryingPlaceId: null, areaDm2: 0, loadGPerSlot: 0, freezerId: null, volumeCl: 0, interval: { from: 0, to: 4 } };
  ground.problem.fixed = [use, use, use];
  await world.bench.server.admin.query('update plan_ground set document = $2 where revision_id = $1', [before.revision.id, gzipSync(JSON.stringify(ground))]);
  const body = await load(`resource=station&what=rinse&siteId=${site()}&hours=6`);
  expect(body.steps[0].used).toBeGreaterThan(body.steps[0].available);
  expect(body.told.join(' ')).toMatch(/more is in use than there is, because it had begun before the plan was made/);
});

test('of a time before the plan nothing is known, and it is said in Spanish too', async () => {
  const past = await load(`resource=crew&siteId=${site()}&from=2026-05-01T00:00:00Z`);
  expect(past).toMatchObject({ steps: [], told: ['By plan 1.', 'The plan says nothing of this time. Ask for one that it covers.'] });
  expect((await load(`resource=crew&siteId=${site()}`, 'es')).told[0]).toBe('Según el plan 1.');
});
