import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestNetwork, type TestServer } from '#testing';
import { LARGEST_ACCEPTANCE } from '../support/large-acceptance.js';

const SMALL = { room: { volumeM3: 60, airTempC: 20, relativeHumidityPct: 60, outdoorTempC: 12, outdoorRelativeHumidityPct: 80 }, waiting: [{ kind: 'garment', count: 1 }] };
let server: TestServer;
let closed = false;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer({ threads: { threads: 1, places: 2, timeoutMs: 4_000, graceMs: 0 } });
  network = await server.network();
});
afterAll(async () => {
  if (!closed) await server.close();
});

const ask = (body: object, from = network) => from.post('/v1/estimates/acceptance', body);
async function atWork(): Promise<void> {
  while (server.acceptance.load.running === 0) await new Promise((resolve) => setTimeout(resolve, 5));
}

/** As a client does: again when it is told to. A thread starts within the time of its first question, which is short here. */
async function answered(body: object, tries = 10): Promise<Awaited<ReturnType<typeof ask>>> {
  const answer = await ask(body);
  return answer.status === 503 && tries > 1 ? answered(body, tries - 1) : answer;
}

test('a question more than there are places is refused with a time to ask again; one that takes too long is given up, and the next is answered', async () => {
  const large = ask(LARGEST_ACCEPTANCE).then((answer) => answer);
  await atWork();
  const refused = await ask(SMALL).expect(503);
  expect(refused.body).toMatchObject({ code: 'unavailable', status: 503, detail: expect.stringMatching(/Too many questions .* Ask again/) });
  expect(Number(refused.headers['retry-after'])).toBeGreaterThan(0);
  expect(refused.headers['content-type']).toMatch(/^application\/problem\+json/);

  const late = await large;
  expect(late.status).toBe(503);
  expect(late.body).toMatchObject({ code: 'unavailable', detail: expect.stringMatching(/not reckoned within 4 s\. Ask about fewer things/) });
  expect(Number(late.headers['retry-after'])).toBeGreaterThan(0);

  expect((await answered(SMALL)).body.waiting).toHaveLength(1);
});

test('the service stops with a question under way: it is refused, and no thread is left', async () => {
  const large = ask(LARGEST_ACCEPTANCE).then((answer) => answer);
  await atWork();
  closed = true;
  await server.close();
  const { status, body } = await large;
  expect(status).toBe(503);
  expect(body).toMatchObject({ code: 'unavailable', detail: expect.stringMatching(/being restarted/) });
  expect(server.acceptance.load).toEqual({ threads: 0, running: 0, waiting: 0 });
});
