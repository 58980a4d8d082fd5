import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { RULE_BOOK_VERSION } from '#care';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const choose = (itemId: string, disposition: string, reason = 'The tables are full until noon.') =>
  bench.network.post(`/v1/items/${itemId}/disposition-overrides`, { disposition, reason, personId: bench.incident.person('P1') }).expect(201);

interface Listed {
  itemId: string;
  stands: boolean;
  ruleBookNow: { verdict: string; firstDisposition: string; barredBy: { ruleId: string; floor: boolean }[] };
}
const list = async (): Promise<Listed[]> => (await bench.network.get(`/v1/incidents/${bench.incident.id}/disposition-overrides`).expect(200)).body.items;

test('who chose what instead of what, when and why, and what became of the thing', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  const reason = '=HYPERLINK("x")\n\u202Enoon until full are tables The';
  await choose(quilt.id, 'hold-frozen', reason);
  await bench.report(quilt.id, 'wrap').expect(201);
  await bench.report(quilt.id, 'freeze', 'done', { to: bench.freezer() }).expect(201);
  const [first] = await list();
  expect(first).toMatchObject({
    itemId: quilt.id, tag: quilt.tag, disposition: 'hold-frozen', insteadOf: 'treat', ruleBookVersion: RULE_BOOK_VERSION, openNeeds: [], reason,
    decidedBy: { id: bench.incident.person('P1'), name: 'Lead one' }, decidedAt: '2026-05-09T07:00:00.000Z',
    // What it asked for is done: the next choice is a new one.
    stands: false, item: { stage: 'held-frozen', disposition: 'hold-frozen', stabilisedAt: expect.any(String) },
  });
});

test('the rule book of today agrees, differs, or bars the way with its floors named', async () => {
  const household = await bench.household();
  const [differs, barred, agrees] = [await bench.testedQuilt(household), await bench.testedQuilt(household), await bench.testedQuilt(household)];
  for (const { id } of [differs, barred]) await choose(id, 'hold-frozen');
  await choose(agrees.id, 'treat');
  // Suspected asbestos is found afterwards: work stops, and neither water nor freezer is open any more.
  await bench.assess(barred.id, { hazards: ['asbestos'] }).expect(201);
  const now = new Map((await list()).map((one) => [one.itemId, one]));
  expect(now.get(differs.id)).toMatchObject({ stands: true, ruleBookNow: { verdict: 'differs', firstDisposition: 'treat', barredBy: [] } });
  expect(now.get(agrees.id)?.ruleBookNow.verdict).toBe('agrees');
  expect(now.get(barred.id)?.ruleBookNow).toMatchObject({ verdict: 'barred', barredBy: [{ ruleId: 'hazard.asbestos', floor: true }] });
});

test('a choice that another one replaced is listed and does not stand', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await choose(quilt.id, 'hold-frozen', 'The tables are full.');
  await choose(quilt.id, 'treat', 'A table is free.');
  const ours = (await list()).filter(({ itemId }) => itemId === quilt.id);
  expect(ours.map(({ stands }) => stands)).toEqual([true, false]);
});

test("another network's incident answers 404", async () => {
  const stranger = await bench.server.network();
  await stranger.get(`/v1/incidents/${bench.incident.id}/disposition-overrides`).expect(404);
});
