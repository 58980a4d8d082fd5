import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { recordOf, Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('frozen and thawed: the freezer is named, the clocks stop with it, and the thaw opens a new round of work', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  // The plan may hold frozen what triage would rather treat: the station says on which way the step stood.
  const wrapped = await bench.report(quilt.id, 'wrap', 'done', { disposition: 'hold-frozen' }).expect(201);
  expect(wrapped.body).toMatchObject({ item: { disposition: 'hold-frozen', nextStep: 'freeze', stage: 'waiting' }, next: { step: 'freeze', zone: 'cold' } });
  const frozen = await bench.report(quilt.id, 'freeze', 'done', { to: bench.freezer() }).expect(201);
  expect(frozen.body).toMatchObject({ next: null, item: { stage: 'held-frozen', keeper: bench.freezer(), nextStep: null, urgency: 'can-wait' } });
  expect(frozen.body.item.stabilisedAt).not.toBeNull();
  const thawed = await bench.report(quilt.id, 'thaw').expect(201);
  expect(thawed.body.item).toMatchObject({ stage: 'waiting', stabilisedAt: null, disposition: 'treat', nextStep: 'rinse', keeper: bench.holding('dirty') });
  expect(thawed.body.item.urgency).not.toBe('can-wait');
});

test('without the word of the plan a step is still found on another way that is open', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  expect((await bench.report(quilt.id, 'wrap').expect(201)).body.item).toMatchObject({ disposition: 'hold-frozen', nextStep: 'freeze' });
});

test('drying ends where it hung, and its end stops the clocks', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.report(quilt.id, 'rinse').expect(201);
  await bench.report(quilt.id, 'blot').expect(201);
  const early = await bench.report(quilt.id, 'dry').expect(409);
  expect(early.body).toMatchObject({ code: 'wrong_stage' });
  expect(early.body.detail).toContain('drying-started');
  await bench.hang(quilt.id);
  const failed = await bench.report(quilt.id, 'dry', 'failed', { note: 'Damp in the middle.' }).expect(201);
  expect(failed.body.item).toMatchObject({ stage: 'drying', nextStep: 'dry' });
  expect((await bench.report(quilt.id, 'dry').expect(201)).body.item).toMatchObject({ stage: 'waiting', keeper: bench.holding('clean'), nextStep: 'check', urgency: 'can-wait' });
});

test('mould found on the rack brings the item from there to quarantine, and its route avoids water', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.report(quilt.id, 'rinse').expect(201);
  await bench.report(quilt.id, 'blot').expect(201);
  await bench.hang(quilt.id);
  const { body } = await bench.report(quilt.id, 'dry', 'mould-found').expect(201);
  expect(body.item).toMatchObject({ stage: 'waiting', keeper: bench.holding('quarantine'), urgency: 'immediate', disposition: 'hold-frozen' });
  expect(body.changes.join(' ')).toContain('in quarantine');
});

test('held wet: the step that holds it is its stabilisation', async () => {
  const costume = await bench.assessedQuilt(await bench.household(), { materialClass: 'textile-composite', sizeClass: 'garment', water: 'salt' });
  expect(await bench.read(costume.id)).toMatchObject({ disposition: 'hold-wet', nextStep: 'stabilise' });
  const { body } = await bench.report(costume.id, 'stabilise').expect(201);
  expect(body.item).toMatchObject({ stage: 'held-wet', nextStep: null });
  expect(body.item.stabilisedAt).not.toBeNull();
});

test('a failed step comes again, and the item waits where it goes on', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  await bench.startAt(quilt.id, 'RINSE');
  const failed = await bench.report(quilt.id, 'rinse', 'failed').expect(201);
  expect(failed.body).toMatchObject({ item: { nextStep: 'rinse', stage: 'waiting', keeper: bench.holding('dirty') }, planRunId: expect.any(String) });
  expect((await bench.report(quilt.id, 'rinse').expect(201)).body.item.nextStep).toBe('blot');
});

test('a question to the owner waits for the answer, through every look in between', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  const asked = await bench.report(quilt.id, 'rinse', 'owner-must-decide', { note: 'May we open the lining?' }).expect(201);
  expect(asked.body.item).toMatchObject({ waitingForOwner: true, disposition: 'treat' });
  const looked = await bench.assess(quilt.id).expect(201);
  expect(looked.body).toMatchObject({ waitingForOwner: true, observed: { consents: { treat: null, freeze: true } } });
  await bench.network.post(`/v1/households/${household.id}/consents`, { itemId: quilt.id, scope: 'treat', given: true, manner: 'spoken' }).expect(201);
  expect(await bench.read(quilt.id)).toMatchObject({ waitingForOwner: false, disposition: 'treat', nextStep: 'rinse' });
});

test('`to` is where it was put down, and a full freezer takes nothing: then nothing at all is recorded', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  await bench.startAt(quilt.id, 'RINSE');
  const { body } = await bench.report(quilt.id, 'rinse', 'done', { to: bench.holding('dirty') }).expect(201);
  expect(body.item.keeper).toEqual(bench.holding('dirty'));
  const lot = await bench.assessedQuilt(household, { materialClass: 'textile-flat-small', sizeClass: 'garment', count: 200 });
  await bench.report(lot.id, 'wrap', 'done', { disposition: 'hold-frozen' }).expect(201);
  const before = await recordOf(bench, lot.id);
  expect((await bench.report(lot.id, 'freeze', 'done', { to: bench.freezer() }).expect(409)).body.code).toBe('capacity_full');
  expect(await recordOf(bench, lot.id)).toEqual(before);
});

test('of two tablets that report one step at the same moment exactly one is taken', async () => {
  const quilt = await bench.testedQuilt(await bench.household());
  const answers = await Promise.all([bench.report(quilt.id, 'rinse'), bench.report(quilt.id, 'rinse')]);
  expect(answers.map((answer) => answer.status).sort()).toEqual([201, 409]);
  expect(answers.find((answer) => answer.status === 409)?.body).toMatchObject({ code: 'wrong_stage', nextStep: 'blot' });
});
