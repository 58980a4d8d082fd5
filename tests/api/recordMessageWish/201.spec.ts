import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';
import { family, lookAtNews } from '../support/families.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const wish = (householdId: string, said: string) => bench.network.post(`/v1/households/${householdId}/message-wishes`, { wish: said, manner: 'spoken' });
const messages = async (householdId: string) => (await bench.network.get(`/v1/households/${householdId}/family-messages`).expect(200)).body.items as { template: string; state: string; automatic: boolean }[];

test('a family that has said nothing is told nothing by itself; after a yes it is told once of what is here', async () => {
  const home = await family(bench.network, bench.incident);
  for (let n = 0; n < 3; n += 1) await bench.takeIn(home);
  expect(await lookAtNews(bench.server, bench.network.networkId)).toBe(0);
  await wish(home.id, 'messages').expect(201);
  await wish(home.id, 'messages').expect(201);
  await bench.takeIn(home);
  expect(await lookAtNews(bench.server, bench.network.networkId)).toBe(1);
  expect(await messages(home.id)).toMatchObject([{ template: 'taken-in', state: 'waiting', automatic: true }]);
});

test('after a no nothing is queued, and a person who would send something is told to speak with them', async () => {
  const home = await family(bench.network, bench.incident);
  await wish(home.id, 'messages').expect(201);
  await wish(home.id, 'no-messages').expect(201);
  await bench.takeIn(home);
  await lookAtNews(bench.server, bench.network.networkId);
  const refused = await bench.network.post(`/v1/households/${home.id}/family-messages`, { template: 'ready' }).expect(422);
  expect(refused.body.errors[0].code).toBe('no_messages');
  expect(await messages(home.id)).toEqual([]);
});

test('nothing of a kind that the network has switched off is told', async () => {
  const etag = (await bench.network.get('/v1/calibration').expect(200)).headers['etag'] ?? '';
  await bench.network.put('/v1/calibration/messages/takenIn', { value: 0, reason: 'We tell them at the door.', personId: bench.incident.person('P1') }, { 'if-match': etag }).expect(200);
  const home = await family(bench.network, bench.incident);
  await wish(home.id, 'messages').expect(201);
  const item = await bench.takeIn(home);
  expect(await lookAtNews(bench.server, bench.network.networkId)).toBe(0);
  await bench.handBack(home, [item.id]).expect(201);
  await lookAtNews(bench.server, bench.network.networkId);
  expect((await messages(home.id)).map(({ template }) => template)).toEqual(['handed-back']);
});

test('a household that was erased is asked nothing more', async () => {
  const home = await family(bench.network, bench.incident);
  await bench.network.post(`/v1/households/${home.id}/erasures`, { personId: bench.incident.person('P1'), reason: 'owner-asked' }).expect(201);
  expect((await wish(home.id, 'messages').expect(409)).body.code).toBe('household_erased');
});
