import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { RULE_BOOK_VERSION } from '#care';
import { takeInItem, THINGS_PER_CHUNK } from '#application';
import { newId } from '#platform';
import { reserveTestTags, takeInManyTestItems } from '#testing';
import { waitingRuns } from '../support/plan-requests.js';
import { Workbench } from '../support/workbench.js';
import { carryOut, choose, openRows, triages, versions } from './choices.support.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

/** lock_not_available (PostgreSQL 18, appendix A). */
const LOCK_NOT_AVAILABLE = '55P03';
const SHORT = `${RULE_BOOK_VERSION}+mould-clock=24h`;

test('everything that is still here is triaged anew, in chunks, with work that has begun on its way and a lead\'s choice standing; then a plan is asked for', async () => {
  const household = await bench.household();
  const many = await takeInManyTestItems(bench.server, bench.network, bench.incident, household, 120);
  const chosen = await bench.testedQuilt(household);
  await bench.network.post(`/v1/items/${chosen.id}/disposition-overrides`, { disposition: 'hold-frozen', reason: 'The tables are full until noon.', personId: bench.incident.person('P1') }).expect(201);
  const rinsed = await bench.testedQuilt(household);
  await bench.report(rinsed.id, 'rinse').expect(201);
  const gone = await bench.takeIn(household);
  await bench.handBack(household, [gone.id]).expect(201);

  await choose(bench, { 'mould-clock': '24h' });
  const [row, ...more] = await openRows(bench);
  if (row === undefined) throw new Error('nobody was told');
  expect(more).toEqual([]);
  await carryOut(bench, row);

  const now = await versions(bench);
  expect([...many, chosen.id, rinsed.id].filter((id) => now[id] !== SHORT)).toEqual([]);
  expect(now[gone.id]).toBe(RULE_BOOK_VERSION);
  expect(await bench.read(chosen.id)).toMatchObject({ disposition: 'hold-frozen', nextStep: 'wrap' });
  expect(await bench.read(rinsed.id)).toMatchObject({ disposition: 'treat', nextStep: 'blot' });
  expect(await openRows(bench)).toEqual([]);
  expect(await waitingRuns(bench.server, bench.incident.id)).toMatchObject([{ bells: 1 }]);
});

test('carried out twice, it is done once', async () => {
  await choose(bench, {});
  const [row] = await openRows(bench);
  if (row === undefined) throw new Error('nobody was told');
  const [before, behind] = [await triages(bench), Object.values(await versions(bench)).filter((version) => version === SHORT).length];
  expect(behind).toBeGreaterThan(100);
  // One waits for the other's things, on a busy machine longer than the database lets anybody wait: then it gives up, and its job begins anew.
  const outcomes = await Promise.allSettled([carryOut(bench, row), carryOut(bench, row)]);
  expect(outcomes.filter((outcome) => outcome.status === 'rejected' && outcome.reason.code !== LOCK_NOT_AVAILABLE)).toEqual([]);
  await carryOut(bench, row);
  expect(await triages(bench)).toBe(before + behind);
  expect(Object.values(await versions(bench)).filter((version) => version !== RULE_BOOK_VERSION)).toEqual([]);
});

test('broken off after some chunks, it goes on where it stopped', async () => {
  await choose(bench, { 'mould-clock': '24h' });
  const [row] = await openRows(bench);
  if (row === undefined) throw new Error('nobody was told');
  const [before, behind] = [await triages(bench), Object.values(await versions(bench)).filter((version) => version !== SHORT).length];
  await expect(carryOut(bench, row, 1)).rejects.toThrow('the worker was killed');
  expect(await triages(bench)).toBe(before + THINGS_PER_CHUNK);
  expect((await openRows(bench)).map(({ id }) => id)).toEqual([row.id]);
  await carryOut(bench, row);
  // One has left: nothing more is decided about it.
  expect(await triages(bench)).toBe(before + behind - 1);
});

test('a row whose decision was overtaken by a later one goes by the book in force', async () => {
  await choose(bench, { 'mould-clock': '72h' });
  await choose(bench, { 'mould-clock': '24h' });
  const [first, second] = await openRows(bench);
  if (first === undefined || second === undefined) throw new Error('nobody was told');
  await carryOut(bench, first);
  const [once, now] = [await triages(bench), await versions(bench)];
  expect(new Set(Object.values(now))).toEqual(new Set([RULE_BOOK_VERSION, SHORT]));
  await carryOut(bench, second);
  expect(await triages(bench)).toBe(once);
});

test('who was taking something in by the book of before is waited for, and the thing is caught up with', async () => {
  const household = await bench.household();
  const [tag = ''] = await reserveTestTags(bench.network, bench.incident, 1);
  const context = { networkId: bench.network.networkId, incidentLimit: null, principalId: newId(), requestId: 'test', traceparent: '' };
  const call = { context, env: { nowMs: bench.server.clock.nowMs(), newId: () => newId() } };
  let worker = Promise.resolve();
  const item = await bench.server.unitOfWork.write(context, async (stores) => {
    const before = await stores.ruleBook.inForce();
    await choose(bench, { 'coated-paper': '24h' });
    const [row] = await openRows(bench);
    if (row === undefined || before === null) throw new Error('nobody was told');
    const taken = await takeInItem(stores, call, {
      incidentId: bench.incident.id, householdId: household.id, siteId: bench.incident.site(), tag, count: 1, lot: false, description: 'Shirt', familyWords: '', photographRef: '',
      materialClass: 'textile-garment-3d', sizeClass: 'garment', significance: 'valued', arrivedAtMs: null, wettedAtMs: null, water: null, to: null,
    });
    expect((await stores.assessments.latestTriage(taken.id))?.result.ruleBookVersion).toBe(before.version);
    worker = carryOut(bench, row);
    await untilSomebodyWaits();
    return taken;
  });
  await worker;
  expect((await versions(bench))[item.id]).toBe(`${RULE_BOOK_VERSION}+coated-paper=24h`);
});

/** Until a transaction waits for the lock of another. */
async function untilSomebodyWaits(): Promise<void> {
  for (;;) {
    const { rows } = await bench.server.admin.query<{ n: number }>("select count(*)::int as n from pg_stat_activity where datname = current_database() and wait_event_type = 'Lock'");
    if ((rows[0]?.n ?? 0) > 0) return;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}
