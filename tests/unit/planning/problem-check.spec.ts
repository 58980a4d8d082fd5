import { describe, expect, test } from '@jest/globals';
import { buildPlan, checkProblem, MalformedPlanProblem, type PlanProblem } from '#planning';
import { freeze, item, SLOTS, smallProblem, treat } from './support/small.builder.js';

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
  ['items[0].options[1].disposition', /already that of another option/, (p) => { p.items[0]!.options[1]!.disposition = 'treat'; }],
  ['items[0].options[0].steps', /at least one step/, (p) => { p.items[0]!.options[0]!.steps = []; }],
  ['items[0].options[1].steps', /freeze only once/, (p) => { p.items[0]!.options[1]!.steps.push(structuredClone(freeze.steps[0]!)); }],
  ['items[0].options[0].steps[0].durationSlots', /at least 1/, (p) => { p.items[0]!.options[0]!.steps[0]!.durationSlots = 0; }],
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

  test('is refused with all its faults at once and a message that names the first', () => {
    const problem = sound();
    problem.slotMinutes = 0;
    problem.items[0]!.weight = -1;
    problem.places[0]!.roomId = 'attic';
    problem.stations[0]!.capacity = -1;
    expect(checkProblem(problem)).toHaveLength(4);
    expect(() => buildPlan(problem, { seed: 1, iterations: 0 })).toThrow('slotMinutes must be at least 1, not 0; stations[0].capacity must be at least 0, not -1; places[0].roomId names no drying room of this problem: "attic"; and 1 more.');
  });

  test.each([[{ seed: 1.5, iterations: 0 }], [{ seed: 2 ** 31, iterations: 0 }], [{ seed: 1, iterations: -1 }], [{ seed: 1, iterations: Number.POSITIVE_INFINITY }]])('is refused for the budget %p', (budget) => {
    expect(() => buildPlan(sound(), budget)).toThrow(MalformedPlanProblem);
  });

  test('is not one whose uses began before the origin or whose calendars pass the horizon', () => {
    const problem = sound();
    problem.fixed[0]!.interval.from = -50;
    problem.stations[0]!.open = [{ from: 0, to: 10 * SLOTS }];
    problem.items[0]!.deadlineSlot = -3;
    expect(checkProblem(problem)).toEqual([]);
  });
});
