import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { TwoHalls } from '../support/two-halls.js';

let halls: TwoHalls;
beforeAll(async () => {
  halls = await TwoHalls.open();
});
afterAll(() => halls.bench.close());

test('rides that lead nowhere or come twice, and times that end before they begin, are named together and change nothing', async () => {
  const van = await halls.van();
  const [out] = halls.rides;
  const body = { rides: [{ ...out, toSiteId: out!.fromSiteId }, out, { ...out, minutes: 10 }, { ...out, minutes: 0 }], runs: [{ startsAt: '2026-05-09T18:00:00Z', endsAt: '2026-05-09T08:00:00Z' }] };
  const refused = await halls.bench.network.patch(`${halls.incidentPath}/vehicles/${van.id}`, body, { 'if-match': '"1"' }).expect(400);
  expect(refused.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual(expect.arrayContaining(['#/rides/0/toSiteId', '#/rides/2', '#/rides/3/minutes', '#/runs/0/endsAt']));
  const { body: layout } = await halls.bench.network.get(`${halls.incidentPath}/layout`).expect(200);
  expect(layout.vehicles).toEqual([van]);
});
