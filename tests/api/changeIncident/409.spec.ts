import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { takeInItem } from '#application';
import { type IncidentOnTest, reserveTestTags, takeInTestHousehold, type TestNetwork } from '#testing';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const pathOf = (incident: IncidentOnTest) => `/v1/incidents/${incident.id}`;
const setState = async (state: string, network: TestNetwork = bench.network, incident = bench.incident) =>
  network.patch(pathOf(incident), { state }, { 'if-match': (await network.get(pathOf(incident)).expect(200)).headers['etag'] as string });

/** Waits until some transaction of the database waits for a lock; a test that never sees it times out. */
async function untilSomebodyWaits(): Promise<void> {
  for (;;) {
    const { rows } = await bench.server.admin.query<{ waiting: number }>("select count(*)::int as waiting from pg_stat_activity where datname = current_database() and wait_event_type = 'Lock'");
    if ((rows[0]?.waiting ?? 0) > 0) return;
    await pause(20);
  }
}

test('an incident is not closed while anything is held, wherever it is; the answer says how much, and nothing changes', async () => {
  const household = await bench.household();
  const [home, away, gone] = [await bench.takeIn(household), await bench.takeIn(household), await bench.takeIn(household)];
  await bench.network.post(`/v1/items/${away.id}/referrals`, { specialistId: bench.incident.specialist('SP1'), reason: 'The dye moves.' }).expect(201);
  await bench.handBack(household, [gone.id]).expect(201);
  const before = (await bench.network.get(pathOf(bench.incident)).expect(200)).body;
  const refused = await setState('closed');
  expect(refused.status).toBe(409);
  expect(refused.body).toMatchObject({ code: 'items_held', held: 2, byStage: { waiting: 1, 'referred-out': 1 } });
  expect(refused.body.detail).toMatch(/^2 things .*1 referred-out, 1 waiting/);
  expect((await bench.network.get(pathOf(bench.incident))).body).toEqual(before);

  await bench.network.post(`/v1/items/${away.id}/referral-returns`, { to: bench.holding('clean') }).expect(201);
  await bench.handBack(household, [home.id, away.id]).expect(201);
  expect(await setState('closed')).toMatchObject({ status: 200, body: { state: 'closed' } });
  // What is closed stays so under a change of another member, and opens again.
  expect((await bench.network.patch(pathOf(bench.incident), { place: 'Upper bank' }, { 'if-match': `"${before.version + 1}"` }).expect(200)).body.state).toBe('closed');
  expect((await setState('open')).status).toBe(200);
});

test('a thing that is being taken in while somebody closes the incident is waited for and counted', async () => {
  const network = await bench.server.network();
  const incident = await network.incident();
  const household = await takeInTestHousehold(network, incident);
  const [tag = ''] = await reserveTestTags(network, incident, 1);
  const context = { networkId: network.networkId, incidentLimit: null, principalId: newId(), requestId: 'test', traceparent: '' };
  const call = { context, env: { nowMs: bench.server.clock.nowMs(), newId: () => newId() } };
  const closing = await bench.server.unitOfWork.write(context, async (stores) => {
    await takeInItem(stores, call, {
      incidentId: incident.id, householdId: household.id, siteId: incident.site(), tag, count: 1, lot: false, description: 'Quilt', familyWords: '', photographRef: '',
      materialClass: 'textile-quilt-padded', sizeClass: 'double-quilt', significance: 'valued', arrivedAtMs: null, wettedAtMs: null, water: null, to: null,
    });
    const answer = setState('closed', network, incident).then((got) => ({ status: got.status, body: got.body }));
    await untilSomebodyWaits();
    return { answer };
  });
  expect(await closing.answer).toMatchObject({ status: 409, body: { code: 'items_held', held: 1 } });
});

test('a thing that comes while the incident is being closed waits for that and is refused', async () => {
  const network = await bench.server.network();
  const incident = await network.incident();
  const household = (await network.post(`${pathOf(incident)}/households`, { code: 'HH-late', contact: { name: 'Contact' } }).expect(201)).body;
  const [tag] = await reserveTestTags(network, incident, 1);
  const client = await bench.server.admin.connect();
  try {
    await client.query('begin');
    await client.query('select from incident where id = $1 for update', [incident.id]);
    await client.query("update incident set state = 'closed' where id = $1", [incident.id]);
    const arrival = network.post(`${pathOf(incident)}/items`, { householdId: household.id, siteId: incident.site(), tag, description: 'Quilt', sizeClass: 'double-quilt' }).then((got) => got.body);
    await untilSomebodyWaits();
    await client.query('commit');
    expect(await arrival).toMatchObject({ code: 'incident_closed' });
  } finally {
    client.release();
  }
  const { rows } = await bench.server.admin.query('select count(*)::int as items from item where incident_id = $1', [incident.id]);
  expect(rows).toEqual([{ items: 0 }]);
});
