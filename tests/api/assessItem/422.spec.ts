import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('a person who is not of the incident, and times that lie ahead, are refused and change nothing', async () => {
  const quilt = await bench.takeIn(await bench.household());
  const before = await recordOf(bench, quilt.id);
  const ahead = new Date(bench.server.clock.nowMs() + 3_600_000).toISOString();
  const pointers = [];
  for (const wrong of [{ personId: bench.incident.site() }, { wettedAt: ahead }, { assessedAt: ahead }]) {
    pointers.push((await bench.assess(quilt.id, wrong).expect(422)).body.errors[0].pointer);
  }
  expect(pointers).toEqual(['#/personId', '#/wettedAt', '#/assessedAt']);
  expect(await recordOf(bench, quilt.id)).toEqual(before);
});

test('consents and counts are no observations: the body that holds them is refused by name', async () => {
  const quilt = await bench.takeIn(await bench.household());
  const answer = await bench.assess(quilt.id, { consents: { treat: true }, count: 3 }).expect(400);
  expect(answer.body.errors.map((error: { pointer: string }) => error.pointer).sort()).toEqual(['#/consents', '#/count']);
});
