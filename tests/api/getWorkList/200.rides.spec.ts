import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { TwoHalls } from '../support/two-halls.js';

let halls: TwoHalls;
beforeAll(async () => {
  halls = await TwoHalls.open();
});
afterAll(() => halls.bench.close());

test('what is looked at before a ride is listed where it is, and goes to the vehicle; nothing is listed where it is not yet', async () => {
  const item = await halls.bench.takeIn(await halls.bench.household());
  const van = await halls.van();
  await halls.plan();
  expect((await halls.planned(item.id)).slice(0, 2).map(({ step }) => step)).toEqual(['assess', 'carry']);
  const { body } = await halls.bench.network.get(`/v1/stations/${halls.bench.incident.station('TEST')}/work-list`).expect(200);
  expect(body.next).toMatchObject([{ itemId: item.id, step: 'assess', goesTo: { kind: 'vehicle', id: van.id, code: 'VAN1' } }]);
  for (const code of ['TEST', 'RINSE', 'BLOT', 'WRAP', 'QUAR', 'PACK', 'BENCH']) expect(await halls.listOf(`S-${code}`)).toEqual([]);
  await halls.bench.assess(item.id).expect(201);
  for (const code of ['TEST', 'RINSE', 'BLOT', 'WRAP', 'QUAR', 'PACK', 'BENCH']) for (const prefix of ['', 'S-']) expect(await halls.listOf(`${prefix}${code}`)).toEqual([]);
  // A chart of the station over there shows the work, and no journey.
  const { body: chart } = await halls.bench.network.get(`/v1/stations/${halls.bench.incident.station('S-TEST')}/plan-chart`).expect(200);
  expect(chart.bars.map(({ step }: { step: string }) => step)).toEqual(['colour-test']);
  const { body: progress } = await halls.bench.network.get(`${halls.incidentPath}/plan-progress`).expect(200);
  expect(JSON.stringify(progress)).not.toContain('carry');
});
