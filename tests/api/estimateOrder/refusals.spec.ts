import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

const order = (items: object[]) => network.post('/v1/estimates/order', { items, floodAt: '2026-05-08T18:00:00Z' });

test('contradictions of all things are named at once, each at its place', async () => {
  const { body } = await order([{ assessment: {} }, { assessment: { materialClass: 'metal-iron', fibre: 'silk' } }, { assessment: { wetState: 'dripping' }, doneSteps: ['dry'] }]).expect(422);
  expect(body.errors.map(({ pointer, code }: { pointer: string; code: string }) => `${pointer} ${code}`)).toEqual(['#/items/1/assessment/fibre fibre_of_no_textile', '#/items/2/assessment/wetState dripping_after_drying']);
});

test('two things of one name, and more than fifty, are refused', async () => {
  expect((await order([{ id: '2', assessment: {} }, { assessment: {} }]).expect(400)).body.errors[0].pointer).toBe('#/items/1/id');
  await order(Array.from({ length: 51 }, () => ({ assessment: {} }))).expect(400);
});
