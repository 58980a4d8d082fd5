import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());
const dataOf = (id: string, client = bench.network as Pick<Workbench['network'], 'get'>) => client.get(`/v1/households/${id}/personal-data`);

test('holds every word that was said of the household and its things, and every row that names them', async () => {
  const lead = bench.incident.person('P1');
  const made = await bench.network.post(`/v1/incidents/${bench.incident.id}/households`, { code: 'HH-ALL', contact: { name: 'Family Zwirbelquist', phone: '0699-314159' }, consents: [{ scope: 'treat', given: true, manner: 'spoken', note: 'Said at the doorway' }] }).expect(201);
  const household = { id: made.body.id as string, code: 'HH-ALL' };
  const quilt = await bench.takeIn(household, { description: 'Quilt, blue', familyWords: 'Grandmother sewed it' });
  await bench.network.post(`/v1/items/${quilt.id}/custody-events`, { kind: 'moved', from: bench.holding('dirty'), to: bench.holding('clean'), personId: lead, reason: 'Wanted it clean' }).expect(201);
  await bench.network.post(`/v1/households/${household.id}/legal-holds`, { personId: lead, reason: 'A claim is announced' }).expect(201);
  const { body, text } = await dataOf(household.id).expect(200);
  for (const word of ['Family Zwirbelquist', '0699-314159', 'Said at the doorway', 'Quilt, blue', 'Grandmother sewed it', 'Wanted it clean', 'A claim is announced', 'HH-ALL']) expect([word, text.includes(word)]).toEqual([word, true]);
  expect(text).not.toMatch(/_sealed|"wrapped"|network_id/);

  // Held against the database itself: as many rows of each table as name the household or its thing.
  const { rows: tables } = await bench.server.admin.query<{ name: string; column: string }>(`select table_name as name, column_name as "column" from information_schema.columns where table_schema = 'public' and column_name in ('household_id', 'item_id')`);
  for (const name of new Set(tables.map((table) => table.name))) {
    if (body.leftOut.includes(name)) continue;
    const where = tables.filter((table) => table.name === name).map(({ column }) => (column === 'household_id' ? 'household_id = $1' : 'item_id = $2'));
    const { rows } = await bench.server.admin.query<{ count: number }>(`select count(*)::int as count from ${name} where ($1::uuid is not null and $2::uuid is not null) and (${where.join(' or ')})`, [household.id, quilt.id]);
    expect([name, body.held[name]?.length ?? 0]).toEqual([name, rows[0]?.count]);
  }
  expect(body.held.custody_event.length).toBe(2);
});

test('each look is in the audit, and nobody without the scope looks', async () => {
  const household = await bench.household();
  const { body: stranger } = await dataOf(household.id, bench.network.as(await bench.network.newKey({ scopes: ['household:read', 'household:write', 'item:read'] }))).expect(403);
  expect(stranger.code).toBe('scope_missing');
  await dataOf(household.id).expect(200);
  const { body } = await bench.network.get('/v1/audit-entries?limit=200').expect(200);
  expect(body.items.filter((entry: { operation: string; subjectId: string }) => entry.operation === 'getHouseholdData' && entry.subjectId === household.id)).toEqual([expect.objectContaining({ outcome: 'read', subjectKind: 'households' })]);
});

test('what is left after an erasure says that it was erased and nothing else', async () => {
  const household = await bench.household();
  await bench.network.post(`/v1/households/${household.id}/erasures`, { personId: bench.incident.person('P1'), reason: 'registered-in-error' }).expect(201);
  const { body, text } = await dataOf(household.id).expect(200);
  expect(body.erasure).toMatchObject({ reason: 'registered-in-error', items: 0 });
  expect(text).not.toContain('Contact of');
});
