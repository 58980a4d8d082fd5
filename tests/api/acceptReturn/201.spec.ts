import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { AidBench } from '../support/mutual-aid.js';

let bench: AidBench;
beforeAll(async () => {
  bench = await AidBench.open();
});
afterAll(() => bench.close());

test('it comes back under its own tag and record, and a look at it comes first', async () => {
  const { itemId, offerId, theirItemId } = await bench.lent();
  const back = (await bench.receiver.network.post(`/v1/aid-offers/${offerId}/returns`, {}).expect(201)).body.id;
  const to = { kind: 'holding', id: bench.giver.incident.holding('dirty') };
  expect((await bench.giver.network.post(`/v1/aid-offers/${back}/acceptances`, { siteId: bench.giver.incident.site(), tag: 'KBCD-FGH-42' })).body.code).toBe('command_refused');
  const { item } = (await bench.giver.network.post(`/v1/aid-offers/${back}/return-acceptances`, { to }).expect(201)).body;
  expect(item).toMatchObject({ id: itemId, stage: 'waiting', keeper: to, nextStep: 'assess' });
  const [mine, theirs] = [await bench.chainOf('giver', itemId), await bench.chainOf('receiver', theirItemId)];
  expect(mine.at(-1)).toMatchObject({ kind: 'referral-returned', refs: { aidOfferId: back, partnerHead: theirs.at(-1)?.hash === undefined ? '' : theirs.at(-2)?.hash } });
  expect(theirs.at(-1)).toMatchObject({ kind: 'hand-over-accepted', to: { kind: 'partner-network', id: bench.agreementId }, refs: { partnerHead: mine.at(-2)?.hash } });
  for (const side of ['giver', 'receiver'] as const) {
    const account = (await bench[side].network.get(`/v1/incidents/${bench[side].incident.id}/reconciliation`).expect(200)).body;
    expect(account).toMatchObject({ difference: 0, keepersOtherThanOne: [], chainFaults: [] });
  }
});

test('a return accepted twice at the same moment is accepted once', async () => {
  const { offerId, itemId } = await bench.lent();
  const back = (await bench.receiver.network.post(`/v1/aid-offers/${offerId}/returns`, {}).expect(201)).body.id;
  const to = { kind: 'holding', id: bench.giver.incident.holding('dirty') };
  const answers = await Promise.all([1, 2].map(() => bench.giver.network.post(`/v1/aid-offers/${back}/return-acceptances`, { to })));
  expect(answers.map(({ status }) => status).sort()).toEqual([201, 409]);
  expect((await bench.chainOf('giver', itemId)).filter(({ kind }) => kind === 'referral-returned')).toHaveLength(1);
});
