import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { acceptanceEstimate } from '#application';
import { DEFAULT_CALIBRATION } from '#climate';
import { EstimateAcceptance, type Problem } from '#contracts';
import { startTestServer, type TestNetwork, type TestServer } from '#testing';
import { LARGEST_ACCEPTANCE } from '../support/large-acceptance.js';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer({ threads: { graceMs: 0 } });
  network = await server.network();
});
afterAll(() => server.close());

async function atWork(): Promise<void> {
  while (server.acceptance.load.running === 0) await new Promise((resolve) => setTimeout(resolve, 5));
}

test('no thread lives before somebody asks', () => {
  expect(server.acceptance.load).toEqual({ threads: 0, running: 0, waiting: 0 });
});

test('the thread answers what the sum answers in this one', async () => {
  const question = { ...LARGEST_ACCEPTANCE, room: { ...LARGEST_ACCEPTANCE.room, volumeM3: 300, dehumidifiers: LARGEST_ACCEPTANCE.room.dehumidifiers.slice(0, 1) }, hanging: LARGEST_ACCEPTANCE.hanging.slice(0, 3), waiting: LARGEST_ACCEPTANCE.waiting.slice(0, 3), withinH: 48 };
  const input = { question: EstimateAcceptance.parse(question), values: DEFAULT_CALIBRATION, nowMs: 0 };
  expect(await server.acceptance.estimate(network.networkId, input)).toEqual(acceptanceEstimate(input));
});

test('numbers that do not go together are refused by the thread with the words of the sum', async () => {
  const room = { ...LARGEST_ACCEPTANCE.room, outdoorTempC: 12 };
  const input = { question: EstimateAcceptance.parse({ ...LARGEST_ACCEPTANCE, room, hanging: [], waiting: LARGEST_ACCEPTANCE.waiting.slice(0, 1) }), values: { ...DEFAULT_CALIBRATION, roomCapPct: 101 }, nowMs: 0 };
  const refusal = await Promise.resolve().then(() => acceptanceEstimate(input)).catch((error: unknown) => error as Problem);
  expect(refusal).toMatchObject({ code: 'validation_failed', extras: { errors: [{ pointer: '#' }] } });
  await expect(server.acceptance.estimate(network.networkId, input)).rejects.toMatchObject({ code: 'validation_failed', detail: (refusal as Problem).detail, extras: (refusal as Problem).extras });
});

test('the process answers others while it reckons the largest acceptance that is taken', async () => {
  const order: string[] = [];
  const large = network.post('/v1/estimates/acceptance', LARGEST_ACCEPTANCE).then((answer) => (order.push('acceptance'), answer));
  await atWork();
  await network.as(null).get('/health/live').expect(200);
  order.push('alive');
  // Of another network, in another thread.
  const other = await server.network('Another network');
  const { waiting: [first] } = LARGEST_ACCEPTANCE;
  await other.post('/v1/estimates/acceptance', { room: LARGEST_ACCEPTANCE.room, waiting: [{ ...first, count: 1 }], withinH: 24 }).expect(200);
  order.push('another network');
  expect(order).toEqual(['alive', 'another network']);
  expect(server.acceptance.load).toMatchObject({ threads: 2, running: 1 });
  // It would take half a minute: its thread is ended in the middle of it.
  await server.acceptance.close();
  expect((await large).status).toBe(503);
});
