import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestNetwork, type TestServer } from '#testing';

let folder: string;
let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'acceptance-'));
  const file = join(folder, 'breaks.mjs');
  await writeFile(file, "import { parentPort } from 'node:worker_threads'; parentPort.on('message', () => { throw new Error('secret of the inside'); });");
  server = await startTestServer({ threads: { file } });
  network = await server.network();
});
afterAll(async () => {
  await server.close();
  await rm(folder, { recursive: true });
});

test('a thread that breaks is answered with a problem that tells nothing of the inside, and the process goes on', async () => {
  const { body } = await network.post('/v1/estimates/acceptance', { room: { volumeM3: 60, airTempC: 20, relativeHumidityPct: 60, outdoorTempC: 12, outdoorRelativeHumidityPct: 80 }, waiting: [{ kind: 'garment', count: 1 }] }).expect(500);
  expect(body).toMatchObject({ code: 'internal', status: 500 });
  expect(JSON.stringify(body)).not.toContain('secret');
  await network.as(null).get('/health/live').expect(200);
});
