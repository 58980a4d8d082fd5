import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { ClaimDesks } from '../support/found-items.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
let desks: ClaimDesks;
beforeAll(async () => {
  bench = await Workbench.open();
  desks = await ClaimDesks.open(bench);
});
afterAll(() => bench.close());

test('a claim that was taken back has ended, once; the thing is still nobody\'s', async () => {
  const { itemId } = await desks.found();
  const claim = await desks.claim(itemId, (await bench.household()).id);
  const withdraw = () => bench.network.post(`/v1/ownership-claims/${claim.id}/withdrawal`, {});
  expect((await withdraw().expect(200)).body).toMatchObject({ state: 'withdrawn', reason: 'taken-back' });
  expect((await withdraw().expect(409)).body).toMatchObject({ code: 'claim_closed', state: 'withdrawn' });
  expect((await bench.network.get(`/v1/items/${itemId}/found-record`).expect(200)).body.ownerKnown).toBe(false);
});
