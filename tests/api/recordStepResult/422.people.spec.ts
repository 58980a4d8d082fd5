import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open((document) => {
    const person = (code: string, more: object) => ({ code, displayName: `Helper ${code}`, site: 'HALL', skills: ['rinsing' as const, 'blotting' as const, 'mould-work' as const], shifts: [{ startsAt: '2026-05-09T06:00:00Z', endsAt: '2026-05-09T21:00:00Z' }], ...more });
    document.people?.push(person('YOUNG', { restrictions: ['under-age'] }), person('DRY', { restrictions: ['no-wet-work'] }), person('FIT', { respiratorFitUntil: '2026-05-09' }), person('PAST', { respiratorFitUntil: '2026-05-08' }), person('RINSER', {}));
  });
});
afterAll(() => bench.close());

const as = (code: string, change: object = {}) => ({ personId: bench.incident.person(code), ...change });

/** Reports a rinse; answers the codes of the reasons, and makes sure that nothing was recorded. */
async function refused(itemId: string, step: string, change: object): Promise<{ codes: string[]; body: Record<string, unknown> & { detail: string; people: { personId: string; reasons: { code: string; source: { mark: string } }[]; instead: string[] }[] } }> {
  const before = await recordOf(bench, itemId);
  const { body } = await bench.report(itemId, step, 'done', change).expect(422);
  expect(body).toMatchObject({ code: 'person_not_suited' });
  expect(await recordOf(bench, itemId)).toEqual(before);
  return { body, codes: body.errors.map((error: { code: string; pointer: string }) => `${error.pointer} ${error.code}`) };
}

test('a step is for people with its skill: the answer says why, from what source, and what they can do instead', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.report(quilt.id, 'rinse', 'done', as('P2')).expect(201);
  const { body, codes } = await refused(quilt.id, 'wrap', as('P2', { disposition: 'hold-frozen' }));
  expect(codes).toEqual(['#/personId skill_missing']);
  expect(body.people).toMatchObject([{ personId: bench.incident.person('P2'), reasons: [{ source: { mark: 'own-calibration' } }], instead: expect.arrayContaining(['blot']) }]);
  expect(body.detail).toMatch(/wrapping for the freezer.*What this person can do on this item: .*blot.*a lead answers for it/);
});

test('nobody under age works on the dirty side, and a declared restriction counts without a why', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  expect((await refused(quilt.id, 'rinse', as('YOUNG'))).codes).toEqual(['#/personId under_age']);
  const { body, codes } = await refused(quilt.id, 'rinse', as('DRY'));
  expect(codes).toEqual(['#/personId restriction_declared']);
  expect(body.detail).toContain('Nobody asks why');
});

test('every helper must be suited too, each by their place in the report', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  const withPersonIds = [bench.incident.person('P3'), bench.incident.person('DRY'), bench.incident.person('YOUNG')];
  expect((await refused(quilt.id, 'rinse', as('P2', { withPersonIds }))).codes).toEqual(['#/withPersonIds/1 restriction_declared', '#/withPersonIds/2 under_age']);
});

test('work with mould asks for a respirator fit that is valid on the day', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.report(quilt.id, 'rinse', 'mould-found').expect(201);
  const clean = (code: string) => as(code, { disposition: 'treat' });
  const next = (await bench.network.get(`/v1/items/${quilt.id}/triage`).expect(200)).body.options.find((option: { disposition: string }) => option.disposition === 'treat');
  const [first] = next.steps.filter((care: { step: string }) => !['photograph', 'assess', 'colour-test'].includes(care.step));
  expect(first).toMatchObject({ step: 'dry', skill: 'mould-work', ppe: expect.arrayContaining(['N95 respirator']) });
  expect((await refused(quilt.id, first.step, clean('RINSER'))).codes).toEqual(['#/personId respirator_fit_missing']);
  expect((await refused(quilt.id, first.step, clean('PAST'))).codes).toEqual(['#/personId respirator_fit_over']);
  await bench.network.post(`/v1/items/${quilt.id}/custody-events`, { kind: 'drying-started', from: bench.holding('quarantine'), to: { kind: 'drying-place', id: bench.incident.place('R1') }, personId: bench.incident.person('P1'), reason: 'Apart from all others.' }).expect(201);
  await bench.report(quilt.id, first.step, 'done', clean('FIT')).expect(201);
});

test('after thirteen hours on shift somebody else goes on', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  bench.server.clock.set(Date.parse('2026-05-09T20:30:00Z'));
  const { body, codes } = await refused(quilt.id, 'rinse', as('RINSER', { startedAt: '2026-05-09T19:10:00Z', finishedAt: '2026-05-09T19:30:00Z' }));
  expect(codes).toEqual(['#/personId hours_too_long']);
  expect(body.detail).toContain('13.2 hours since the last break of 8 hours. Nobody works more than 13');
  await bench.report(quilt.id, 'rinse', 'done', as('RINSER', { startedAt: '2026-05-09T19:00:00Z', finishedAt: '2026-05-09T19:30:00Z' })).expect(201);
  bench.server.clock.set(Date.parse('2026-05-09T07:00:00Z'));
});

test('a wet quilt that is too heavy for one is for two, or for a board', async () => {
  const heavy = { description: 'Queen-size quilt', sizeClass: 'queen-quilt' };
  const [one, two] = [await bench.testedQuilt(await bench.household(), heavy), await bench.testedQuilt(await bench.household(), heavy)];
  const { body, codes } = await refused(one.id, 'rinse', as('P2'));
  expect(codes).toEqual(['#/personId too_heavy']);
  expect(body.detail).toMatch(/9\.8 kg are lifted at once: that takes 2 people together, and 1 is named/);
  await bench.report(one.id, 'rinse', 'done', as('P2', { withPersonIds: [bench.incident.person('P3'), bench.incident.person('P2')] })).expect(201);
  await bench.report(two.id, 'rinse', 'done', as('P2', { liftingAid: true })).expect(201);
  const { rows } = await bench.server.admin.query("select with_person_ids, lifting_aid from step_result where step = 'rinse' and item_id = any($1) order by item_id = $2", [[one.id, two.id], two.id]);
  expect(rows).toEqual([{ with_person_ids: [bench.incident.person('P3')], lifting_aid: false }, { with_person_ids: [], lifting_aid: true }]);
});

test('in great heat work stops, and in heat whoever has worked their minutes rests: stopping beats finishing the batch', async () => {
  const weather = (airTempC: number) => bench.server.admin.query('update incident set outdoor_air_temp_c = $2, outdoor_relative_humidity_pct = 80 where id = $1', [bench.incident.id, airTempC]);
  const household = await bench.household();
  const napkins = { count: 4, materialClass: 'textile-flat-small', sizeClass: 'a4-sheet' };
  const [first, second, third] = [await bench.testedQuilt(household, napkins), await bench.testedQuilt(household, napkins), await bench.testedQuilt(household, napkins)];
  bench.server.clock.set(Date.parse('2026-05-09T08:00:00Z'));
  await weather(29);
  await bench.report(first.id, 'rinse', 'done', as('P2', { startedAt: '2026-05-09T07:00:00Z', finishedAt: '2026-05-09T07:12:00Z' })).expect(201);
  const { codes, body } = await refused(second.id, 'rinse', as('P2', { startedAt: '2026-05-09T07:12:00Z', finishedAt: '2026-05-09T07:26:00Z' }));
  expect(codes).toEqual(['#/personId heat_rest_due']);
  expect(body.detail).toMatch(/at most 15 minutes of work in an hour, and this person has worked 26/);
  expect(body.people[0]?.reasons[0]?.source.mark).toBe('from-memory');
  // Somebody who is fresh may do it, and after an hour of rest the same person may.
  await bench.report(second.id, 'rinse', 'done', as('RINSER', { startedAt: '2026-05-09T07:12:00Z', finishedAt: '2026-05-09T07:26:00Z' })).expect(201);
  await weather(36);
  const stopped = await refused(third.id, 'rinse', as('P2'));
  expect(stopped.codes).toEqual(['#/personId heat_stop']);
  expect(stopped.body.detail).toContain('Stopping beats finishing the batch');
  await weather(24);
  bench.server.clock.set(Date.parse('2026-05-09T07:00:00Z'));
});

test('helpers and leads who are nobody of the incident, and leads who are none, are refused by pointer', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  const before = await recordOf(bench, quilt.id);
  const reason = 'She did it all the same.';
  const wrong: [object, string][] = [
    [{ withPersonIds: [bench.incident.person('P3'), bench.incident.site()] }, '#/withPersonIds/1'],
    [{ override: { personId: bench.incident.site(), reason } }, '#/override/personId'],
    [{ override: { personId: bench.incident.person('P2'), reason } }, '#/override/personId'],
  ];
  for (const [change, pointer] of wrong) expect((await bench.report(quilt.id, 'rinse', 'done', as('YOUNG', change)).expect(422)).body.errors[0]?.pointer).toBe(pointer);
  expect((await bench.report(quilt.id, 'rinse', 'done', as('YOUNG', { override: { personId: bench.incident.person('P1'), reason: 'x' } })).expect(400)).body.errors[0].pointer).toBe('#/override/reason');
  expect(await recordOf(bench, quilt.id)).toEqual(before);
});
