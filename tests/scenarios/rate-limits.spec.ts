import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

// RateLimit fields: IETF draft-ietf-httpapi-ratelimit-headers-10. 429 and Retry-After: RFC 6585, section 4, and RFC 9110, 10.2.3.

const PER_MINUTE = 10;
let server: TestServer;
beforeAll(async () => {
  server = await startTestServer({ ratePerMinute: PER_MINUTE });
});
afterAll(() => server.close());

const path = '/v1/incidents?limit=1';
/** `"principal";r=9;t=60` */
const remaining = (field: string, policy: string) => Number(new RegExp(`"${policy}";r=(\\d+);t=(\\d+)`).exec(field)?.[1] ?? Number.NaN);
const resetS = (field: string, policy: string) => Number(new RegExp(`"${policy}";r=(\\d+);t=(\\d+)`).exec(field)?.[2] ?? Number.NaN);

test('every answer says the quotas of network and key, and what is left of them', async () => {
  const network = await server.network();
  const first = await network.get(path).expect(200);
  expect(first.headers['ratelimit-policy']).toBe(`"network";q=${PER_MINUTE * 4};w=60, "principal";q=${PER_MINUTE};w=60`);
  const second = await network.get(path).expect(200);
  for (const policy of ['network', 'principal']) {
    expect(remaining(second.headers['ratelimit'] as string, policy)).toBe(remaining(first.headers['ratelimit'] as string, policy) - 1);
    expect(resetS(second.headers['ratelimit'] as string, policy)).toBeGreaterThan(0);
    expect(resetS(second.headers['ratelimit'] as string, policy)).toBeLessThanOrEqual(60);
  }
});

test('a key over its quota answers 429 with Retry-After and a problem that says which quota; nothing is done', async () => {
  const network = await server.network();
  for (let n = 0; n < PER_MINUTE; n += 1) await network.get(path).expect(200);
  const answer = await network.post('/v1/incidents', { name: 'Never' }).expect(429);
  expect(answer.headers['content-type']).toContain('application/problem+json');
  expect(answer.body).toMatchObject({ status: 429, code: 'rate_limited', type: 'https://iana.org/assignments/http-problem-types#quota-exceeded', 'violated-policies': ['principal'] });
  const waitS = Number(answer.headers['retry-after']);
  expect(waitS).toBeGreaterThan(0);
  expect(waitS).toBeLessThanOrEqual(60);
  expect(remaining(answer.headers['ratelimit'] as string, 'principal')).toBe(0);
  const { rows } = await server.admin.query('select count(*)::int as n from incident where network_id = $1', [network.networkId]);
  expect(rows[0].n).toBe(0);
});

test('another key of the network goes on, until the network itself is over its quota', async () => {
  const network = await server.network();
  for (let n = 0; n < PER_MINUTE; n += 1) await network.get(path).expect(200);
  await network.get(path).expect(429);
  const keys = await Promise.all(Array.from({ length: 3 }, () => network.newKey()));
  // Ten and the refused one are spent; the other keys share what is left of forty.
  let served = 0;
  for (const key of keys) {
    for (let n = 0; n < PER_MINUTE; n += 1) if ((await network.as(key).get(path)).status === 200) served += 1;
  }
  expect(served).toBe(PER_MINUTE * 4 - PER_MINUTE - 1);
  const refused = await network.as(await network.newKey()).get(path).expect(429);
  expect(refused.body['violated-policies']).toEqual(['network']);
});

test('another network is not affected', async () => {
  const [busy, quiet] = [await server.network(), await server.network()];
  for (let n = 0; n <= PER_MINUTE; n += 1) await busy.get(path);
  await busy.get(path).expect(429);
  const answer = await quiet.get(path).expect(200);
  expect(remaining(answer.headers['ratelimit'] as string, 'principal')).toBe(PER_MINUTE - 1);
});

test('a refused scope counts too, so that a key cannot be tried out without limit', async () => {
  const network = await server.network();
  const narrow = network.as(await network.newKey({ scopes: ['item:read'] }));
  for (let n = 0; n < PER_MINUTE; n += 1) await narrow.get(path).expect(403);
  await narrow.get(path).expect(429);
});

test('the health of the service is answered to a caller who is over the quota', async () => {
  const network = await server.network();
  for (let n = 0; n <= PER_MINUTE; n += 1) await network.get(path);
  await network.get(path).expect(429);
  await network.get('/health/live').expect(200);
});
