import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { TwoHalls } from '../support/two-halls.js';

let halls: TwoHalls;
beforeAll(async () => {
  halls = await TwoHalls.open();
});
afterAll(() => halls.bench.close());

test('the explanation names the ride, when it leaves and when it is there', async () => {
  const household = await halls.bench.household();
  const item = await halls.bench.assessedQuilt(household);
  await halls.van();
  await halls.plan();
  const [carry] = await halls.planned(item.id);
  const explained = async (language: string) => (await halls.bench.network.get(`/v1/items/${item.id}/plan-explanation`, { 'accept-language': language }).expect(200)).body;
  const minute = (moment: string) => moment.slice(0, 16).replace('T', ' ');
  const body = await explained('en');
  expect(body.steps[0]).toMatchObject({ step: 'carry', startsAt: carry!.startsAt });
  expect(body.inWords.join(' ')).toContain(`It is carried with VAN1 HALL–SCHOOL: that leaves at ${minute(carry!.startsAt)} UTC and is there by ${minute(carry!.endsAt)} UTC, as reckoned.`);
  expect((await explained('es')).inWords.join(' ')).toContain('Se lleva con VAN1 HALL–SCHOOL');
});
