import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { type HouseholdOnTest } from '#testing';
import { planNow } from '../../unit/plan-problem/support/runs.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let household: HouseholdOnTest;
beforeAll(async () => {
  bench = await Workbench.open((document) => {
    // Cool, so that heat asks for nothing unless a test says so, and machines that take whatever air comes in.
    document.outdoorAirTempC = 15;
    for (const machine of document.sites[0]?.dryingRooms?.[0]?.dehumidifiers ?? []) machine.ratedLPerDay = 500;
    const person = (code: string, more: object) => ({ code, displayName: `Helper ${code}`, site: 'HALL', skills: ['rinsing' as const], shifts: [{ startsAt: '2026-05-09T06:00:00Z', endsAt: '2026-05-09T21:00:00Z' }], ...more });
    document.people?.push(person('YOUNG', { restrictions: ['under-age'] }), person('DRY', { restrictions: ['no-wet-work'] }), person('HOME', { restrictions: ['under-age'], shifts: [] }), person('PACKER', { skills: ['paper'], restrictions: ['under-age'] }));
  });
  household = await bench.household();
});
afterAll(() => bench.close());

interface Order {
  itemId: string;
  crew: { personId: string }[];
  people: { needed: number; liftingAid: boolean; workMinutesPerHour: number | null; restMinutes: number; inWords: string[]; notFor: { name: string; codes: string[]; inWords: string[] }[] };
}

const plan = () => planNow(bench.server, bench.network, bench.incident);
async function orderOf(itemId: string, station = 'RINSE', headers = {}): Promise<Order> {
  const { body } = await bench.network.get(`/v1/stations/${bench.incident.station(station)}/work-list?limit=100`, headers).expect(200);
  const order = body.next.find((one: Order) => one.itemId === itemId);
  if (!order) throw new Error('it is not on the list');
  return order;
}
const weather = (airTempC: number) => bench.server.admin.query('update incident set outdoor_air_temp_c = $2, outdoor_relative_humidity_pct = 80 where id = $1', [bench.incident.id, airTempC]);

test('a list tells who is there with the skill and should not do it, with why; who lacks the skill or is at home it leaves out', async () => {
  const napkin = await bench.testedQuilt(household, { materialClass: 'textile-flat-small', sizeClass: 'a4-sheet' });
  await plan();
  const { people, crew } = await orderOf(napkin.id);
  expect(people.notFor.map(({ name, codes }) => [name, ...codes])).toEqual([['Helper DRY', 'restriction_declared'], ['Helper YOUNG', 'under_age']]);
  expect(people.notFor[1]?.inWords).toEqual(['Nobody under age works on the dirty side or with mould.']);
  expect(people).toMatchObject({ needed: 1, liftingAid: false, restMinutes: 0, inWords: [] });
  const kept = ['YOUNG', 'DRY'].map((code) => bench.incident.person(code));
  expect(crew.filter(({ personId }) => kept.includes(personId))).toEqual([]);
});

test('what is heavy is planned for as many people as lift it, and the list says so in the language of its reader', async () => {
  const quilt = await bench.testedQuilt(household, { description: 'Queen-size quilt', sizeClass: 'queen-quilt' });
  await plan();
  const order = await orderOf(quilt.id);
  expect(order).toMatchObject({ people: { needed: 2, inWords: ['About 9.8 kg are lifted at once: 2 people together, or a trolley, board or hoist.'] } });
  expect(order.crew).toHaveLength(2);
  expect((await orderOf(quilt.id, 'RINSE', { 'accept-language': 'es' })).people.inWords).toEqual(['Se levantan unos 9.8 kg de una vez: 2 personas juntas, o una carretilla, una tabla o un montacargas.']);
  // The report that the list describes is taken as it is.
  const [first = '', ...others] = order.crew.map(({ personId }) => personId);
  await bench.report(quilt.id, 'rinse', 'done', { personId: first, withPersonIds: others }).expect(201);
});

test('the rests that a heat asks for are told and do not count as worked; in a heat that stops people nobody is planned', async () => {
  const [napkins, more] = [await bench.testedQuilt(household, { count: 3, materialClass: 'textile-flat-small', sizeClass: 'a4-sheet' }), await bench.testedQuilt(household, { count: 3, materialClass: 'textile-flat-small', sizeClass: 'a4-sheet' })];
  await weather(29);
  await plan();
  const { people } = await orderOf(napkins.id);
  // 12 minutes of work, 15 in an hour (NIOSH 2016-106, from memory): 36 minutes of rest.
  expect(people).toMatchObject({ workMinutesPerHour: 15, restMinutes: 36, inWords: ['In this heat at most 15 minutes of work in an hour: 36 minutes of rest belong to it. Water, shade and rest come first.'] });
  bench.server.clock.set(Date.parse('2026-05-09T08:00:00Z'));
  const times = { personId: bench.incident.person('P2'), startedAt: '2026-05-09T07:10:00Z', finishedAt: '2026-05-09T07:58:00Z' };
  expect((await bench.report(napkins.id, 'rinse', 'done', times).expect(422)).body.errors[0].code).toBe('heat_rest_due');
  await bench.report(napkins.id, 'rinse', 'done', { ...times, restMinutes: 36 }).expect(201);
  // The 12 minutes of before count, their rests do not: 12 and 3 are 15.
  const again = { personId: bench.incident.person('P2'), startedAt: '2026-05-09T07:56:00Z', finishedAt: '2026-05-09T08:00:00Z' };
  expect((await bench.report(more.id, 'rinse', 'done', again).expect(422)).body.people[0].reasons[0].text).toContain('this person has worked 16');
  // At eight the list names whoever would pass the 15 minutes with it.
  await plan();
  expect((await orderOf(more.id)).people.notFor.find(({ name }) => name === 'Tester two')?.codes).toEqual(['heat_rest_due']);
  await bench.report(more.id, 'rinse', 'done', { ...again, finishedAt: '2026-05-09T07:59:00Z' }).expect(201);
  bench.server.clock.set(Date.parse('2026-05-09T07:00:00Z'));

  const left = await bench.testedQuilt(household, { materialClass: 'textile-flat-small', sizeClass: 'a4-sheet' });
  await plan();
  await weather(36);
  expect((await orderOf(left.id)).people).toMatchObject({ workMinutesPerHour: 0, inWords: ['It is too hot for this now: nobody does it before it is cooler. Stopping beats finishing the batch.'] });
  await plan();
  const { body } = await bench.network.get(`/v1/incidents/${bench.incident.id}/plan/assignments?limit=200`).expect(200);
  const begins = body.items.filter(({ personIds }: { personIds: string[] }) => personIds.length > 0).map(({ startsAt }: { startsAt: string }) => startsAt);
  expect(begins.length).toBeGreaterThan(0);
  expect(begins.every((startsAt: string) => startsAt >= '2026-05-09T13:00:00')).toBe(true);
  await weather(15);
});

test('rests that are longer than the step, and none of a step without a start, are not taken', async () => {
  const napkin = await bench.testedQuilt(household, { materialClass: 'textile-flat-small', sizeClass: 'a4-sheet' });
  const times = { personId: bench.incident.person('P2'), startedAt: '2026-05-09T06:40:00Z', finishedAt: '2026-05-09T06:50:00Z' };
  expect((await bench.report(napkin.id, 'rinse', 'done', { ...times, restMinutes: 11 }).expect(422)).body.errors[0]).toMatchObject({ code: 'rest_too_long', pointer: '#/restMinutes' });
  await bench.report(napkin.id, 'rinse', 'done', { personId: times.personId, restMinutes: 30 }).expect(201);
  const { rows } = await bench.server.admin.query("select rest_minutes from step_result where item_id = $1 and step = 'rinse'", [napkin.id]);
  expect(rows).toEqual([{ rest_minutes: 0 }]);
});

test('a thing that nobody on shift may touch for want of a fit is unplanned for that reason', async () => {
  await bench.server.admin.query('update person set respirator_fit_until = null where incident_id = $1', [bench.incident.id]);
  const mouldy = await bench.testedQuilt(household);
  await bench.report(mouldy.id, 'rinse', 'mould-found').expect(201);
  await bench.network.post(`/v1/items/${mouldy.id}/disposition-overrides`, { disposition: 'hold-frozen', reason: 'Into the freezer, bagged apart.', personId: bench.incident.person('P1') }).expect(201);
  await plan();
  const { body } = await bench.network.get(`/v1/incidents/${bench.incident.id}/plan/unplanned?limit=200`).expect(200);
  expect(body.items.find(({ itemId }: { itemId: string }) => itemId === mouldy.id)?.blockedBy).toEqual({ kind: 'respirator-fit', what: 'freezer-wrapping', text: 'nobody is free with the skill “wrapping for the freezer” whose respirator fit is valid for it' });
});
