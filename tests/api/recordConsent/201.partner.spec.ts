import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { AidBench } from '../support/mutual-aid.js';

let bench: AidBench;
beforeAll(async () => {
  bench = await AidBench.open();
});
afterAll(() => bench.close());

const householdOf = async (itemId: string) => (await bench.giver.network.get(`/v1/items/${itemId}`).expect(200)).body.householdId as string;
const says = async (itemId: string, scope: string, given: boolean, change: object = {}, headers: Record<string, string> = {}) =>
  bench.giver.network.post(`/v1/households/${await householdOf(itemId)}/consents`, { scope, given, manner: 'spoken', itemId, ...change }, headers);
const matters = async (side: 'giver' | 'receiver', itemId: string) =>
  ((await bench[side].network.get(`/v1/incidents/${bench[side].incident.id}/family-matters?limit=100`).expect(200)).body.items as { kind: string; itemId: string; advice: string; step: string | null }[]).filter((matter) => matter.itemId === itemId);
const words = async (itemId: string) => (await bench.server.admin.query('select scope, given, manner, recorded_by from consent where item_id = $1 order by recorded_at, id', [itemId])).rows;
const startWork = async (itemId: string, kind: string, to: object) => {
  const { network, incident } = bench.receiver;
  const { keeper } = (await network.get(`/v1/items/${itemId}`).expect(200)).body;
  return network.post(`/v1/items/${itemId}/custody-events`, { kind, from: keeper, to, personId: incident.person('P1'), reason: 'Its turn.' });
};
/** Everything of a network that a word of somebody else's owner could have touched. */
const traces = async (networkId: string) => (await bench.server.admin.query(`select (select count(*)::int from consent where network_id = $1) as consents, (select count(*)::int from family_matter where network_id = $1) as matters, (select count(*)::int from outbox where network_id = $1) as outbox, (select count(*)::int from audit_entry where network_id = $1) as audit, (select count(*)::int from triage_result where network_id = $1) as triages`, [networkId])).rows[0];

test('a later no binds the partner that holds the thing: told once with its scope alone, and open for its lead', async () => {
  const { itemId, offerId, theirItemId } = await bench.lent();
  const key = { 'idempotency-key': newId() };
  const first = await says(itemId, 'freeze', false, { note: 'Aunt Roswitha is against it' }, key).then((answer) => answer);
  expect(first.status).toBe(201);
  expect((await says(itemId, 'freeze', false, { note: 'Aunt Roswitha is against it' }, key)).status).toBe(201);
  expect((await startWork(theirItemId, 'frozen', { kind: 'freezer', id: bench.receiver.incident.freezer('F1') })).body).toMatchObject({ code: 'consent_missing', scope: 'freeze' });
  expect((await words(theirItemId)).filter(({ given }) => given === false)).toEqual([{ scope: 'freeze', given: false, manner: 'written', recorded_by: bench.agreementId }]);
  const told = await matters('receiver', theirItemId);
  expect(told).toMatchObject([{ kind: 'partner-word', step: null, advice: expect.stringMatching(/^As its own network tells us, the owner of this thing now says no to its being frozen/) }]);
  expect(JSON.stringify(told)).not.toMatch(/Roswitha/);
  const { rows } = await bench.server.admin.query(`select principal_id from audit_entry where network_id = $1 and operation = 'recordConsent' and subject_id = $2`, [bench.receiver.network.networkId, offerId]);
  expect(rows).toEqual([{ principal_id: bench.agreementId }]);
  expect((await says(itemId, 'freeze', true)).status).toBe(201);
  expect((await matters('receiver', theirItemId)).map(({ advice }) => /says (yes|no)/.exec(advice)?.[1])).toEqual(['no', 'yes']);
  expect((await startWork(theirItemId, 'frozen', { kind: 'freezer', id: bench.receiver.incident.freezer('F1') })).status).toBe(201);
});

test('what is under way at the partner stops at a safe point, as at home', async () => {
  const { itemId, theirItemId } = await bench.lent();
  expect((await startWork(theirItemId, 'drying-started', { kind: 'drying-place', id: bench.receiver.incident.place('S1') })).status).toBe(201);
  expect((await says(itemId, 'treat', false)).status).toBe(201);
  expect((await matters('receiver', theirItemId)).map(({ kind, step }) => [kind, step])).toEqual(expect.arrayContaining([['consent-withdrawn', 'dry'], ['partner-word', null]]));
});

test('an answer to a question is told, too; a word about letting it go never is, nor one that does not count for this thing', async () => {
  const { itemId, theirItemId } = await bench.lent();
  const { body: asked } = await bench.giver.network.post(`/v1/items/${itemId}/questions`, { kind: 'treat' }).expect(201);
  await bench.giver.network.post(`/v1/owner-questions/${asked.id}/answers`, { answer: 'no', manner: 'spoken' }).expect(201);
  expect(await matters('receiver', theirItemId)).toHaveLength(1);
  const before = await traces(bench.receiver.network.networkId);
  expect((await says(itemId, 'release', true)).status).toBe(201);
  // The thing has a word of its own about treatment, before which a general one does not count.
  expect((await says(itemId, 'treat', true, { itemId: null })).status).toBe(201);
  expect(await traces(bench.receiver.network.networkId)).toEqual(before);
});

test('a general word of the household reaches every thing of it that is with the partner', async () => {
  const { itemId, theirItemId } = await bench.lent();
  expect((await says(itemId, 'freeze', false, { itemId: null })).status).toBe(201);
  expect(await matters('receiver', theirItemId)).toMatchObject([{ kind: 'partner-word' }]);
});

test('an owner who now refuses that it is sent away gets it home all the same; what is home again is told to nobody', async () => {
  const { itemId, offerId, theirItemId } = await bench.lent();
  expect((await says(itemId, 'refer', false)).status).toBe(201);
  const { body: back } = await bench.receiver.network.post(`/v1/aid-offers/${offerId}/returns`, { personId: bench.receiver.incident.person('P1') }).expect(201);
  await bench.giver.network.post(`/v1/aid-offers/${back.id}/return-acceptances`, { to: { kind: 'holding', id: bench.giver.incident.holding('dirty') } }).expect(201);
  const before = await matters('receiver', theirItemId);
  expect((await says(itemId, 'freeze', false)).status).toBe(201);
  expect(await matters('receiver', theirItemId)).toEqual(before);
});

test('a third network sees nothing of it; after the agreement was revoked neither does the partner, and somebody at home is to call', async () => {
  const third = await bench.server.network('Far Vale');
  await third.incident();
  const [untouched, { itemId, theirItemId }] = [await traces(third.networkId), await bench.lent()];
  expect((await says(itemId, 'treat', false)).status).toBe(201);
  expect(await traces(third.networkId)).toEqual(untouched);
  await third.get(`/v1/items/${theirItemId}`).expect(404);
  await bench.giver.network.post(`/v1/aid-agreements/${bench.agreementId}/revocations`, {}).expect(200);
  const before = await traces(bench.receiver.network.networkId);
  expect((await says(itemId, 'treat', true)).status).toBe(201);
  expect(await traces(bench.receiver.network.networkId)).toEqual(before);
  expect((await matters('giver', itemId)).map(({ kind }) => kind)).toContain('partner-not-told');
});
