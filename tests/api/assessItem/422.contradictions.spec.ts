import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const faults = (body: { errors: { pointer: string; code: string }[] }) => body.errors.map(({ pointer, code }) => `${pointer} ${code}`).sort();

test('what cannot all be true is refused at once, each at its place, and changes nothing', async () => {
  const quilt = await bench.takeIn(await bench.household());
  const before = await recordOf(bench, quilt.id);
  const { body } = await bench.assess(quilt.id, { materialClass: 'glass-object', fibre: 'silk', water: 'clean', soil: 'heavy-mud', wettedAt: '2026-05-09T09:00:00Z' }).expect(422);
  expect(body.code).toBe('observations_contradict');
  expect(faults(body)).toEqual(['#/fibre fibre_of_no_textile', '#/water mud_from_clean_water', '#/wettedAt wetted_ahead']);
  expect(await recordOf(bench, quilt.id)).toEqual(before);
});

test('the first look puts the doorway right; a later one that says otherwise about what does not change by itself needs a reason', async () => {
  const quilt = await bench.takeIn(await bench.household());
  await bench.assess(quilt.id, { materialClass: 'textile-flat-large', hazards: ['sharps', 'pesticide'], alreadyBled: true, mould: 'active', water: 'black', wettedAt: '2026-05-08T20:00:00Z' }).expect(201);
  const before = await recordOf(bench, quilt.id);
  const second = { materialClass: 'textile-wool', fibre: 'wool', hazards: ['sharps'], alreadyBled: false, mould: 'none', water: 'grey', wettedAt: '2026-05-09T02:00:00Z' };
  const { body } = await bench.assess(quilt.id, second).expect(422);
  expect(faults(body)).toEqual(['#/alreadyBled', '#/fibre', '#/hazards', '#/materialClass', '#/mould', '#/water', '#/wettedAt'].map((pointer) => `${pointer} earlier_look`));
  expect(body.detail).toContain('as seen again, with the reason');
  expect(await recordOf(bench, quilt.id)).toEqual(before);
  const corrected = await bench.assess(quilt.id, { ...second, seenAgain: { reason: 'The label was on the wrong bundle.' } }).expect(201);
  expect(corrected.body).toMatchObject({ seenAgain: { reason: 'The label was on the wrong bundle.' }, observed: { materialClass: 'textile-wool', alreadyBled: false, hazards: ['sharps'] } });
});

test('the more careful word is taken without a reason: dirtier water, an earlier wetting, another hazard, dye that ran', async () => {
  const quilt = await bench.assessedQuilt(await bench.household());
  await bench.assess(quilt.id, { water: 'grey', wettedAt: '2026-05-09T02:00:00Z', seenAgain: { reason: 'A burst pipe, says the family.' } }).expect(201);
  await bench.assess(quilt.id, { water: 'black', wettedAt: '2026-05-08T20:00:00Z', hazards: ['sewage'], alreadyBled: true, mould: 'active' }).expect(201);
});

test('mould that was taken off may be gone', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.assess(quilt.id, { mould: 'active' }).expect(201);
  await bench.server.admin.query(
    `insert into step_result (network_id, incident_id, id, item_id, step, outcome, note, finished_at, recorded_at) values ($1, $2, gen_random_uuid(), $3, 'surface-clean', 'done', '', now(), now())`,
    [bench.network.networkId, bench.incident.id, quilt.id],
  );
  await bench.assess(quilt.id, { mould: 'none' }).expect(201);
});

test('a contradiction that was on record before is not held against somebody who speaks of something else', async () => {
  const quilt = await bench.assessedQuilt(await bench.household());
  await bench.server.admin.query(`update assessment set observed = observed || '{"materialClass": "metal-iron"}' where network_id = $1 and item_id = $2`, [bench.network.networkId, quilt.id]);
  await bench.assess(quilt.id, { fibre: undefined, fragility: 'weak' }).expect(201);
  expect(faults((await bench.assess(quilt.id, { fibre: 'cotton' }).expect(422)).body)).toEqual(['#/fibre fibre_of_no_textile']);
});

test('nothing gets wetter by itself: what was dried and drips needs the time at which it got wet again, or a reason', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  for (const step of ['rinse', 'blot']) await bench.report(quilt.id, step).expect(201);
  expect(faults((await bench.assess(quilt.id, { wetState: 'wet' }).expect(422)).body)).toEqual(['#/wetState earlier_look']);
  await bench.hang(quilt.id);
  await bench.report(quilt.id, 'dry').expect(201);
  const before = await recordOf(bench, quilt.id);
  const { body } = await bench.assess(quilt.id, { wetState: 'dripping' }).expect(422);
  expect(faults(body)).toEqual(['#/wetState earlier_look']);
  expect(body.inWords.join(' ')).toContain('It was damp before, and nothing gets wetter by itself. If it got wet again, say when it did.');
  expect(await recordOf(bench, quilt.id)).toEqual(before);
  await bench.assess(quilt.id, { wetState: 'dripping', seenAgain: { reason: 'The roof leaks.' } }).expect(201);
});

test('a later time of wetting is another wetting only after the drying; before that it speaks against the first one', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.assess(quilt.id, { wettedAt: '2026-05-08T20:00:00Z' }).expect(201);
  expect(faults((await bench.assess(quilt.id, { wettedAt: '2026-05-09T06:00:00Z' }).expect(422)).body)).toEqual(['#/wettedAt earlier_look']);
});

test('what lies frozen is not looked at for water: that it thawed is recorded first', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.report(quilt.id, 'wrap', 'done', { disposition: 'hold-frozen' }).expect(201);
  await bench.report(quilt.id, 'freeze', 'done', { to: bench.freezer() }).expect(201);
  const { body } = await bench.assess(quilt.id, { wetState: 'dripping', seenAgain: { reason: 'The freezer failed.' } }).expect(422);
  expect(faults(body)).toEqual(['#/wetState dripping_while_frozen']);
});
