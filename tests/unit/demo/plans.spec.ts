/** The work of a day planned in several ways. The incidents are invented; what is checked follows from what the words mean. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from '@jest/globals';
import { buildPlan, changedProblem, type PlanProblem, type ProblemChange } from '#planning';
import { generateIncident } from '#testing/salvage';
import { addByHand } from '../../../apps/ops/src/demo/plans/by-hand.js';
import { explanationLines } from '../../../apps/ops/src/demo/plans/explanations.js';
import { helpLines } from '../../../apps/ops/src/demo/plans/help.js';
import { clearProblems, type DayMoment, type KeptProblem, readMoments, threeMoments, writeProblem } from '../../../apps/ops/src/demo/plans/kept-problem.js';
import { planThreeWays, tableLines } from '../../../apps/ops/src/demo/plans/three-ways.js';

const { problem: crowded } = generateIncident({ preset: 'base', items: 120, seed: 5 });
const EMPTY = { sites: [], stations: [], rooms: [], places: [], freezers: [], specialists: [], rides: [], people: [], dehumidifiers: [] };

function keptAt(hour: number, problem: PlanProblem, network: KeptProblem['network'] = 'valley'): KeptProblem {
  return { network, atMs: Date.parse('2026-05-09T00:00:00Z') + hour * 3_600_000, timeZone: 'UTC', problem, layout: EMPTY, labels: [], dehumidifierGPerSlot: [] };
}

const some = (count: number): PlanProblem => ({ ...crowded, items: crowded.items.slice(0, count) });
const momentAt = (hour: number, count: number): DayMoment => ({ atMs: keptAt(hour, some(count)).atMs, kept: [keptAt(hour, some(count))] });

describe('the moments of the day', () => {
  test('are the busiest of the first day, one with half as much before it, and the last; the second day does not count', () => {
    const moments = [momentAt(8, 10), momentAt(10, 80), momentAt(12, 120), momentAt(20, 40), momentAt(33, 120)];
    expect(threeMoments(moments).map(({ atMs }) => new Date(atMs).getUTCHours())).toEqual([10, 12, 20]);
  });

  test('come back from their files as they were kept, the networks of a moment together', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'problems-'));
    try {
      await clearProblems(folder);
      const kept = [keptAt(10, some(3), 'bank'), keptAt(10, some(4), 'valley'), keptAt(12, some(5), 'valley')];
      for (const one of kept) await writeProblem(folder, one);
      expect(await readMoments(folder)).toEqual([{ atMs: kept[0]!.atMs, kept: kept.slice(0, 2) }, { atMs: kept[2]!.atMs, kept: kept.slice(2) }]);
    } finally {
      await rm(folder, { recursive: true });
    }
  });

  test('say what to do when nothing was kept', async () => {
    await expect(readMoments(join(tmpdir(), 'no-such-folder-of-problems'))).rejects.toThrow('--keep-problems');
  });
});

describe('planThreeWays', () => {
  const result = planThreeWays(momentAt(10, 120), { seed: 1, rounds: [0, 200], strands: 2, boundEffort: 0 });

  test('finds no way that saves more than the bound, nor more than there is', () => {
    expect(result.boundWeight).toBeLessThanOrEqual(result.weight);
    for (const { weightSaved, thingsSaved } of result.ways) {
      expect(weightSaved).toBeLessThanOrEqual(result.boundWeight);
      expect(thingsSaved).toBeLessThanOrEqual(result.things);
    }
  });

  test('shows more rounds no worse than the first plan, and the planner above the lists on this incident', () => {
    const [arrival, deadline, value, first, searched] = result.ways.map(({ weightSaved }) => weightSaved);
    expect(searched).toBeGreaterThanOrEqual(first!);
    expect(searched).toBeGreaterThan(Math.max(arrival!, deadline!, value!));
  });

  test('prints one line for each way and one for the bound', () => {
    expect(tableLines([result])).toHaveLength(2 + 5 + 1);
    expect(tableLines([result]).at(-1)).toContain(`${result.boundWeight} of ${result.weight}`);
  });
});

describe('addByHand', () => {
  const [person] = crowded.people;
  const [room] = crowded.rooms;
  const changes: [string, ProblemChange][] = [
    ['people', { kind: 'people', siteId: person!.siteId, count: 2, skills: person!.skills, restrictions: [], shifts: person!.shifts, fitUntilSlot: crowded.horizonSlots }],
    ['a place at a station', { kind: 'station-units', stationId: crowded.stations[0]!.id, units: 1 }],
    ['drying area', { kind: 'drying-area', roomId: room!.id, areaDm2: 1_000 }],
    ['a dehumidifier', { kind: 'room-air', roomId: room!.id, gPerSlot: 300, during: { from: 10, to: crowded.horizonSlots } }],
    ['a freezer', { kind: 'freezer', siteId: person!.siteId, volumeCl: 50_000, fromSlot: 12 }],
  ];

  test.each(changes)('with %s leaves as little late as the change of the planning library, and the problem as it was', (_, change) => {
    const before = JSON.stringify(crowded);
    const budget = { seed: 3, iterations: 100 };
    expect(buildPlan(addByHand(crowded, change), budget).objective).toEqual(buildPlan(changedProblem(crowded, [change]), budget).objective);
    expect(JSON.stringify(crowded)).toBe(before);
  });

  test('refuses what nobody is offered', () => {
    expect(() => addByHand(crowded, { kind: 'person-leaves', personId: person!.id, fromSlot: 0 })).toThrow('person-leaves');
  });
});

describe('what a coordinator is told of the day', () => {
  const kept: KeptProblem = { ...keptAt(7, crowded), atMs: crowded.originMs, dehumidifierGPerSlot: crowded.rooms.map(({ id }) => [id, 300]) };

  test('names what is short and what more would save, and finds the same on really adding it, but for plans that came out worse', () => {
    const lines = helpLines(kept, { seeds: [1, 2], iterations: 30 });
    const checked = lines.flatMap((line) => { const found = /told (-?\d+) \/ (-?\d+) \/ (-?\d+), found (-?\d+) \/ (-?\d+) \/ (-?\d+)/.exec(line); return found === null ? [] : [found.slice(1).map(Number)]; });
    expect(checked).toHaveLength(3);
    for (const [least, middle, greatest, ...found] of checked) expect(found.map((value) => Math.max(0, value))).toEqual([least, middle, greatest]);
    expect(checked.some(([, , greatest]) => greatest! > 0)).toBe(true);
    expect(lines[0]).toContain('not in time');
  });

  test('explains a thing that is left out and why one comes before another', () => {
    const lines = explanationLines(kept, 1, 30);
    expect(lines.some((line) => line.startsWith('- It is not in the plan: '))).toBe(true);
    expect(lines.filter((line) => line.endsWith(':')).length).toBeGreaterThanOrEqual(2);
  });
});
