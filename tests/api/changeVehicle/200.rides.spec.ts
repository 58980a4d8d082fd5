import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { TwoHalls } from '../support/two-halls.js';

let halls: TwoHalls;
beforeAll(async () => {
  halls = await TwoHalls.open();
});
afterAll(() => halls.bench.close());

const change = (van: { id: string; version: number }, body: object) => halls.bench.network.patch(`${halls.incidentPath}/vehicles/${van.id}`, body, { 'if-match': `"${van.version}"` }).expect(200);

test('rides are said, shown in the layout, and keep their ids between the same sites', async () => {
  const van = await halls.van({ rides: null });
  expect(van).toMatchObject({ rides: null, runs: [] });
  const [out, back] = halls.rides;
  const said = (await change(van, { rides: [out], runs: [{ startsAt: '2026-05-09T08:00:00Z', endsAt: '2026-05-09T18:00:00Z' }] })).body;
  expect(said).toMatchObject({ version: 2, rides: [out], runs: [{ startsAt: '2026-05-09T08:00:00.000Z', endsAt: '2026-05-09T18:00:00.000Z' }] });
  const more = (await change(said, { rides: [back, { ...out, minutes: 45 }] })).body;
  expect(more.rides).toEqual([{ id: expect.any(String), ...back }, { ...out, minutes: 45, id: said.rides[0].id }]);
  expect(more.runs).toEqual(said.runs);
  const { body: layout } = await halls.bench.network.get(`${halls.incidentPath}/layout`).expect(200);
  expect(layout.vehicles).toEqual([more]);
  expect((await change(more, { rides: null, runs: [] })).body).toEqual({ ...more, rides: null, runs: [], version: 4 });
});
