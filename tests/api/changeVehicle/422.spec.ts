import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { TwoHalls } from '../support/two-halls.js';

let halls: TwoHalls;
beforeAll(async () => {
  halls = await TwoHalls.open();
});
afterAll(() => halls.bench.close());

test('a ride to another network’s site is refused as one to a site that never was, each end named, and changes nothing', async () => {
  const { server, network } = halls.bench;
  const van = await halls.van();
  const theirs = (await (await server.network()).incident()).site();
  const change = (toSiteId: string) => network.patch(`${halls.incidentPath}/vehicles/${van.id}`, { rides: [halls.rides[1], { ...halls.rides[0], toSiteId }] }, { 'if-match': '"1"' }).expect(422);
  const [foreign, none] = [await change(theirs), await change('0198b7a0-0000-7000-8000-00000000dead')];
  expect(foreign.body).toMatchObject({ code: 'reference_unknown', errors: [{ code: 'reference_unknown', pointer: '#/rides/1/toSiteId' }] });
  expect({ ...foreign.body, instance: '', traceId: '' }).toEqual({ ...none.body, instance: '', traceId: '' });
  const { body: layout } = await network.get(`${halls.incidentPath}/layout`).expect(200);
  expect(layout.vehicles).toEqual([van]);
});
