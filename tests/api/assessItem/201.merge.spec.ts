import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('what is left out stays as it was known, and the consents in force and the count of the lot come from the record', async () => {
  const household = await bench.household([{ scope: 'treat', given: true, manner: 'spoken' }, { scope: 'freeze', given: false, manner: 'written' }]);
  const lot = await bench.takeIn(household, { count: 40, materialClass: 'photo-colour-print', sizeClass: 'print-10x15', water: 'salt' });
  await bench.assess(lot.id, { water: undefined, fibre: undefined, fragility: 'weak' }).expect(201);
  const { body } = await bench.network.post(`/v1/items/${lot.id}/assessments`, { personId: bench.incident.person('P1'), onlyCopy: null }).expect(201);
  expect(body.observed).toMatchObject({ count: 40, materialClass: 'photo-colour-print', water: 'salt', fragility: 'weak', mould: 'none', onlyCopy: null, consents: { treat: true, freeze: false, refer: null, release: null } });
  expect(body).toMatchObject({ origin: 'person', assessedBy: bench.incident.person('P1'), askNext: null });
});

test('colour tests recorded before stay with a new assessment, and the look is not asked for again', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  const { body, headers } = await bench.assess(quilt.id, { fragility: 'weak' }).expect(201);
  expect(body.observed).toMatchObject({ allColoursTested: true, colourTests: [{ colour: 'red border', reading: 'no-transfer' }] });
  expect(body.nextStep).toBe('rinse');
  expect(headers['etag']).toBe(`"${(await bench.read(quilt.id)).version}"`);
});

test('a look that does not see the mould or the run dye does not unfind it; one that says otherwise, and why, does', async () => {
  const quilt = await bench.takeIn(await bench.household());
  await bench.assess(quilt.id, { mould: 'active', alreadyBled: true }).expect(201);
  const unseen = await bench.assess(quilt.id, { mould: 'unknown', alreadyBled: null }).expect(201);
  expect(unseen.body.observed).toMatchObject({ mould: 'active', alreadyBled: true });
  const denied = await bench.assess(quilt.id, { mould: 'none', alreadyBled: false, seenAgain: { reason: 'It was rust, seen under the lamp.' } }).expect(201);
  expect(denied.body.observed).toMatchObject({ mould: 'none', alreadyBled: false });
});

test("mould that comes to light ends a lead's earlier choice and asks for one new plan", async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.network.post(`/v1/items/${quilt.id}/disposition-overrides`, { disposition: 'treat', reason: 'The tables are free.', personId: bench.incident.person('P1') }).expect(201);
  const { body } = await bench.assess(quilt.id, { mould: 'active' }).expect(201);
  expect(body).toMatchObject({ disposition: 'hold-frozen', override: null });
  const { rows } = await bench.server.admin.query(`select count(*)::int as runs, (select count(*)::int from outbox where network_id = $1 and kind = 'plan.requested') as bells from plan_run where network_id = $1 and state = 'queued'`, [bench.network.networkId]);
  expect(rows).toEqual([{ runs: 1, bells: 1 }]);
});
