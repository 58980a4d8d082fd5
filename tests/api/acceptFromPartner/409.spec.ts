import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { AidBench } from '../support/mutual-aid.js';

let bench: AidBench;
beforeAll(async () => {
  bench = await AidBench.open();
});
afterAll(() => bench.close());

test('accepted twice at the same moment it is accepted once', async () => {
  const { offerId, itemId } = await bench.offered();
  const answers = await Promise.all([bench.accept(offerId), bench.accept(offerId), bench.accept(offerId)]);
  expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409]);
  expect(answers.filter(({ status }) => status === 409).map(({ body }) => [body.code, body.state])).toEqual([['hand_over_not_open', 'accepted'], ['hand_over_not_open', 'accepted']]);
  expect((await bench.chainOf('giver', itemId)).filter(({ kind }) => kind === 'hand-over-accepted')).toHaveLength(1);
});

test('accepted and withdrawn at the same moment one of both happens, in both networks alike', async () => {
  for (let turn = 0; turn < 4; turn += 1) {
    const { offerId, itemId } = await bench.offered();
    const [accepted, withdrawn] = await Promise.all([bench.accept(offerId), bench.giver.network.post(`/v1/aid-offers/${offerId}/withdrawals`, {})]);
    expect([accepted.status === 201, withdrawn.status === 200].filter(Boolean)).toHaveLength(1);
    const { rows } = await bench.server.admin.query('select distinct state from aid_offer where id = $1', [offerId]);
    expect(rows).toEqual([{ state: accepted.status === 201 ? 'accepted' : 'withdrawn' }]);
    expect((await bench.giver.network.get(`/v1/items/${itemId}`)).body.stage).toBe(accepted.status === 201 ? 'referred-out' : 'waiting');
  }
});

test('the giver cannot accept its own offer, and a third network sees none', async () => {
  const { offerId } = await bench.offered();
  const before = await bench.records();
  expect((await bench.giver.network.post(`/v1/aid-offers/${offerId}/acceptances`, { siteId: bench.giver.incident.site(), tag: 'KBCD-FGH-42' })).body.code).toBe('command_refused');
  const third = await bench.server.network();
  expect((await third.post(`/v1/aid-offers/${offerId}/acceptances`, { siteId: bench.giver.incident.site(), tag: 'KBCD-FGH-42' })).body.code).toBe('not_found');
  expect(await bench.records()).toEqual(before);
});

test('an offer that has expired is not accepted', async () => {
  const { id } = await bench.quilt();
  const offerId = (await bench.offer(id, { expiresAt: new Date(bench.server.clock.nowMs() + 3_600_000).toISOString() }).expect(201)).body.id;
  const nowMs = bench.server.clock.nowMs();
  bench.server.clock.set(nowMs + 3_600_001);
  expect((await bench.accept(offerId)).body).toMatchObject({ code: 'hand_over_not_open', state: 'expired' });
  bench.server.clock.set(nowMs);
});

test('a tag that is not free is refused, and nothing changes in either network', async () => {
  const { offerId } = await bench.offered();
  const before = await bench.records();
  expect((await bench.accept(offerId, { tag: 'KBCD-FGH-43' })).body.code).toBe('tag_invalid');
  expect(await bench.records()).toEqual(before);
});
