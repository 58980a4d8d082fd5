import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('of two things each is told the same order, with the numbers that decide and why in words', async () => {
  const household = await bench.household();
  const [dear, plain] = [await bench.assessedQuilt(household), await bench.assessedQuilt(household, { significance: 'valued' })];
  const { body } = await bench.network.get(`/v1/items/${plain.id}/precedence?over=${dear.id}`).expect(200);
  expect(body).toMatchObject({ decidedBy: 'significance', first: { itemId: dear.id, tag: dear.tag, significance: 'irreplaceable' }, second: { itemId: plain.id, significance: 'valued' } });
  expect(body.inWords).toBe(`${dear.tag} comes before ${plain.tag}: to its family it is irreplaceable, the other is valued.`);
  expect(body.first.slackMin).toBe(Math.round((Date.parse(body.first.startBy) - bench.server.clock.nowMs()) / 60_000));
  expect((await bench.network.get(`/v1/items/${dear.id}/precedence?over=${plain.id}`).expect(200)).body).toEqual(body);
});

test('an item is not compared with itself, nor with one of another network', async () => {
  const quilt = await bench.takeIn(await bench.household());
  expect((await bench.network.get(`/v1/items/${quilt.id}/precedence?over=${quilt.id}`).expect(400)).body.errors[0]).toMatchObject({ code: 'same_item', parameter: 'over' });
  const stranger = await bench.server.network();
  await stranger.get(`/v1/items/${quilt.id}/precedence?over=${quilt.id}`).expect(404);
});
