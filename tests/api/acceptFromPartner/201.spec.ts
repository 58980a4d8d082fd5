import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { AidBench } from '../support/mutual-aid.js';

let bench: AidBench;
beforeAll(async () => {
  bench = await AidBench.open();
});
afterAll(() => bench.close());

test('the receiver holds it under a record of its own, and each record names the other by its hash', async () => {
  const { itemId, offerId } = await bench.offered();
  const accepted = await bench.accept(offerId);
  expect(accepted.status).toBe(201);
  const [mine, theirs] = [await bench.chainOf('giver', itemId), await bench.chainOf('receiver', accepted.body.item.id)];
  expect(mine.at(-1)).toMatchObject({ kind: 'hand-over-accepted', to: { kind: 'partner-network', id: bench.agreementId }, refs: { handOverId: offerId, partnerFirstHash: theirs[0]?.hash } });
  expect(theirs[0]).toMatchObject({ kind: 'taken-in', refs: { aidOfferId: offerId, originHead: mine.at(-2)?.hash } });
  expect((await bench.giver.network.get(`/v1/items/${itemId}`)).body).toMatchObject({ stage: 'referred-out', openHandOver: null });
  expect(accepted.body.item).toMatchObject({ stage: 'waiting', familyWords: '', keeper: { kind: 'holding' } });
});

test('what the owner allowed goes with it, what the owner refused too', async () => {
  const quilt = await bench.quilt([{ scope: 'refer', given: true, manner: 'spoken' }, { scope: 'freeze', given: false, manner: 'spoken' }]);
  const offerId = (await bench.offer(quilt.id).expect(201)).body.id;
  const { item } = (await bench.accept(offerId)).body;
  const frozen = await bench.receiver.network.post(`/v1/items/${item.id}/custody-events`, { kind: 'frozen', from: item.keeper, to: { kind: 'freezer', id: bench.receiver.incident.freezer('F1') }, personId: bench.receiver.incident.person('P1') });
  expect(frozen.body).toMatchObject({ code: 'consent_missing', scope: 'freeze' });
});

test('both networks find it in their audit, the giver without any id of the receiver’s', async () => {
  const { offerId } = await bench.lent();
  const audit = async (networkId: string) => (await bench.server.admin.query(`select operation, principal_id from audit_entry where network_id = $1 and subject_id = $2`, [networkId, offerId])).rows;
  expect(await audit(bench.receiver.network.networkId)).toMatchObject([{ operation: 'acceptFromPartner' }]);
  expect(await audit(bench.giver.network.networkId)).toEqual([{ operation: 'acceptFromPartner', principal_id: bench.agreementId }]);
});
