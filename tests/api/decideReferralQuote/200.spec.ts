import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

const LIMIT = { minor: 20_000, currency: 'USD' };
const specialistId = () => bench.incident.specialist('SP1');
const quote = async (itemId: string, minor: number, currency = 'USD') => (await bench.network.post(`/v1/items/${itemId}/referral-quotes`, { specialistId: specialistId(), amount: { minor, currency }, validUntil: '2026-06-30T00:00:00Z', work: 'Wet cleaning' }).expect(201)).body.id as string;
const decide = (id: string, decision = 'approve') => bench.network.post(`/v1/referral-quotes/${id}/decisions`, { decision });
const say = (household: { id: string }, itemId: string, limit: object | null, given = true) => bench.network.post(`/v1/households/${household.id}/consents`, { scope: 'refer', given, manner: 'spoken', itemId, ...(limit === null ? {} : { limit }) }).expect(201);
const agreedUpTo = async (limit: object | null) => {
  const household = await bench.household([{ scope: 'refer', given: true, manner: 'spoken', ...(limit === null ? {} : { limit }) }]);
  return { household, quilt: await bench.assessedQuilt(household) };
};

test('within the limit that the owner named: approved by it, to the cent; the item goes out by the offer and comes back', async () => {
  const { quilt } = await agreedUpTo(LIMIT);
  const id = await quote(quilt.id, 20_000);
  expect((await decide(id).expect(200)).body).toMatchObject({ state: 'approved', basis: 'consent-limit', version: 2 });
  const refer = (quoteId: string) => bench.network.post(`/v1/items/${quilt.id}/referrals`, { specialistId: specialistId(), reason: 'The dye moves.', quoteId });
  expect((await refer(id).expect(201)).body).toMatchObject({ quoteId: id, item: { stage: 'referred-out' } });
  expect((await bench.network.post(`/v1/items/${quilt.id}/referral-returns`, { to: bench.holding('dirty') }).expect(201)).body).toMatchObject({ quoteId: id });
  expect((await refer(id).expect(422)).body.errors[0].code).toBe('quote_used');
  const { items } = (await bench.network.get(`/v1/items/${quilt.id}/custody-events`).expect(200)).body;
  expect(items.find(({ kind }: { kind: string }) => kind === 'referred-out').refs).toMatchObject({ quoteId: id });
});

test('above the limit, in another currency or without a limit: the owner is asked, and the yes after the offer approves it', async () => {
  const { household, quilt } = await agreedUpTo(LIMIT);
  const dear = await quote(quilt.id, 20_001);
  expect((await decide(dear).expect(409)).body).toMatchObject({ code: 'consent_missing', scope: 'refer', amount: { minor: 20_001, currency: 'USD' }, limit: LIMIT });
  expect((await decide(await quote(quilt.id, 100, 'MXN')).expect(409)).body.code).toBe('consent_missing');
  await say(household, quilt.id, { minor: 20_001, currency: 'USD' });
  expect((await decide(dear).expect(200)).body).toMatchObject({ state: 'approved', basis: 'owner-asked' });
  const unlimited = await agreedUpTo(null);
  const offer = await quote(unlimited.quilt.id, 5_000);
  expect((await decide(offer).expect(409)).body.detail).toContain('named no limit');
  await say(unlimited.household, unlimited.quilt.id, null);
  expect((await decide(offer).expect(200)).body.basis).toBe('owner-asked');
});

test('a refusal of the owner, an offer that is over and a second decision are refused; what is not approved goes nowhere', async () => {
  const { household, quilt } = await agreedUpTo(LIMIT);
  const id = await quote(quilt.id, 100);
  const go = () => bench.network.post(`/v1/items/${quilt.id}/referrals`, { specialistId: specialistId(), reason: 'The dye moves.', quoteId: id });
  expect((await go().expect(422)).body.errors[0].code).toBe('quote_not_approved');
  await say(household, quilt.id, null, false);
  expect((await decide(id).expect(409)).body.detail).toContain('refused');
  await decide(id, 'decline').expect(200);
  expect((await decide(id).expect(409)).body.code).toBe('already_exists');
  const other = await agreedUpTo(LIMIT);
  const late = await quote(other.quilt.id, 100);
  bench.server.clock.set(Date.parse('2026-07-01T00:00:00Z'));
  expect((await decide(late).expect(422)).body.code).toBe('command_refused');
});
