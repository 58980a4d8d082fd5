import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const listed = async (itemId: string) => (await bench.network.get(`/v1/incidents/${bench.incident.id}/unsuited-steps?limit=200`).expect(200)).body.items.filter((row: { itemId: string }) => row.itemId === itemId);
const override = () => ({ personId: bench.incident.person('P1'), reason: 'He was shown how this morning.' });

/** P3 rinses and blots, and has not learned to test colours. */
function colourTest(itemId: string, reading: string, change: object = {}) {
  const tests = [{ colour: 'red border', solution: 'water', method: 'swab', reading }];
  return bench.network.post(`/v1/items/${itemId}/colour-tests`, { personId: bench.incident.person('P3'), tests, allColoursTested: true, ...change });
}

test('a colour test is for people with the skill, complete or not: nothing is recorded, and the answer says why', async () => {
  const quilt = await bench.assessedQuilt(await bench.household());
  const before = await recordOf(bench, quilt.id);
  for (const allColoursTested of [true, false]) {
    const { body } = await colourTest(quilt.id, 'no-transfer', { allColoursTested }).expect(422);
    expect(body).toMatchObject({ code: 'person_not_suited', errors: [{ pointer: '#/personId', code: 'skill_missing' }], people: [{ personId: bench.incident.person('P3') }] });
  }
  expect(await recordOf(bench, quilt.id)).toEqual(before);
  expect((await bench.server.admin.query('select 1 from colour_test where item_id = $1', [quilt.id])).rows).toEqual([]);
});

test('with a lead who answers for it the test is recorded and listed, a part of one as well', async () => {
  const quilt = await bench.assessedQuilt(await bench.household());
  await colourTest(quilt.id, 'no-transfer', { allColoursTested: false, override: override() }).expect(201);
  await colourTest(quilt.id, 'no-transfer', { override: override() }).expect(201);
  expect(await bench.read(quilt.id)).toMatchObject({ nextStep: 'rinse' });
  expect(await listed(quilt.id)).toMatchObject([
    { step: 'colour-test', outcome: null, stepResultId: null, override: override() },
    { step: 'colour-test', outcome: 'done', stepResultId: expect.any(String), override: override() },
  ]);
});

test('dye that moves is taken from everybody at once, and listed without a lead', async () => {
  const quilt = await bench.assessedQuilt(await bench.household());
  await colourTest(quilt.id, 'any-transfer').expect(201);
  expect(await listed(quilt.id)).toMatchObject([{ step: 'colour-test', outcome: 'dye-moved', override: null, people: [{ reasons: [{ code: 'skill_missing' }] }] }]);
});
