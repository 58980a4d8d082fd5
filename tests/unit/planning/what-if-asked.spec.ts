import { describe, expect, test } from '@jest/globals';
import { buildProblem, type ChangeGround, type PlanInput, SlotGrid, SUGGESTED_DEHUMIDIFIER, toAskedChange, toProblemChange, tomorrowMorning, type WhatIfLayout } from '#application';
import { DEFAULT_PEOPLE_CALIBRATION } from '#care';
import { DEFAULT_CALIBRATION } from '#climate';
import { changedProblem, checkProblem, type ProblemChange } from '#planning';
import { input, MACHINE, room, SEVEN } from '../plan-problem/support/small-input.js';

const LAYOUT: WhatIfLayout = {
  sites: [], stations: [], rooms: [], places: [], freezers: [], specialists: [], rides: [], people: [],
  dehumidifiers: [{ id: 'machine', siteId: 'hall', code: 'D1', name: 'D1', roomId: 'room', running: true, ...MACHINE }, { id: 'idle', siteId: 'hall', code: 'D2', name: 'D2', roomId: 'room', running: false, ...MACHINE }],
};

function groundOf(change: Partial<PlanInput> = {}): ChangeGround {
  const rows = input({ rooms: [room({ id: 'room', running: [MACHINE] })], ...change });
  const { problem, windowSlots } = buildProblem(rows, { nowMs: SEVEN });
  return { input: rows, problem, windowSlots, grid: new SlotGrid(SEVEN, problem.slotMinutes, problem.horizonSlots), climate: DEFAULT_CALIBRATION, people: DEFAULT_PEOPLE_CALIBRATION, layout: LAYOUT };
}

const people = (shifts: { startsAt: string; endsAt: string }[], more: object = {}) => ({ kind: 'people' as const, siteId: 'hall', count: 1, skills: ['rinsing' as const], restrictions: [], respiratorFit: false, shifts, ...more });
const quarter = (hours: number) => hours * 4;

describe('changes as people ask for them', () => {
  test('people come in whole slots from now on, and never longer than anybody may work here', () => {
    const ground = groundOf();
    const shiftsOf = (startsAt: string, endsAt: string) => (toProblemChange(people([{ startsAt, endsAt }]), ground) as Extract<ProblemChange, { kind: 'people' }>).shifts;
    expect(shiftsOf('2026-05-09T08:05:00Z', '2026-05-09T12:00:00Z')).toEqual([{ from: 5, to: quarter(5) }]);
    expect(shiftsOf('2026-05-08T08:00:00Z', '2026-05-08T12:00:00Z')).toEqual([]);
    const [long] = shiftsOf('2026-05-09T08:00:00Z', '2026-05-11T08:00:00Z');
    expect(long!.to - long!.from).toBe(quarter(DEFAULT_PEOPLE_CALIBRATION.consecutiveHoursMax));
  });

  test('a respirator fit holds for all of the plan, or there is none', () => {
    const ground = groundOf();
    const fitOf = (respiratorFit: boolean) => (toProblemChange(people([{ startsAt: '2026-05-09T08:00:00Z', endsAt: '2026-05-09T12:00:00Z' }], { respiratorFit }), ground) as Extract<ProblemChange, { kind: 'people' }>).fitUntilSlot;
    expect([fitOf(true), fitOf(false)]).toEqual([ground.problem.horizonSlots, 0]);
  });

  test('a machine more or fewer is what the physics of the room says, slot by slot', () => {
    const ground = groundOf();
    const limit = (rows: PlanInput) => buildProblem(rows, { nowMs: SEVEN }).problem.rooms[0]!.removalGPerSlot[0]!.limit;
    const withOne = limit(ground.input);
    const withTwo = limit({ ...ground.input, rooms: [{ ...ground.input.rooms[0]!, running: [MACHINE, MACHINE] }] });
    const withNone = limit({ ...ground.input, rooms: [{ ...ground.input.rooms[0]!, running: [] }] });
    expect(withTwo).toBeGreaterThan(withOne);
    const during = { from: 0, to: ground.problem.horizonSlots };
    expect(toProblemChange({ kind: 'dehumidifier', dryingRoomId: 'room', ...MACHINE }, ground)).toEqual({ kind: 'room-air', roomId: 'room', gPerSlot: withTwo - withOne, during });
    expect(toProblemChange({ kind: 'dehumidifier-fails', dehumidifierId: 'machine' }, ground)).toEqual({ kind: 'room-air', roomId: 'room', gPerSlot: withNone - withOne, during });
    expect(toProblemChange({ kind: 'dehumidifier-fails', dehumidifierId: 'idle' }, ground)).toMatchObject({ gPerSlot: 0 });
  });

  test('a machine in a room too damp to dry anything is worth nothing there', () => {
    const ground = groundOf({ rooms: [room({ id: 'room', relativeHumidityPct: 97, running: [MACHINE] })] });
    expect(toProblemChange({ kind: 'dehumidifier', dryingRoomId: 'room', ...MACHINE }, ground)).toMatchObject({ gPerSlot: 0 });
  });

  test('litres, square metres and moments become those of the problem', () => {
    const ground = groundOf();
    const at = '2026-05-09T08:01:00Z';
    expect(toProblemChange({ kind: 'freezer', siteId: 'hall', volumeL: 500, at }, ground)).toEqual({ kind: 'freezer', siteId: 'hall', volumeCl: 50_000, fromSlot: 5 });
    expect(toProblemChange({ kind: 'drying-area', dryingRoomId: 'room', areaM2: -2.5 }, ground)).toEqual({ kind: 'drying-area', roomId: 'room', areaDm2: -250 });
    expect(toProblemChange({ kind: 'station-closed', stationId: 's', from: at, to: '2026-05-09T09:01:00Z' }, ground)).toEqual({ kind: 'station-closed', stationId: 's', closed: { from: 4, to: 9 } });
    expect(toProblemChange({ kind: 'station-open', stationId: 's', from: at, to: '2026-05-09T09:01:00Z' }, ground)).toEqual({ kind: 'station-open', stationId: 's', open: [{ from: 5, to: 8 }] });
    expect(toProblemChange({ kind: 'person-leaves', personId: 'p', at: '2020-01-01T00:00:00Z' }, ground)).toEqual({ kind: 'person-leaves', personId: 'p', fromSlot: 0 });
  });

  test('what is suggested is asked for in the same words and becomes the same change', () => {
    const ground = groundOf();
    const { gPerSlot } = toProblemChange({ kind: 'dehumidifier', dryingRoomId: 'room', ...SUGGESTED_DEHUMIDIFIER }, ground) as Extract<ProblemChange, { kind: 'room-air' }>;
    const changes: ProblemChange[] = [
      { kind: 'people', siteId: 'hall', count: 2, skills: ['rinsing'], restrictions: [], shifts: [{ from: 4, to: 20 }], fitUntilSlot: 0 }, { kind: 'station-units', stationId: 's', units: 1 }, { kind: 'drying-area', roomId: 'room', areaDm2: 1_000 },
      { kind: 'freezer', siteId: 'hall', volumeCl: 50_000, fromSlot: 0 }, { kind: 'room-air', roomId: 'room', gPerSlot, during: { from: 0, to: ground.problem.horizonSlots } },
    ];
    for (const change of changes) expect(toProblemChange(toAskedChange(change, ground.grid)!, ground)).toEqual(change);
    expect(toAskedChange({ kind: 'person-leaves', personId: 'p', fromSlot: 0 }, ground.grid)).toBeNull();
  });

  test('of a thing that is not there are refused', () => {
    const ground = groundOf();
    expect(() => toProblemChange({ kind: 'dehumidifier', dryingRoomId: 'x', ...MACHINE }, ground)).toThrow(RangeError);
    expect(() => toProblemChange({ kind: 'dehumidifier-fails', dehumidifierId: 'x' }, ground)).toThrow(RangeError);
  });

  test('make a problem that the planner takes, with any moment', () => {
    const ground = groundOf();
    for (const at of ['1991-01-01T00:00:00Z', '2026-05-09T07:00:00Z', '2026-05-12T11:11:11Z', '2199-01-01T00:00:00Z']) {
      const changes = [toProblemChange({ kind: 'freezer', siteId: 'hall', volumeL: 500, at }, ground), toProblemChange({ kind: 'dehumidifier', dryingRoomId: 'room', ...MACHINE, at }, ground)];
      expect(checkProblem(changedProblem(ground.problem, changes))).toEqual([]);
    }
  });
});

describe('tomorrow morning', () => {
  test('is from eight to noon of the next day by the clock of the network', () => {
    const hours = (nowMs: number, zone: string) => Object.values(tomorrowMorning(nowMs, zone)).map((ms) => new Date(ms).toISOString());
    expect(hours(SEVEN, 'UTC')).toEqual(['2026-05-10T08:00:00.000Z', '2026-05-10T12:00:00.000Z']);
    expect(hours(SEVEN, 'Europe/Berlin')).toEqual(['2026-05-10T06:00:00.000Z', '2026-05-10T10:00:00.000Z']);
    // Late in the evening in the west it is tomorrow there, not in Greenwich.
    expect(hours(Date.parse('2026-05-10T03:00:00Z'), 'America/Chicago')).toEqual(['2026-05-10T13:00:00.000Z', '2026-05-10T17:00:00.000Z']);
    expect(hours(SEVEN, 'Nowhere/Atall')).toEqual(['2026-05-10T08:00:00.000Z', '2026-05-10T12:00:00.000Z']);
  });
});
