import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { waitingRuns } from '../support/plan-requests.js';
import { TwoHalls } from '../support/two-halls.js';

let halls: TwoHalls;
beforeAll(async () => {
  halls = await TwoHalls.open();
});
afterAll(() => halls.bench.close());

test('a vehicle whose rides nobody has said asks for no plan; one with rides and a load does', async () => {
  const { server, incident } = halls.bench;
  await halls.van({ code: 'V-PLAIN', rides: null });
  await halls.van({ code: 'V-NOLOAD', maxLoadKg: null });
  expect(await waitingRuns(server, incident.id)).toEqual([]);
  const van = await halls.van({ runs: [{ startsAt: '2026-05-09T08:00:00+02:00', endsAt: '2026-05-09T12:00:00Z' }] });
  expect(van).toMatchObject({ rides: halls.rides.map((ride) => ({ ...ride, id: expect.any(String) })), runs: [{ startsAt: '2026-05-09T06:00:00.000Z', endsAt: '2026-05-09T12:00:00.000Z' }], version: 1 });
  expect(await waitingRuns(server, incident.id)).toEqual([{ reason: 'vehicle VAN1 added', bells: 1, delayed: true }]);
});
