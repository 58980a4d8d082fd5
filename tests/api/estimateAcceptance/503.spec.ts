import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { projectRoot } from '#platform';
import { startTestServer, type TestNetwork, type TestServer } from '#testing';
import { LARGEST_ACCEPTANCE } from '../support/large-acceptance.js';

const SMALL = { room: { volumeM3: 60, airTempC: 20, relativeHumidityPct: 60, outdoorTempC: 12, outdoorRelativeHumidityPct: 80 }, waiting: [{ kind: 'garment', count: 1 }] };
/** Long enough for a thread to begin on a busy machine, as that belongs to the time of its first question. */
const TIMEOUT_S = 15;
/** The largest question never ends: how long it takes without that, the machine decides. */
const ENDLESS = `
import { parentPort } from 'node:worker_threads';
parentPort.on('message', ({ question: { question } }) => { while (question.hanging.length === ${LARGEST_ACCEPTANCE.hanging.length}); });
`;
/** The thread as it is, which is asked after that. */
const THREAD = `
import './endless.mjs';
import ${JSON.stringify(pathToFileURL(join(projectRoot(), 'dist/apps/api/src/threads/acceptance.worker.js')).href)};
`;
let folder: string;
let server: TestServer;
let closed = false;
let network: TestNetwork;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'acceptance-'));
  const file = join(folder, 'thread.mjs');
  await writeFile(join(folder, 'endless.mjs'), ENDLESS);
  await writeFile(file, THREAD);
  server = await startTestServer({ threads: { file, threads: 1, places: 2, timeoutMs: TIMEOUT_S * 1_000, graceMs: 0 } });
  network = await server.network();
});
afterAll(async () => {
  if (!closed) await server.close();
  await rm(folder, { recursive: true });
});

const ask = (body: object, from = network) => from.post('/v1/estimates/acceptance', body);
async function atWork(): Promise<void> {
  while (server.acceptance.load.running === 0) await new Promise((resolve) => setTimeout(resolve, 5));
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
  expect(late.body).toMatchObject({ code: 'unavailable', detail: expect.stringContaining(`not reckoned within ${TIMEOUT_S} s. Ask about fewer things`) });
  expect(Number(late.headers['retry-after'])).toBeGreaterThan(0);

  expect((await ask(SMALL).expect(200)).body.waiting).toHaveLength(1);
}, 120_000);

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
