import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { TwoHalls } from '../support/two-halls.js';

let halls: TwoHalls;
beforeAll(async () => {
  halls = await TwoHalls.open();
});
afterAll(() => halls.bench.close());

test('rides between sites that are not of the incident name each end that is wrong, and no vehicle is added', async () => {
  const [out, back] = halls.rides;
  const none = '0198b7a0-0000-7000-8000-00000000dead';
  const rides = [out, { ...back, fromSiteId: none }, { fromSiteId: none, toSiteId: '0198b7a0-0000-7000-8000-00000000beef', minutes: 5 }];
  const { body } = await halls.bench.network.post(`${halls.incidentPath}/vehicles`, { code: 'VAN1', name: 'Van', maxLoadKg: 300, rides }).expect(422);
  expect(body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual(['#/rides/1/fromSiteId', '#/rides/2/fromSiteId', '#/rides/2/toSiteId']);
  expect((await halls.bench.network.get(`${halls.incidentPath}/layout`).expect(200)).body.vehicles).toEqual([]);
});
