import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { deadlinesOf, durationTallies, promiseTally, quantile, startTally, stationChart, wayTally, WorkOnItems, type Beginning, type ForeseenStep, type ItemNow, type PlanGround, type ReportedStep } from '#application';

const MIN = 60_000;
const facts = (work: WorkOnItems, nowMs: number, toleranceMinutes = 15) => ({ work, nowMs, toleranceMinutes });
const planned = (itemId: string, startMin: number, change: Partial<ForeseenStep> = {}): ForeseenStep => ({ itemId, step: 'rinse', disposition: 'treat', startsAtMs: startMin * MIN, endsAtMs: (startMin + 20) * MIN, madeAtMs: 0, ...change });
const item = (id: string, change: Partial<ItemNow> = {}): ItemNow => ({ id, tagCode: 'BBBCBBB47', stage: 'waiting', keeper: { kind: 'holding', id: 'h' }, sinceMs: 0, disposition: 'treat', nextStep: 'rinse', stabilisedAtMs: null, ...change });
const report = (itemId: string, startMin: number | null, endMin: number, change: Partial<ReportedStep> = {}): ReportedStep => ({ itemId, step: 'rinse', outcome: 'done', stationId: 's', startedAtMs: startMin === null ? null : startMin * MIN, finishedAtMs: endMin * MIN, ...change });
const arrival = (itemId: string, atMin: number, change: Partial<Beginning> = {}): Beginning => ({ itemId, kind: 'work-started', placeId: 's', atMs: atMin * MIN, ...change });
const workOf = (items: ItemNow[], reported: ReportedStep[] = [], begun: Beginning[] = []) => new WorkOnItems({ items, reported, begun });

describe('planned beginnings', () => {
  test('are each counted once: in time, late, not yet, dropped, or without a known beginning', () => {
    const ids = ['early', 'on-time', 'late', 'waits', 'gone', 'unknown', 'ended-in-time', 'in-work'];
    const work = workOf(
      ids.map((id) => item(id, id === 'gone' ? { stage: 'handed-back' } : id === 'in-work' ? { stage: 'in-work', sinceMs: 100 * MIN } : {})),
      [report('early', 55, 70), report('on-time', 75, 90), report('late', 76, 90), report('unknown', null, 140), report('ended-in-time', null, 80)],
    );
    const tally = startTally([...ids.map((id) => planned(id, 60)), planned('later', 500)], facts(work, 200 * MIN));
    expect(tally).toEqual({ due: 8, onTime: 3, late: 2, startUnknown: 1, notYet: 1, dropped: 1, delayMinutes: { median: 15.5, p80: 25.6, of: 4 } });
    expect(tally.onTime + tally.late + tally.startUnknown + tally.notYet + tally.dropped).toBe(tally.due);
  });

  test('count by the first of several plans, so that planning anew hides no delay', () => {
    const work = workOf([item('a')], [report('a', 130, 150)]);
    const [first, second] = [planned('a', 60), planned('a', 130, { madeAtMs: 100 * MIN })];
    expect(startTally([first, second], facts(work, 200 * MIN))).toMatchObject({ due: 1, late: 1, delayMinutes: { median: 70 } });
    expect(startTally([second], facts(work, 200 * MIN))).toMatchObject({ due: 1, onTime: 1 });
  });

  test('are not held against work that had ended before their plan was made', () => {
    const work = workOf([item('a')], [report('a', 10, 30)]);
    expect(startTally([planned('a', 60, { madeAtMs: 40 * MIN })], facts(work, 200 * MIN))).toMatchObject({ onTime: 0, notYet: 1 });
  });

  test('never add up to more or fewer than were due, whatever was reported', () => {
    const ids = ['a', 'b', 'c', 'd'];
    const anyReport = fc.record({ itemId: fc.constantFrom(...ids), startMin: fc.option(fc.integer({ min: 0, max: 200 })), length: fc.integer({ min: 0, max: 90 }), outcome: fc.constantFrom('done', 'failed', 'dye-moved') }).map(({ itemId, startMin, length, outcome }) => report(itemId, startMin, (startMin ?? 50) + length, { outcome: outcome as ReportedStep['outcome'] }));
    fc.assert(fc.property(fc.array(fc.tuple(fc.constantFrom(...ids), fc.nat(300)), { maxLength: 12 }), fc.array(anyReport, { maxLength: 8 }), fc.nat(300), (plan, reports, now) => {
      const work = workOf(ids.map((id) => item(id)), reports.toSorted((a, b) => a.finishedAtMs - b.finishedAtMs));
      const { due, onTime, late, startUnknown, notYet, dropped, delayMinutes } = startTally(plan.map(([id, start]) => planned(id, start)), facts(work, now * MIN));
      expect(onTime + late + startUnknown + notYet + dropped).toBe(due);
      expect(due).toBe(new Set(plan.filter(([, start]) => start <= now).map(([id]) => id)).size);
      if (delayMinutes !== null) expect(delayMinutes.median).toBeLessThanOrEqual(delayMinutes.p80);
    }));
  });
});

describe('when work began', () => {
  test('is what was reported, else the arrival at that station after whatever ended before', () => {
    const begun = [arrival('a', 5), arrival('a', 40, { placeId: 'elsewhere' }), arrival('a', 50)];
    const work = workOf([item('a')], [report('a', null, 20, { step: 'stabilise' }), report('a', null, 70)], begun);
    expect(work.of('a', 'rinse', 0)).toEqual([{ startMs: 50 * MIN, endMs: 70 * MIN, failed: false }]);
    expect(workOf([item('a')], [report('a', null, 20, { step: 'stabilise' }), report('a', null, 45)], begun).of('a', 'rinse', 0)).toEqual([{ startMs: null, endMs: 45 * MIN, failed: false }]);
  });

  test('of drying is when it was hung', () => {
    const hung = [arrival('a', 30, { kind: 'drying-started', placeId: 'rack' })];
    expect(workOf([item('a', { stage: 'drying', sinceMs: 30 * MIN })], [], hung).of('a', 'dry', 0)).toEqual([{ startMs: 30 * MIN, endMs: null, failed: false }]);
    expect(workOf([item('a')], [report('a', null, 600, { step: 'dry', stationId: null })], hung).of('a', 'dry', 0)).toEqual([{ startMs: 30 * MIN, endMs: 600 * MIN, failed: false }]);
  });
});

test('minutes are told by step, of what ended well and whose beginning is known', () => {
  const work = workOf(['a', 'b', 'c', 'd'].map((id) => item(id)), [report('a', 60, 80), report('b', 60, 100), report('c', null, 100), report('d', 60, 65, { outcome: 'failed' })]);
  expect(durationTallies(['a', 'b', 'c', 'd'].map((id) => planned(id, 60)), facts(work, 200 * MIN))).toEqual([{ step: 'rinse', steps: 2, plannedMinutes: 40, actualMinutes: 60, plannedMedianMinutes: 20, actualMedianMinutes: 30 }]);
});

test('a thing follows its way once something was begun on it, and goes another when it shows another or has left', () => {
  const work = workOf([item('follows'), item('turned', { disposition: 'refer' }), item('waits', { disposition: 'refer' }), item('left', { stage: 'referred-out' })], [report('follows', 60, 80), report('turned', 60, 80)]);
  expect(wayTally(['follows', 'turned', 'waits', 'left'].map((id) => planned(id, 60)), facts(work, 200 * MIN))).toEqual({ followed: 1, otherWay: 2, notBegun: 1 });
});

describe('a referral that was planned', () => {
  const sent = { step: 'refer', disposition: 'refer', endsAtMs: 800 * MIN } as const;
  const away = (id: string) => item(id, { stage: 'referred-out', disposition: 'refer' });
  const work = workOf([away('in-time'), away('late'), item('here', { disposition: 'refer' })], [report('in-time', null, 70, { step: 'refer', stationId: null }), report('late', null, 120, { step: 'refer', stationId: null })]);
  const steps = ['in-time', 'late', 'here'].map((id) => planned(id, 60, sent));

  test('begins when the thing leaves, however long they have it', () => {
    expect(startTally(steps, facts(work, 200 * MIN))).toMatchObject({ due: 3, onTime: 1, late: 1, notYet: 1, dropped: 0, delayMinutes: { of: 2 } });
  });

  test('is the way that was planned once the thing has left by it, and no measure of our minutes', () => {
    expect(wayTally(steps, facts(work, 200 * MIN))).toEqual({ followed: 2, otherWay: 0, notBegun: 1 });
    expect(durationTallies(steps, facts(work, 200 * MIN))).toEqual([]);
  });
});

test('what was to be safe is held against the deadline that the plan reckoned with', () => {
  const problem = { originMs: 0, slotMinutes: 10, items: ['in-time', 'just', 'late', 'open', 'overdue'].map((id) => ({ id, deadlineSlot: id === 'open' ? 100 : 10 })) };
  const work = workOf([item('in-time', { stabilisedAtMs: 1 }), item('just', { stabilisedAtMs: 100 * MIN }), item('late', { stabilisedAtMs: 100 * MIN + 1 }), item('open'), item('overdue')]);
  const promised = problem.items.map(({ id }, i) => ({ itemId: id, weight: 10 ** i }));
  expect(promiseTally(promised, deadlinesOf({ problem } as unknown as PlanGround), facts(work, 150 * MIN))).toEqual({ promised: { items: 5, weight: 11111 }, inTime: { items: 2, weight: 11 }, late: { items: 1, weight: 100 }, open: { items: 2, weight: 11000 }, overdue: { items: 1, weight: 10000 } });
});

test('quantiles lie between the two nearest values', () => {
  expect([0, 0.5, 0.8, 1].map((share) => Math.round(quantile([0, 10, 20, 40, 100], share)))).toEqual([0, 20, 52, 100]);
  expect(quantile([7], 0.8)).toBe(7);
});

describe('the chart of a station', () => {
  const assignment = (itemId: string, startSlot: number, batchId: string | null = null) => ({ itemId, option: 0, position: 0, step: 'rinse', disposition: 'treat', batchId, stationId: 's', personIds: [], dryingPlaceId: null, freezerId: null, startSlot, endSlot: startSlot + 2 });
  const ground = (assignments: object[]): PlanGround => ({ problem: { originMs: 0, slotMinutes: 10, horizonSlots: 100, stations: [{ id: 's', capacity: 1, open: [{ from: 3, to: 30 }] }], fixed: [], items: [] }, plan: { assignments }, leftOut: [] }) as unknown as PlanGround;
  const chart = (assignments: object[], work: WorkOnItems, nowMin = 0) => stationChart({ stationId: 's', fromMs: 0, toMs: 400 * MIN, nowMs: nowMin * MIN, toleranceMinutes: 15, plan: { ground: ground(assignments), madeAtMs: 0, untilMs: 350 * MIN }, work, inWork: [] });

  test('shades what is not open as far as the plan places work', () => {
    expect(chart([], workOf([])).closed).toEqual([{ fromMs: 0, toMs: 30 * MIN }, { fromMs: 300 * MIN, toMs: 350 * MIN }]);
  });

  test('tells of a shared bath what asks for the most: in work while some are done and others not', () => {
    const three = [assignment('a', 5, 'b'), assignment('b', 5, 'b'), assignment('c', 5, 'b')];
    const items = ['a', 'b', 'c'].map((id) => item(id));
    const stateOf = (reported: ReportedStep[], nowMin: number) => chart(three, workOf(items, reported), nowMin).bars.map(({ state, items: of }) => [state, of.length]);
    expect(stateOf([], 0)).toEqual([['planned', 3]]);
    expect(stateOf([], 66)).toEqual([['late', 3]]);
    expect(stateOf([report('a', 50, 70)], 80)).toEqual([['in-work', 3]]);
    expect(stateOf(['a', 'b', 'c'].map((id) => report(id, 50, 70)), 80)).toEqual([['done', 3]]);
    expect(chart(three, workOf([item('a', { stage: 'released' }), item('b'), item('c')], ['b', 'c'].map((id) => report(id, 50, 70))), 80).bars[0]).toMatchObject({ state: 'done', items: [{ state: 'dropped' }, { state: 'done' }, { state: 'done' }] });
  });

  test('has a row more where more is planned at once than there are places, and drops nothing without saying so', () => {
    const many = Array.from({ length: 520 }, (_, i) => assignment(`i${i}`, i % 20));
    const found = chart(many, workOf(many.map(({ itemId }) => item(itemId))));
    expect(found.bars.length + found.leftOut).toBe(520);
    expect(found.lanes).toBeGreaterThan(1);
    for (const [i, a] of found.bars.entries()) for (const b of found.bars.slice(i + 1)) if (a.lane === b.lane) expect(a.toMs <= b.fromMs || b.toMs <= a.fromMs).toBe(true);
  });
});
