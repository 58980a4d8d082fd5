import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { acceptanceEstimate } from '#application';
import { DEFAULT_CALIBRATION } from '#climate';
import { EstimateAcceptance, type Problem } from '#contracts';
import { startTestServer, type TestNetwork, type TestServer } from '#testing';
import { LARGEST_ACCEPTANCE } from '../support/large-acceptance.js';

let server: TestServer;
let network: TestNetwork;
let other: TestNetwork;
beforeAll(async () => {
  server = await startTestServer({ threads: { graceMs: 0 } });
  [network, other] = [await server.network(), await server.network('Another network')];
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
}, 120_000);

test('numbers that do not go together are refused by the thread with the words of the sum', async () => {
  const room = { ...LARGEST_ACCEPTANCE.room, outdoorTempC: 12 };
  const input = { question: EstimateAcceptance.parse({ ...LARGEST_ACCEPTANCE, room, hanging: [], waiting: LARGEST_ACCEPTANCE.waiting.slice(0, 1) }), values: { ...DEFAULT_CALIBRATION, roomCapPct: 101 }, nowMs: 0 };
  const refusal = await Promise.resolve().then(() => acceptanceEstimate(input)).catch((error: unknown) => error as Problem);
  expect(refusal).toMatchObject({ code: 'validation_failed', extras: { errors: [{ pointer: '#' }] } });
  await expect(server.acceptance.estimate(network.networkId, input)).rejects.toMatchObject({ code: 'validation_failed', detail: (refusal as Problem).detail, extras: (refusal as Problem).extras });
});

/** A small question, which is answered in no time. */
const small = () => ({ room: LARGEST_ACCEPTANCE.room, waiting: LARGEST_ACCEPTANCE.waiting.slice(0, 1).map((kind) => ({ ...kind, count: 1 })), withinH: 24 });

test('questions that two networks ask at the same moment are reckoned in two threads, and both are kept', async () => {
  const input = { question: EstimateAcceptance.parse(small()), values: DEFAULT_CALIBRATION, nowMs: 0 };
  const [one, two] = await Promise.all([network, other].map(({ networkId }) => server.acceptance.estimate(networkId, input)));
  expect(two).toEqual(one);
  expect(server.acceptance.load).toEqual({ threads: 2, running: 0, waiting: 0 });
});

// Both threads are there by now: to begin one may take as long on a busy machine as the largest question takes on a quick one.
test('the process answers others while it reckons the largest acceptance that is taken', async () => {
  const order: string[] = [];
  const large = network.post('/v1/estimates/acceptance', LARGEST_ACCEPTANCE).then((answer) => (order.push('acceptance'), answer));
  await atWork();
  await network.as(null).get('/health/live').expect(200);
  order.push('alive');
  // Of another network, in another thread.
  await other.post('/v1/estimates/acceptance', small()).expect(200);
  order.push('another network');
  expect(order).toEqual(['alive', 'another network']);
  expect(server.acceptance.load).toMatchObject({ threads: 2, running: 1 });
  // It would take a quarter of a minute and more: its thread is ended in the middle of it.
  await server.acceptance.close();
  expect((await large).status).toBe(503);
});
