import { afterAll, beforeAll, beforeEach, expect, test } from '@jest/globals';
import { split } from '../splitLot/split.support.js';
import { waitingRuns } from '../support/plan-requests.js';
import { Workbench } from '../support/workbench.js';

const MORNING = Date.parse('2026-05-09T07:00:00Z');
const HOUR = 3_600_000;

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());
beforeEach(() => bench.server.clock.set(MORNING));

/** The hours pass; answers the moment that it is now. */
function later(hours: number): string {
  bench.server.clock.set(bench.server.clock.nowMs() + hours * HOUR);
  return new Date(bench.server.clock.nowMs()).toISOString();
}

/** A quilt that was rinsed, blotted and dried until the evening, with the steps after that. */
async function driedQuilt(...after: string[]): Promise<string> {
  const quilt = await bench.testedQuilt(await bench.household());
  for (const step of ['rinse', 'blot']) await bench.report(quilt.id, step).expect(201);
  await bench.hang(quilt.id);
  later(12);
  for (const step of ['dry', ...after]) await bench.report(quilt.id, step).expect(201);
  return quilt.id;
}

const look = (itemId: string, seen: object) => bench.network.post(`/v1/items/${itemId}/assessments`, { personId: bench.incident.person('P1'), ...seen });
const choose = (itemId: string, disposition: string) => bench.network.post(`/v1/items/${itemId}/disposition-overrides`, { disposition, reason: 'The tables are free.', personId: bench.incident.person('P1') });
const treatSteps = (body: { options: { disposition: string; steps: { step: string }[] }[] }) => body.options.find(({ disposition }) => disposition === 'treat')?.steps.map(({ step }) => step);

test('a roof that leaks onto a dried thing begins a new round: its clocks run from that hour, and it is rinsed, blotted and dried again', async () => {
  const itemId = await driedQuilt('check');
  expect(await bench.read(itemId)).toMatchObject({ urgency: 'can-wait', nextStep: 'wrap' });
  const leakedAt = later(10);
  later(1);
  const { body } = await look(itemId, { wetState: 'wet', wettedAt: leakedAt }).expect(201);
  expect(body).toMatchObject({ disposition: 'treat', nextStep: 'rinse', binding: 'mould', observed: { wetState: 'wet', wettedAt: leakedAt, allColoursTested: true, colourTests: [{ reading: 'no-transfer' }] } });
  const mould = body.clocks.find(({ damage }: { damage: string }) => damage === 'mould');
  expect(Date.parse(mould.deadlineAt)).toBe(Date.parse(leakedAt) + 48 * HOUR);
  expect(await bench.read(itemId)).toMatchObject({ stabilisedAt: null, stage: 'waiting' });
  expect(body.change.inWords.join(' ')).toContain('It got wet again, so a new round of work begins. Its colour tests stay. No longer done: rinse, blot, dry, feel for damp.');
  for (const step of ['rinse', 'blot']) await bench.report(itemId, step).expect(201);
  expect((await bench.report(itemId, 'dry').expect(409)).body.detail).toContain('began on a drying place');
  await bench.hang(itemId);
  expect((await bench.report(itemId, 'dry').expect(201)).body.item).toMatchObject({ nextStep: 'check', urgency: 'can-wait', stabilisedAt: expect.any(String) });
});

test('nobody knows when it got wet again: the hour counts at which a check last found it dry', async () => {
  const itemId = await driedQuilt('check');
  const checkedAt = new Date(bench.server.clock.nowMs()).toISOString();
  later(30);
  const { body } = await look(itemId, { wetState: 'dripping', seenAgain: { reason: 'The tub was dropped on it, nobody says when.' } }).expect(201);
  expect(body).toMatchObject({ nextStep: 'rinse', observed: { wetState: 'dripping', wettedAt: checkedAt } });
});

test('a new time of wetting without a word on how wet it is counts as not known, and not as dry', async () => {
  const itemId = await driedQuilt('check');
  const leakedAt = later(1);
  const { body } = await look(itemId, { wettedAt: leakedAt }).expect(201);
  expect(body.observed).toMatchObject({ wetState: 'unknown', wettedAt: leakedAt });
  expect(body.clocks.length).toBeGreaterThan(0);
});

test('what is still damp after its drying hangs again, is not rinsed again, and stays on the way that a lead chose', async () => {
  const itemId = await driedQuilt();
  await choose(itemId, 'treat').expect(201);
  const { body } = await look(itemId, { wetState: 'damp' }).expect(201);
  expect(body).toMatchObject({ nextStep: 'dry', override: { disposition: 'treat' } });
  expect(body.change.inWords.join(' ')).toContain('No longer done: dry.');
  expect(body.clocks.length).toBeGreaterThan(0);
  expect(await bench.read(itemId)).toMatchObject({ stabilisedAt: null });
});

test("a lead's choice for the round before is over, the answer says so, and a lead may repeat it", async () => {
  const itemId = await driedQuilt();
  await choose(itemId, 'treat').expect(201);
  const leakedAt = later(1);
  const { body } = await look(itemId, { wetState: 'wet', wettedAt: leakedAt }).expect(201);
  expect(body.override).toBeNull();
  expect(body.change.inWords.join(' ')).toContain('A lead chose to treat it here before this was known, so that choice is over. A lead who still wants it chooses it again.');
  const { body: reviewed } = await bench.network.get(`/v1/incidents/${bench.incident.id}/disposition-overrides`).expect(200);
  expect(reviewed.items.find((one: { itemId: string }) => one.itemId === itemId)).toMatchObject({ stands: false });
  await choose(itemId, 'treat').expect(201);
  expect((await look(itemId, { fragility: 'weak' }).expect(201)).body).toMatchObject({ disposition: 'treat', override: { disposition: 'treat' } });
});

test('the paper for the family says that it got wet again here', async () => {
  const household = await bench.household();
  const quilt = await bench.testedQuilt(household);
  const dryIt = async () => {
    for (const step of ['rinse', 'blot']) await bench.report(quilt.id, step).expect(201);
    await bench.hang(quilt.id);
    later(12);
    for (const step of ['dry', 'check', 'wrap']) await bench.report(quilt.id, step).expect(201);
  };
  await dryIt();
  await look(quilt.id, { wetState: 'wet', wettedAt: later(1) }).expect(201);
  await dryIt();
  const { body } = await bench.handBack(household, [quilt.id]).expect(201);
  const paper = await bench.network.get(`/v1/hand-backs/${body.id}/receipt`).expect(200);
  expect(paper.text.replaceAll(/\s+/g, ' ')).toContain('It got wet again while it was with us, and the work on it began anew.');
});

test('in Spanish too', async () => {
  const itemId = await driedQuilt();
  const leakedAt = later(1);
  const { body } = await bench.network.post(`/v1/items/${itemId}/assessments`, { personId: bench.incident.person('P1'), wetState: 'wet', wettedAt: leakedAt }, { 'Accept-Language': 'es' }).expect(201);
  expect(body.change.inWords.join(' ')).toContain('Se volvió a mojar, así que empieza una nueva ronda de trabajo.');
});

test('what gets wet again is planned for, and counts as safe no longer', async () => {
  const itemId = await driedQuilt();
  const safe = async () => (await bench.network.get(`/v1/incidents/${bench.incident.id}/situation-report`).expect(200)).body.stabilised.items as number;
  const before = await safe();
  await bench.server.admin.query("update plan_run set state = 'done' where state = 'queued'");
  await look(itemId, { wetState: 'wet', wettedAt: later(1) }).expect(201);
  expect(await safe()).toBe(before - 1);
  expect(await waitingRuns(bench.server, bench.incident.id)).toMatchObject([{ reason: expect.stringContaining('step') }]);
});

test('mould that is found on a thing that a check found dry is taken off and looked at again; with it off, the thing is safe again', async () => {
  const itemId = await driedQuilt('check');
  const { body } = await look(itemId, { mould: 'active' }).expect(201);
  expect(body).toMatchObject({ urgency: 'immediate' });
  expect(treatSteps(body)).toEqual(expect.arrayContaining(['surface-clean', 'check']));
  expect(treatSteps(body)).not.toContain('rinse');
  expect(await bench.read(itemId)).toMatchObject({ stabilisedAt: null });
  await choose(itemId, 'treat').expect(201);
  expect(await bench.read(itemId)).toMatchObject({ nextStep: 'surface-clean' });
  const override = { personId: bench.incident.person('P1'), reason: 'Nobody else has a mask that fits.' };
  expect((await bench.report(itemId, 'surface-clean', 'done', { override }).expect(201)).body.item).toMatchObject({ nextStep: 'check', stabilisedAt: expect.any(String) });
});

test('mould that is found before anybody checked that it is dry sends it to dry again, without water', async () => {
  const itemId = await driedQuilt();
  const { body } = await bench.report(itemId, 'check', 'mould-found').expect(201);
  expect(body.item).toMatchObject({ urgency: 'immediate', stabilisedAt: null, keeper: bench.holding('quarantine') });
  expect(body.changes).toContain('No longer done: dry.');
  expect((await choose(itemId, 'treat').expect(201)).body).toMatchObject({ nextStep: 'dry' });
});

test('mould that comes to light after a cleaning is cleaned off again, also when it is dead', async () => {
  const itemId = await driedQuilt('check');
  const override = { personId: bench.incident.person('P1'), reason: 'Nobody else has a mask that fits.' };
  await look(itemId, { mould: 'active' }).expect(201);
  await choose(itemId, 'treat').expect(201);
  await bench.report(itemId, 'surface-clean', 'done', { override }).expect(201);
  await look(itemId, { mould: 'none' }).expect(201);
  const { body } = await look(itemId, { mould: 'dry' }).expect(201);
  expect(body.nextStep).toBe('surface-clean');
});

test('a part of a lot that got wet again is as undone as the lot', async () => {
  const lot = await bench.testedQuilt(await bench.household(), { count: 6, sizeClass: 'garment' });
  for (const step of ['rinse', 'blot']) await bench.report(lot.id, step).expect(201);
  await bench.hang(lot.id);
  later(12);
  await bench.report(lot.id, 'dry').expect(201);
  await look(lot.id, { wetState: 'wet', wettedAt: later(1) }).expect(201);
  const { body } = await split(bench, lot.id, 2);
  expect(body.part).toMatchObject({ nextStep: 'rinse', stabilisedAt: null });
});
