import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { ClaimDesks } from '../support/found-items.js';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
let desks: ClaimDesks;
beforeAll(async () => {
  bench = await Workbench.open();
  desks = await ClaimDesks.open(bench);
});
afterAll(() => bench.close());

const refer = (itemId: string, change: object = {}) => bench.network.post(`/v1/items/${itemId}/referrals`, { specialistId: bench.incident.specialist('SP1'), reason: 'Mould grows by the hour.', ownerUnknown: { decidedBy: desks.person('P1') }, ...change });
const packageOf = async (itemId: string) => (await bench.network.get(`/v1/items/${itemId}/referral-package`).expect(200)).body as { ownerUnknown: string[] };

test.each([[null, 'Nobody pays for it'], ['The relief fund', 'The relief fund pays for it']])('a lead sends a found thing to be stabilised; who pays is %s, and the package says so', async (payer, told) => {
  const { itemId } = await desks.found();
  const { body } = await refer(itemId, { ownerUnknown: { decidedBy: desks.person('P1'), payer } }).expect(201);
  expect(body).toMatchObject({ consentId: null, decidedBy: desks.person('P1'), payer, item: { stage: 'referred-out' } });
  const events = (await bench.network.get(`/v1/items/${itemId}/custody-events`).expect(200)).body.items as { refs: Record<string, string> }[];
  expect(events.at(-1)).toMatchObject({ kind: 'referred-out', refs: { decisionId: body.id, referralId: body.id } });
  expect(events.at(-1)?.refs).not.toHaveProperty('consentId');
  expect((await packageOf(itemId)).ownerUnknown).toEqual([expect.stringContaining('nobody knows its owner yet. Only make it stable'), expect.stringContaining(told)]);
  expect((await bench.network.get(`/v1/items/${itemId}/referral-package?language=es`)).status).toBeLessThan(500);
  await bench.network.post(`/v1/items/${itemId}/referral-returns`, { to: bench.holding('dirty') }).expect(201);
});

test('is refused, and nothing changes', async () => {
  const { itemId } = await desks.found();
  const before = await recordOf(bench, itemId);
  expect((await refer(itemId, { ownerUnknown: null }).expect(409)).body.code).toBe('consent_missing');
  expect((await refer(itemId, { ownerUnknown: { decidedBy: desks.person('P2') } }).expect(422)).body.errors[0].code).toBe('not_a_lead');
  await refer(itemId, { ownerUnknown: { decidedBy: desks.person('P1'), limit: 5 } }).expect(400);
  expect((await refer(itemId, { quoteId: itemId }).expect(422)).body.errors[0].code).toBe('owner_unknown');
  expect(await recordOf(bench, itemId)).toEqual(before);
});

test('what has an owner, and what is stable, waits for its owner', async () => {
  const theirs = await bench.takeIn(await bench.household());
  expect((await refer(theirs.id).expect(409)).body.code).toBe('owner_known');
  expect((await packageOf(theirs.id)).ownerUnknown).toEqual([]);
  const { itemId } = await desks.found();
  await bench.network.post(`/v1/items/${itemId}/custody-events`, { kind: 'frozen', from: bench.holding('dirty'), to: bench.freezer(), personId: desks.person('P2') }).expect(201);
  expect((await refer(itemId).expect(422)).body.errors[0].code).toBe('stabilised');
});
