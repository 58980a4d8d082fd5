import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';
import { changingNothing, printsOf, split } from './split.support.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('a tag that is tied already', async () => {
  const lot = await printsOf(bench, 10);
  expect(await changingNothing(bench, () => split(bench, lot.id, 4, { tag: lot.tag }))).toMatchObject({ status: 409, body: { code: 'tag_taken' } });
});

test('what was handed back, and what is with a specialist', async () => {
  const household = await bench.household();
  const home = await bench.takeIn(household, { count: 10, materialClass: 'photo-colour-print', sizeClass: 'print-10x15' });
  await bench.handBack(household, [home.id]).expect(201);
  expect(await changingNothing(bench, () => split(bench, home.id, 4))).toMatchObject({ status: 409, body: { code: 'item_terminal' } });
  const away = await printsOf(bench, 10);
  await bench.network.post(`/v1/items/${away.id}/referrals`, { specialistId: bench.incident.specialist('SP1'), reason: 'Stuck together.' }).expect(201);
  const refused = await changingNothing(bench, () => split(bench, away.id, 4));
  expect(refused).toMatchObject({ status: 409, body: { code: 'wrong_stage', stage: 'referred-out' } });
  expect(refused.body['detail']).toContain('referral-returned');
});

test('an incident that is closed', async () => {
  const lot = await printsOf(bench, 10);
  await bench.server.admin.query("update incident set state = 'closed' where id = $1", [bench.incident.id]);
  const answer = await bench.network.post(`/v1/incidents/${bench.incident.id}/items/${lot.id}/splits`, { count: 4, tag: 'BBBC-BBB-47' }, { 'if-match': `"${lot.version}"` });
  await bench.server.admin.query("update incident set state = 'open' where id = $1", [bench.incident.id]);
  expect(answer).toMatchObject({ status: 409, body: { code: 'incident_closed', detail: expect.stringContaining('Open it again') } });
});
