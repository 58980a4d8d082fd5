import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('a grade for a colour that is not among those listed is refused and changes nothing; for a listed one it is taken', async () => {
  const quilt = await bench.takeIn(await bench.household());
  await bench.assess(quilt.id, { colours: ['Red border', 'white'] }).expect(201);
  const before = await recordOf(bench, quilt.id);
  const test = (colour: string) => bench.network.post(`/v1/items/${quilt.id}/colour-tests`, { personId: bench.incident.person('P2'), tests: [{ colour, reading: '5' }], allColoursTested: false });
  const { body } = await test('green').expect(422);
  expect(body).toMatchObject({ code: 'observations_contradict', errors: [{ pointer: '#/tests', code: 'colour_not_listed' }] });
  expect(await recordOf(bench, quilt.id)).toEqual(before);
  await test('red border').expect(201);
});
