import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const decide = (id: string, body: object) => bench.network.post(`/v1/uncollected/${id}/decisions`, { personId: bench.incident.person('P1'), decision: 'keep-longer', reason: 'They live out of town.', ...body });
const waiting = async (readyAt: string) => {
  const household = await bench.household();
  const quilt = await bench.takeIn(household);
  const { id } = (await bench.network.post(`/v1/households/${household.id}/uncollected`, { deciderId: bench.incident.person('P1'), readyAt }).expect(201)).body;
  return { household, quilt, id: id as string };
};

test('only the person named decides, only when the time has passed, and never to let anything go', async () => {
  const early = await waiting('2026-05-08T00:00:00Z');
  expect((await decide(early.id, {}).expect(422)).body.errors[0].code).toBe('too_early');
  const { id } = await waiting('2026-01-01T00:00:00Z');
  expect((await decide(id, { personId: bench.incident.person('P2') }).expect(422)).body.errors[0].code).toBe('not_the_decider');
  await decide(id, { decision: 'release' }).expect(400);
  await decide(id, { decision: 'dispose' }).expect(400);
});

test('what stays with us is waited for anew; the reason is sealed; disposal still asks for the owner of each item', async () => {
  const { id, household, quilt } = await waiting('2026-01-01T00:00:00Z');
  expect((await decide(id, { decision: 'store-elsewhere', reason: 'Doña Inés is in hospital.' }).expect(200)).body).toMatchObject({ state: 'decided', decision: 'store-elsewhere', due: null });
  expect((await decide(id, {}).expect(409)).body.code).toBe('already_exists');
  const { items } = (await bench.network.get(`/v1/incidents/${bench.incident.id}/uncollected?limit=200`).expect(200)).body;
  expect(items.filter((path: { householdId: string; state: string }) => path.householdId === household.id && path.state === 'open')).toHaveLength(1);
  const { rows } = await bench.server.admin.query('select to_jsonb(u)::text as row from uncollected u where id = $1', [id]);
  expect(rows[0].row).not.toContain('Inés');
  expect((await bench.network.post(`/v1/items/${quilt.id}/releases`, { to: 'disposed', personId: bench.incident.person('P1') }).expect(409)).body.code).toBe('consent_missing');
  expect(await bench.read(quilt.id)).toMatchObject({ stage: 'waiting' });
});
