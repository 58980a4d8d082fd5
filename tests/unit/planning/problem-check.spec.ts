import { describe, expect, test } from '@jest/globals';
import { buildPlan, checkProblem, MalformedPlanProblem, type PlanProblem } from '#planning';
import { freeze, item, SLOTS, smallProblem, treat } from './support/small.builder.js';
import { sharedAndMoved } from './violations/shared-and-moved.builder.js';

const begun = { itemId: 'before', step: 'dry' as const, stationId: null, personIds: [], dryingPlaceId: null, areaDm2: 0, loadGPerSlot: 0, freezerId: null, volumeCl: 0, interval: { from: 0, to: 5 } };

function sound(): PlanProblem {
  return structuredClone(smallProblem([item('a', { options: [treat, freeze] })], { fixed: [begun] }));
}

const FAULTS: [path: string, text: RegExp, (problem: PlanProblem) => void][] = [
  ['originMs', /whole number/, (p) => { p.originMs = 0.5; }],
  ['slotMinutes', /at least 1/, (p) => { p.slotMinutes = 0; }],
  ['horizonSlots', /at least 1, not -1/, (p) => { p.horizonSlots = -1; }],
  ['horizonSlots', /whole number, not NaN/, (p) => { p.horizonSlots = Number.NaN; }],
  ['stations[0].capacity', /at least 0/, (p) => { p.stations[0]!.capacity = -1; }],
  ['stations[0].open[0]', /end after it begins, but runs from 9 to 3/, (p) => { p.stations[0]!.open = [{ from: 9, to: 3 }]; }],
  ['stations[1].id', /"tub" is used twice/, (p) => { p.stations[1]!.id = 'tub'; }],
  ['people[0].id', /not be empty/, (p) => { p.people[0]!.id = ''; }],
  ['people[0].shifts[0].from', /at least 0/, (p) => { p.people[0]!.shifts = [{ from: -1, to: 3 }]; }],
  ['people[0].fitUntilSlot', /at least 0/, (p) => { p.people[0]!.fitUntilSlot = -1; }],
  ['items[0].options[0].steps[0].coolFromSlot', /whole number/, (p) => { p.items[0]!.options[0]!.steps[0]!.coolFromSlot = 0.5; }],
  ['rooms[0].removalGPerSlot[0].limit', /whole number/, (p) => { p.rooms[0]!.removalGPerSlot[0]!.limit = 1.5; }],
  ['rooms[0].removalGPerSlot', /two limits hold at slot 20/, (p) => { p.rooms[0]!.removalGPerSlot.push({ from: 20, to: 30, limit: 1 }); }],
  ['places[0].roomId', /names no drying room/, (p) => { p.places[0]!.roomId = 'attic'; }],
  ['places[0].areaDm2', /at least 0/, (p) => { p.places[0]!.areaDm2 = -4; }],
  ['freezers[0].volumeCl', /at most/, (p) => { p.freezers[0]!.volumeCl = 1e12; }],
  ['items[0].releaseSlot', /at least 0/, (p) => { p.items[0]!.releaseSlot = -1; }],
  ['items[0].deadlineSlot', /whole number/, (p) => { p.items[0]!.deadlineSlot = 2.5; }],
  ['items[0].weight', /at least 0/, (p) => { p.items[0]!.weight = -1; }],
  ['items', /scale the weights down/, (p) => { p.horizonSlots = 100_000; p.items = Array.from({ length: 1000 }, (_, i) => item(`i${i}`, { weight: 100_000_000 })); }],
  ['items[0].options[0].steps', /at least one step/, (p) => { p.items[0]!.options[0]!.steps = []; }],
  ['items[0].options[1].steps', /freeze only once: a thing that has thawed/, (p) => { p.items[0]!.options[1]!.steps.push(structuredClone(freeze.steps[0]!)); }],
  ['items[0].options[0].steps[0].durationSlots', /at least 1, not 0, for a step that needs a station/, (p) => { p.items[0]!.options[0]!.steps[0]!.durationSlots = 0; }],
  ['items[0].options[0].steps[1].durationSlots', /at least 1, not 0/, (p) => { p.items[0]!.options[0]!.steps[1]!.durationSlots = 0; }],
  ['items', /scale the weights down/, (p) => { p.tardinessCapSlots = 100_000; p.items = Array.from({ length: 1000 }, (_, i) => item(`i${i}`, { weight: 100_000_000 })); }],
  ['items[0].options[0].steps[0].crew', /at least 0/, (p) => { p.items[0]!.options[0]!.steps[0]!.crew = -1; }],
  ['items[0].options[0].steps[1].crew', /must be 0 while drying/, (p) => { p.items[0]!.options[0]!.steps[1]!.crew = 1; }],
  ['items[0].options[0].steps[1].drying.areaDm2', /at least 1/, (p) => { p.items[0]!.options[0]!.steps[1]!.drying!.areaDm2 = 0; }],
  ['items[0].options[0].steps[1].freezer', /null on a drying step/, (p) => { p.items[0]!.options[0]!.steps[1]!.freezer = { volumeCl: 1 }; }],
  ['items[0].options[1].steps[0].freezer.volumeCl', /at least 1/, (p) => { p.items[0]!.options[1]!.steps[0]!.freezer!.volumeCl = 0; }],
  ['fixed[0].stationId', /names no station of this problem: "x"/, (p) => { p.fixed[0]!.stationId = 'x'; }],
  ['fixed[0].personIds[0]', /names no person/, (p) => { p.fixed[0]!.personIds = ['x']; }],
  ['fixed[0].dryingPlaceId', /names no drying place/, (p) => { p.fixed[0]!.dryingPlaceId = 'x'; }],
  ['fixed[0].freezerId', /names no freezer/, (p) => { p.fixed[0]!.freezerId = 'x'; }],
  ['fixed[0].loadGPerSlot', /at least 0/, (p) => { p.fixed[0]!.loadGPerSlot = -1; }],
  ['fixed[0].interval', /end after it begins/, (p) => { p.fixed[0]!.interval = { from: 5, to: 5 }; }],
  ['fixed', /more areaDm2 in all/, (p) => { p.fixed = Array.from({ length: 10 }, () => ({ ...begun, areaDm2: 100_000_000 })); }],
];

/** Faults of the problem in which things share, freeze, travel and dry out, and have pins and a plan before. */
function wide(): PlanProblem {
  const { problem, plan } = sharedAndMoved();
  problem.items[2]!.pinned = plan.assignments.filter(({ itemId }) => itemId === 'c');
  return problem;
}

const steps = (p: PlanProblem, itemIndex: number) => p.items[itemIndex]!.options[0]!.steps;

const WIDE_FAULTS: [path: string, text: RegExp, (problem: PlanProblem) => void][] = [
  ['horizonSlots', /at most 100000, not 1051920, which is 21915 days of 30 minute slots; plan a nearer stretch of time or take longer slots/, (p) => { p.horizonSlots = 1_051_920; }],
  ['late', /must be "list" or "plan", not "never"/, (p) => { p.late = 'never' as 'list'; }],
  ['tardinessCapSlots', /at least 1, not 0/, (p) => { p.tardinessCapSlots = 0; }],
  ['tardinessCapSlots', /at most 100000/, (p) => { p.tardinessCapSlots = 100_001; }],
  ['services[0].kind', /must be "courier" or "specialist"/, (p) => { p.services![0]!.kind = 'dog' as 'courier'; }],
  ['services[0].capacity', /at least 0, not -1/, (p) => { p.services![0]!.capacity = -1; }],
  ['services[0].open[0]', /end after it begins/, (p) => { p.services![0]!.open = [{ from: 4, to: 4 }]; }],
  ['services[1].id', /"van" is used twice/, (p) => { p.services!.push(p.services![0]!); }],
  ['items[2].options[0].steps[2].services[0].serviceId', /names no service of this problem: "boat"/, (p) => { steps(p, 2)[2]!.services![0]!.serviceId = 'boat'; }],
  ['items[2].options[0].steps[2].services[0].serviceId', /names no service/, (p) => { delete p.services; }],
  ['items[2].options[0].steps[2].services[0].units', /at least 1, not 0/, (p) => { steps(p, 2)[2]!.services![0]!.units = 0; }],
  ['items[2].options[0].steps[2].services[1].serviceId', /already asked for by this step; add the units up/, (p) => { steps(p, 2)[2]!.services!.push({ serviceId: 'van', units: 1 }); }],
  ['items[2].options[0].steps[2].notAfterSlot', /whole number/, (p) => { steps(p, 2)[2]!.notAfterSlot = 1.5; }],
  ['items[2].options[0].steps[0].freezer.leastSlots', /at least 1, not 0/, (p) => { steps(p, 2)[0]!.freezer!.leastSlots = 0; }],
  ['items[2].options[0].steps[0].durationSlots', /at least 1, not 0/, (p) => { steps(p, 2)[0]!.crew = 1; }],
  ['items[2].options[0].steps[0].durationSlots', /at least 1, not 0/, (p) => { delete steps(p, 2)[0]!.noStation; }],
  ['items[2].options[0].steps[0].durationSlots', /at least 1, not 0/, (p) => { steps(p, 2)[0]!.services = [{ serviceId: 'van', units: 1 }]; }],
  ['items[2].options[0].steps[0].durationSlots', /at least 0, not -2/, (p) => { steps(p, 2)[0]!.durationSlots = -2; }],
  ['items[2].options[0].steps[3].siteId', /is school, but the item is at hall then; put a step "carry" before it/, (p) => { steps(p, 2)[2]!.step = 'wrap'; }],
  ['items[0].options[0].steps[0].batch.group', /must not be empty/, (p) => { steps(p, 0)[0]!.batch!.group = ''; }],
  ['items[0].options[0].steps[0].batch.units', /at least 1, not 0/, (p) => { steps(p, 0)[0]!.batch!.units = 0; }],
  ['items[0].options[0].steps[0].batch.units', /at most the 3 that may share it, not 4/, (p) => { steps(p, 0)[0]!.batch!.units = 4; }],
  ['items[0].options[0].steps[1].batch', /left out of a step that dries or freezes/, (p) => { steps(p, 0)[1]!.batch = { group: 'cotton', units: 1, mostUnits: 2 }; }],
  ['items[2].options[0].steps[0].batch', /left out of a step that dries or freezes/, (p) => { steps(p, 2)[0]!.batch = { group: 'cotton', units: 1, mostUnits: 2 }; }],
  ['items[0].options[0].steps[1].drying.falling[1].fromSlot', /later than that of the entry before, but 2 follows 2/, (p) => { steps(p, 0)[1]!.drying!.falling![1]!.fromSlot = 2; }],
  ['items[0].options[0].steps[1].drying.falling[1].loadGPerSlot', /must not rise.* but 4 follows 3/, (p) => { steps(p, 0)[1]!.drying!.falling![1]!.loadGPerSlot = 4; }],
  ['items[0].options[0].steps[1].drying.falling[0].loadGPerSlot', /must not rise.* but 7 follows 6/, (p) => { steps(p, 0)[1]!.drying!.falling![0]!.loadGPerSlot = 7; }],
  ['fixed[0].falling[0].loadGPerSlot', /must not rise/, (p) => { p.fixed = [{ ...begun, falling: [{ fromSlot: 1, loadGPerSlot: 1 }] }]; }],
  ['items[2].pinned', /leave it out for an item that is not pinned/, (p) => { p.items[2]!.pinned = []; }],
  ['items[2].pinned', /names no option of this item: 1/, (p) => { p.items[2]!.pinned!.forEach((one) => { one.option = 1; }); }],
  ['items[2].pinned', /each of the 4 steps of its route once, not 3 steps/, (p) => { p.items[2]!.pinned!.pop(); }],
  ['items[2].pinned', /holds step 2 twice/, (p) => { p.items[2]!.pinned![3] = p.items[2]!.pinned![2]!; }],
  ['items[2].pinned', /belongs to item "a", not to "c"/, (p) => { p.items[2]!.pinned![0]!.itemId = 'a'; }],
  ['items[2].pinned', /does not follow option 0 of the item at step 1/, (p) => { p.items[2]!.pinned![1]!.step = 'blot'; }],
  ['items[2].pinned', /does not follow option 0 of the item at step 2/, (p) => { p.items[2]!.pinned![2]!.disposition = 'refer'; }],
  ['items[2].pinned', /whole slots, but step 1 runs from 10.5 to 12/, (p) => { p.items[2]!.pinned![1]!.startSlot = 10.5; }],
  ['previous.holdBeforeSlot', /whole number/, (p) => { p.previous!.holdBeforeSlot = Number.NaN; }],
  ['previous.steps[0].startSlot', /whole number/, (p) => { p.previous!.steps[0]!.startSlot = 0.5; }],
  ['previous.steps[0]', /must not end before it begins, but runs from 15 to 14/, (p) => { p.previous!.steps[0]!.endSlot = 14; }],
  ['previous.steps[0].itemId', /must not be empty/, (p) => { p.previous!.steps[0]!.itemId = ''; }],
];

describe('a malformed problem', () => {
  test('is told from a sound one', () => {
    expect(checkProblem(sound())).toEqual([]);
  });

  test.each(FAULTS)('is refused at %s with a sentence matching %s', (path, text, spoil) => {
    const problem = sound();
    spoil(problem);
    const found = checkProblem(problem).find((fault) => fault.path === path && text.test(fault.text));
    expect(found).toBeDefined();
    expect(() => buildPlan(problem, { seed: 1, iterations: 0 })).toThrow(MalformedPlanProblem);
  });

  test.each(WIDE_FAULTS)('is refused at %s with a sentence that says %s', (path, text, spoil) => {
    const problem = wide();
    expect(checkProblem(problem)).toEqual([]);
    spoil(problem);
    expect(checkProblem(problem).filter((fault) => fault.path === path && text.test(fault.text))).not.toEqual([]);
    expect(() => buildPlan(problem, { seed: 1, iterations: 0 })).toThrow(MalformedPlanProblem);
  });

  test('is not one that names what has gone since: a ruled out station, a step or the station of a pin', () => {
    const problem = wide();
    steps(problem, 0)[0]!.barredStationIds = ['sold'];
    Object.assign(problem.previous!.steps[0]!, { itemId: 'handed back', stationId: 'sold', startSlot: -9, endSlot: -3 });
    Object.assign(problem.items[2]!.pinned![0]!, { freezerId: 'sold', startSlot: -3, endSlot: 0 });
    expect(checkProblem(problem)).toEqual([]);
  });

  test('is not one in which two routes end in the same way', () => {
    const problem = sound();
    problem.items[0]!.options.push(structuredClone(treat));
    expect(checkProblem(problem)).toEqual([]);
  });

  test('is refused with all its faults at once and a message that names the first', () => {
    const problem = sound();
    problem.slotMinutes = 0;
    problem.items[0]!.weight = -1;
    problem.places[0]!.roomId = 'attic';
    problem.stations[0]!.capacity = -1;
    expect(checkProblem(problem)).toHaveLength(4);
    expect(() => buildPlan(problem, { seed: 1, iterations: 0 })).toThrow('slotMinutes must be at least 1, not 0; stations[0].capacity must be at least 0, not -1; places[0].roomId names no drying room of this problem: "attic"; and 1 more.');
  });

  test.each([[{ seed: 1.5, iterations: 0 }], [{ seed: 2 ** 31, iterations: 0 }], [{ seed: 1, iterations: -1 }], [{ seed: 1, iterations: Number.POSITIVE_INFINITY }], [{ seed: 1, milliseconds: 0, nowMs: () => 0 }], [{ seed: 1, iterations: 1, orders: 0 }]])('is refused for the budget %p', (budget) => {
    expect(() => buildPlan(sound(), budget)).toThrow(MalformedPlanProblem);
  });

  test('is refused for fewer rounds at most than none', () => {
    expect(() => buildPlan(sound(), { seed: 1, milliseconds: 1, nowMs: () => 0, mostIterations: -1 })).toThrow(MalformedPlanProblem);
  });

  test('is not one whose uses began before the origin or whose calendars pass the horizon', () => {
    const problem = sound();
    problem.fixed[0]!.interval.from = -50;
    problem.stations[0]!.open = [{ from: 0, to: 10 * SLOTS }];
    problem.items[0]!.deadlineSlot = -3;
    expect(checkProblem(problem)).toEqual([]);
  });
});
