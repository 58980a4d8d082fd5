import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('steps with a route of their own name it', async () => {
  const quilt = await bench.assessedQuilt(await bench.household());
  const before = await recordOf(bench, quilt.id);
  const routes: Record<string, string> = {
    refer: 'POST /v1/items/{itemId}/referrals', release: 'POST /v1/items/{itemId}/releases', 'hand-back': 'POST /v1/households/{householdId}/hand-backs', 'colour-test': 'POST /v1/items/{itemId}/colour-tests',
  };
  for (const [step, route] of Object.entries(routes)) expect((await bench.report(quilt.id, step).expect(422)).body).toMatchObject({ code: 'command_refused', route });
  expect(await recordOf(bench, quilt.id)).toEqual(before);
});

test('a colour test is not declared done while any colour is untested: the rinse stays closed', async () => {
  const quilt = await bench.assessedQuilt(await bench.household());
  await bench.startAt(quilt.id, 'TEST');
  await bench.colourTest(quilt.id, 'no-transfer', false).expect(201);
  await bench.report(quilt.id, 'colour-test').expect(422);
  expect(await bench.read(quilt.id)).toMatchObject({ nextStep: 'colour-test', stage: 'in-work' });
});

test('people, stations and places of nobody, and times that cannot be, are refused by pointer and change nothing', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.startAt(quilt.id, 'RINSE');
  const before = await recordOf(bench, quilt.id);
  const nobody = bench.incident.site();
  const now = bench.server.clock.nowMs();
  const at = (minutes: number) => new Date(now + minutes * 60_000).toISOString();
  const pointers = [];
  for (const wrong of [{ personId: nobody }, { stationId: nobody }, { to: { kind: 'holding', id: nobody } }, { finishedAt: at(60) }, { startedAt: at(1), finishedAt: at(0) }, { disposition: 'release' }]) {
    pointers.push((await bench.report(quilt.id, 'rinse', 'done', wrong).expect(422)).body.errors[0].pointer);
  }
  expect(pointers).toEqual(['#/personId', '#/stationId', '#/to/id', '#/finishedAt', '#/startedAt', '#/disposition']);
  expect(await recordOf(bench, quilt.id)).toEqual(before);
});

test('freezing without a freezer is refused', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.report(quilt.id, 'wrap').expect(201);
  for (const to of [null, bench.holding('cold')]) expect((await bench.report(quilt.id, 'freeze', 'done', { to }).expect(422)).body.errors[0].pointer).toBe('#/to');
});
