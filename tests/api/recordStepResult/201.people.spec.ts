import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const listed = async (itemId: string) => (await bench.network.get(`/v1/incidents/${bench.incident.id}/unsuited-steps?limit=200`).expect(200)).body.items.filter((row: { itemId: string }) => row.itemId === itemId);

test('what was really done is recorded when a lead answers for it, and stays on the list with the reason', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  const override = { personId: bench.incident.person('P1'), reason: 'He was shown how this morning; the list of skills is behind.' };
  const done = await bench.report(quilt.id, 'wrap', 'done', { personId: bench.incident.person('P2'), override }).expect(201);
  expect(done.body.item).toMatchObject({ nextStep: 'freeze' });
  expect(done.body.changes.join(' ')).toMatch(/Kept on the list.*wrapping for the freezer/);
  expect(await listed(quilt.id)).toMatchObject([{ stepResultId: done.body.stepResultId, step: 'wrap', outcome: 'done', override, people: [{ personId: bench.incident.person('P2'), reasons: [{ code: 'skill_missing' }] }] }]);
});

test('the list is told in the language of its reader', async () => {
  const answer = await bench.network.get(`/v1/incidents/${bench.incident.id}/unsuited-steps`, { 'accept-language': 'es' }).expect(200);
  expect(answer.headers['content-language']).toBe('es');
  expect(answer.body.items[0].people[0].reasons[0]).toMatchObject({ text: expect.stringContaining('destreza'), source: { cite: expect.stringContaining('Calibración propia') } });
});

test('an override that is not needed changes nothing and lists nothing', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.report(quilt.id, 'rinse', 'done', { override: { personId: bench.incident.person('P1'), reason: 'To be on the safe side.' } }).expect(201);
  expect(await listed(quilt.id)).toEqual([]);
});

test.each(['mould-found', 'dye-moved', 'owner-must-decide', 'failed'])('%s is taken from everybody at once, and listed without a lead', async (outcome) => {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.report(quilt.id, 'rinse', outcome, { personId: (await bench.network.post(`/v1/incidents/${bench.incident.id}/people`, { siteId: bench.incident.site(), code: `X-${outcome}`, displayName: 'Passer-by', restrictions: ['under-age'] }).expect(201)).body.id }).expect(201);
  expect(await listed(quilt.id)).toMatchObject([{ outcome, override: null, people: [{ reasons: [{ code: 'skill_missing' }, { code: 'under_age' }] }] }]);
});

test('nothing on the list can be changed or taken away, not even by the owner of the database', async () => {
  for (const sql of ['delete from unsuited_step', "update unsuited_step set reason = 'nothing happened'", 'truncate unsuited_step']) await expect(bench.server.admin.query(sql)).rejects.toThrow('append-only');
});
