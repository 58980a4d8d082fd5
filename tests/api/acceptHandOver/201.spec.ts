import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { ALL_WELL, Carrying, openTwoSites } from '../support/carrying.js';
import type { Workbench } from '../support/workbench.js';

let bench: Workbench;
let carry: Carrying;
beforeAll(async () => {
  bench = await openTwoSites();
  carry = new Carrying(bench);
});
afterAll(() => bench.close());

test('the receiver keeps what was accepted; an exception stays with the giver', async () => {
  const household = await bench.household();
  const [first, second] = [await bench.takeIn(household), await bench.takeIn(household)];
  const crate = await carry.container();
  const shelf = await carry.shelf();
  const offered = (await carry.offer(shelf, { tags: [first.tag, second.tag, crate.tag] }).expect(201)).body;
  const { body } = await carry.answer(offered.id, 'acceptances', { personId: carry.person('P5'), exceptions: [{ tag: second.tag, kind: 'not-received', note: 'Not in the van' }] }).expect(201);
  expect(body).toMatchObject({ state: 'accepted', endedBy: carry.person('P5') });
  expect(body.lines.map(({ state, exception }: Record<string, unknown>) => [state, exception])).toEqual([['accepted', null], ['excepted', 'not-received'], ['accepted', null]]);
  expect(await bench.read(first.id)).toMatchObject({ keeper: shelf, openHandOver: null, stage: 'waiting' });
  expect(await bench.read(second.id)).toMatchObject({ keeper: second.keeper, openHandOver: null });
  expect((await carry.readContainer(crate.id)).keeper).toEqual(shelf);
  const chain = (await bench.network.get(`/v1/items/${first.id}/custody-events`).expect(200)).body.items;
  expect(chain.slice(-2).map(({ kind, refs }: { kind: string; refs: Record<string, string> }) => [kind, refs['handOverId'], refs['personId']])).toEqual([
    ['hand-over-offered', offered.id, carry.person('P2')], ['hand-over-accepted', offered.id, carry.person('P5')],
  ]);
  expect(await carry.reconciled()).toEqual(ALL_WELL);
});

test('named tags and exceptions must answer for everything, each once', async () => {
  const household = await bench.household();
  const [first, second, other] = [await bench.takeIn(household), await bench.takeIn(household), await bench.takeIn(household)];
  const { id } = (await carry.offer(await carry.shelf(), { tags: [first.tag, second.tag] }).expect(201)).body;
  const accept = (body: object) => carry.answer(id, 'acceptances', { personId: carry.person('P5'), ...body });
  expect((await accept({ accepted: [first.tag] }).expect(422)).body).toMatchObject({ code: 'command_refused', unanswered: [second.tag] });
  expect((await accept({ accepted: [first.tag, second.tag, other.tag] }).expect(422)).body.errors[0]).toMatchObject({ code: 'not_offered', pointer: '#/accepted/2' });
  expect((await accept({ accepted: [first.tag, second.tag], exceptions: [{ tag: second.tag, kind: 'damaged' }] }).expect(422)).body.errors[0].code).toBe('answered_twice');
  expect((await bench.read(first.id)).keeper).toEqual(first.keeper);
  await accept({ accepted: [second.tag, first.tag] }).expect(201);
});

test('a specialist receives by the consent of each owner, and the stay is on record as a referral', async () => {
  const item = await bench.testedQuilt(await bench.household());
  const specialist = { kind: 'specialist', id: bench.incident.specialist('SP1') };
  const { id } = (await carry.offer(specialist, { itemIds: [item.id] }, { reason: 'The dye moves' }).expect(201)).body;
  await carry.answer(id, 'acceptances', { personId: carry.person('P2') }).expect(201);
  expect(await bench.read(item.id)).toMatchObject({ keeper: specialist, stage: 'referred-out', disposition: 'refer', nextStep: null });
  const back = await bench.network.post(`/v1/items/${item.id}/referral-returns`, { to: bench.holding('dirty') }).expect(201);
  expect(back.body).toMatchObject({ reason: 'The dye moves', item: { stage: 'waiting', nextStep: 'assess' } });
});

test('a specialist does not receive what the owner has taken back since', async () => {
  const household = await bench.household();
  const item = await bench.takeIn(household);
  const { id } = (await carry.offer({ kind: 'specialist', id: bench.incident.specialist('SP1') }, { itemIds: [item.id] }).expect(201)).body;
  await bench.network.post(`/v1/households/${household.id}/consents`, { scope: 'refer', given: false, manner: 'spoken' }).expect(201);
  expect((await carry.answer(id, 'acceptances', { personId: carry.person('P2') }).expect(409)).body.code).toBe('consent_missing');
  expect(await bench.read(item.id)).toMatchObject({ keeper: item.keeper, openHandOver: { id } });
});
