import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
  server.clock.set(Date.parse('2026-05-09T12:00:00Z'));
});
afterAll(() => server.close());

test('listWeather answers 200 in the order of hours, of a kind and a span, by pages that join without a gap', async () => {
  const network = await server.network();
  const incident = await network.incident();
  const path = `/v1/incidents/${incident.id}/sites/${incident.site()}/weather`;
  const air = (hour: number) => ({ validAt: `2026-05-09T${String(hour).padStart(2, '0')}:00:00Z`, airTempC: hour, relativeHumidityPct: 80 });
  await network.post(path, { kind: 'observed', source: 'Office', records: [air(11), air(9), air(10)] }).expect(200);
  await network.post(path, { kind: 'forecast', source: 'Office', issuedAt: '2026-05-09T11:00:00Z', records: [air(12), air(13)] }).expect(200);
  const page = async (query: string) => (await network.get(`${path}?${query}`).expect(200)).body as { items: { airTempC: number }[]; nextCursor: string | null };
  const hours = async (query: string) => (await page(query)).items.map(({ airTempC }) => airTempC);
  expect(await hours('')).toEqual([9, 10, 11, 12, 13]);
  expect(await hours('kind=observed')).toEqual([9, 10, 11]);
  expect(await hours('from=2026-05-09T10:00:00Z&to=2026-05-09T12:00:00Z')).toEqual([10, 11]);
  const first = await page('limit=3');
  expect([...first.items, ...(await page(`limit=3&cursor=${encodeURIComponent(first.nextCursor ?? '')}`)).items].map(({ airTempC }) => airTempC)).toEqual([9, 10, 11, 12, 13]);
});
