import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { calibrate, ClimateRangeError, dehumidifierPowerKw, mixedAcceptance, roomOutlook, roomPower, roomWhatIf, simulateRoom, type RoomChange, type WaitingGroup } from '#climate';
import { baseRoom, cottonThing, forty, machine, noMachines } from '../../reference/climate/worked-room.js';
import { number } from './arbitraries.js';

const ask = (changes: Record<string, RoomChange[]>, more: Partial<Parameters<typeof roomWhatIf>[0]> = {}) => roomWhatIf({ room: baseRoom, goods: [forty], whatIfs: Object.entries(changes).map(([id, list]) => ({ id, changes: list })), ...more });
const codes = (outcome: { advice: readonly { code: string }[] }): string[] => outcome.advice.map(({ code }) => code);

describe('what would change a room', () => {
  const { asItIs, outcomes } = ask({
    machine: [{ kind: 'add-dehumidifier', machine }],
    fan: [{ kind: 'fan', airSpeedMPerS: 1 }],
    'fewer things': [{ kind: 'take-off', group: 0, count: 10 }],
    closed: [{ kind: 'close-windows', airChangesPerH: 0.2 }],
    windows: [{ kind: 'open-windows', airChangesPerH: 4 }],
  }, { item: cottonThing });
  const by = (id: string) => outcomes.find((one) => one.id === id)!;

  test('a fan without machines behind it is warned of, not recommended: 90 % and one hour saved', () => {
    const fan = by('fan');
    expect(fan.recommended).toBe(false);
    expect(codes(fan)).toContain('fan-without-removal');
    expect(fan.peakRelativeHumidityPct).toBeCloseTo(90.5, 0);
    expect(fan.hoursSaved).toBeCloseTo(1.2, 1);
  });

  test('one more machine brings the room below its cap and makes room for more', () => {
    const more = by('machine');
    expect(codes(more)).toEqual(expect.arrayContaining(['brings-below-cap', 'worth-while']));
    expect(more.acceptable!.items).toBeGreaterThan(asItIs.acceptable!.items);
    expect(more.electricKw).toBeGreaterThan(asItIs.electricKw);
  });

  test('ranked: what keeps the limits and saves hours first; above the cap by humidity, so that the fan stands last', () => {
    expect(outcomes.slice(0, 3).every((one) => one.recommended && one.broken === null)).toBe(true);
    expect(outcomes[0]!.id).toBe('machine');
    expect(outcomes.slice(-2).map(({ id }) => id)).toEqual(['closed', 'fan']);
    expect(codes(by('closed'))).toContain('saves-little');
  });

  test('open windows cost heat, and that is said', () => {
    expect(codes(by('windows'))).toContain('needs-heat');
    expect(by('windows').heatToHoldKw).toBeGreaterThan(asItIs.heatToHoldKw + 1);
  });

  test('windows are never recommended unless outdoor air is drier by the margin', () => {
    fc.assert(fc.property(number(-5, 30), number(20, 100), number(1, 10), (outdoorTempC, outdoorRelativeHumidityPct, airChangesPerH) => {
      const room = { ...baseRoom, outdoorTempC, outdoorRelativeHumidityPct };
      const [open] = ask({ open: [{ kind: 'open-windows', airChangesPerH }] }, { room, stepH: 1 }).outcomes;
      const base = roomOutlook({ room, goods: [forty], stepH: 1 });
      const helps = base.warnings.some(({ code }) => code === 'windows-would-help');
      if (!helps) expect(open!.recommended).toBe(false);
      if (open!.recommended) expect(open!.steadyRelativeHumidityPct).toBeLessThan(base.steady.relativeHumidityPct);
    }), { numRuns: 25 });
  });

  test('things done together are reckoned together', () => {
    const [both] = ask({ both: [{ kind: 'fan', airSpeedMPerS: 1 }, { kind: 'add-dehumidifier', machine }, { kind: 'add-dehumidifier', machine }, { kind: 'add-dehumidifier', machine }, { kind: 'take-off', group: 0, count: 20 }] }).outcomes;
    expect(both!.recommended).toBe(true);
    expect(codes(both!)).not.toContain('fan-without-removal');
  });

  test.each([
    ['a group that is not there', { kind: 'take-off', group: 3, count: 1 }, /counted from 0/],
    ['more than there are', { kind: 'take-off', group: 0, count: 41 }, /has 40/],
    ['a gale', { kind: 'fan', airSpeedMPerS: 9 }, /2 m\/s/],
    ['an unknown change', JSON.parse('{"kind":"pray"}'), /pray/],
  ] as [string, RoomChange, RegExp][])('%s is refused', (_name, change, words) => {
    expect(() => ask({ x: [change] })).toThrow(ClimateRangeError);
    expect(() => ask({ x: [change] })).toThrow(words);
  });
});

describe('the outlook of a room', () => {
  const codesOf = (room: typeof baseRoom, goods = [forty]) => roomOutlook({ room, goods }).warnings.map(({ code }) => code);

  test('without machines: over the cap, mould before dry, and drier air outside', () => {
    const outlook = roomOutlook({ room: noMachines, goods: [forty], withinH: 96 });
    expect(outlook.warnings.map(({ code }) => code)).toEqual(['over-cap', 'mould-before-dry', 'not-dry-in-time', 'windows-would-help']);
    expect(outlook.goods[0]!.dryAtH).toBeCloseTo(75.36, 0);
  });

  test('a room that nothing leaves, and one that condenses', () => {
    const sealed = { ...noMachines, airChangesPerH: 0 };
    expect(codesOf(sealed)).toEqual(expect.arrayContaining(['nothing-leaves', 'over-cap', 'never-dry']));
    expect(codesOf({ ...noMachines, airTempC: 12, outdoorTempC: 28, outdoorRelativeHumidityPct: 90, airChangesPerH: 2 })).toEqual(expect.arrayContaining(['condensation', 'keep-windows-closed']));
  });

  test('a cool room frosts its machines; thick goods get a band and no number', () => {
    expect(codesOf({ ...baseRoom, airTempC: 10 })).toContain('machines-frost');
    const thick = roomOutlook({ room: baseRoom, goods: [{ ...forty, count: 5, build: 'thick' }], withinH: 200 });
    expect(thick.warnings.map(({ code }) => code)).toContain('thick-goods-band');
    expect(thick.goods[0]!.dryAtH).toBeNull();
    expect(thick.goods[0]!.latestH! / thick.goods[0]!.earliestH!).toBeGreaterThan(3);
  });

  test('a fan in a room that machines cannot keep up with: 90 % and one hour saved', () => {
    const fan = roomOutlook({ room: { ...baseRoom, airSpeedMPerS: 1 }, goods: [{ ...forty, airReach: 'fan-across' }] });
    const warning = fan.warnings.find(({ code }) => code === 'fan-without-removal');
    expect(warning?.values['hoursSaved']).toBeCloseTo(1.2, 1);
    expect(warning?.values['peakPct']).toBeCloseTo(90.5, 0);
    const enough = roomOutlook({ room: { ...baseRoom, airSpeedMPerS: 1, dehumidifiers: Array.from({ length: 8 }, () => machine) }, goods: [{ ...forty, airReach: 'fan-across' }] });
    expect(enough.warnings.map(({ code }) => code)).not.toContain('fan-without-removal');
  });

  test('a good room warns of nothing but what the weather allows', () => {
    expect(codesOf({ ...baseRoom, dehumidifiers: [machine, machine, machine] })).toEqual(['windows-would-help']);
  });
});

describe('electric power', () => {
  test('at its rating point a machine draws its litres over its litres per kWh', () => {
    expect(dehumidifierPowerKw({ ...machine, litresPerKwhAtRating: 2 }, { airTempC: 26.7, relativeHumidityPct: 60 })).toBeCloseTo(20 / 24 / 2, 9);
    expect(dehumidifierPowerKw(machine, { airTempC: 26.7, relativeHumidityPct: 60 }, calibrate({ litresPerKwhAtRating: 1 }))).toBeCloseTo(20 / 24, 9);
  });

  test('elsewhere by both published curves, and never near nothing while it runs', () => {
    // 20 C, 50 %: removal 0.514 of the label, energy factor 0.613 of it.
    expect(dehumidifierPowerKw({ ...machine, litresPerKwhAtRating: 2 }, { airTempC: 20, relativeHumidityPct: 50 })).toBeCloseTo((20 / 24 / 2) * 0.84, 2);
    fc.assert(fc.property(number(1, 40), number(5, 100), (airTempC, relativeHumidityPct) => {
      const kw = dehumidifierPowerKw({ ...machine, litresPerKwhAtRating: 2 }, { airTempC, relativeHumidityPct });
      expect(kw).toBeGreaterThanOrEqual(0.5 * (20 / 24 / 2) - 1e-12);
      expect(kw).toBeLessThanOrEqual(1.2 * (20 / 24 / 2) + 1e-12);
    }));
  });

  test('the nameplate, where given, is taken as it stands', () => {
    expect(dehumidifierPowerKw({ ...machine, electricPowerW: 480 }, { airTempC: 12, relativeHumidityPct: 90 })).toBe(0.48);
  });

  test('more than one circuit carries is said, and the electrician always', () => {
    const air = { airTempC: 20, relativeHumidityPct: 75 };
    const four = roomPower({ dehumidifiers: [machine, machine, machine, machine], ...air, fans: 2 });
    expect(four.circuitsAtLeast).toBe(2);
    expect(four.advice[0]).toMatchObject({ code: 'electric-load', text: expect.stringContaining('electrician') });
    expect(roomPower({ dehumidifiers: [machine], ...air }).advice[0]).toMatchObject({ code: 'electric-load-one-circuit', text: expect.stringContaining('electrician') });
    expect(roomPower({ dehumidifiers: [], ...air }).advice).toEqual([]);
  });
});

describe('many kinds at once, in the order of the caller', () => {
  const kind = (id: string, count: number, more: Partial<WaitingGroup> = {}): WaitingGroup => ({ ...cottonThing, id, count, rackM2PerItem: 1.5, ...more });
  const rows = (input: Parameters<typeof mixedAcceptance>[0]) => mixedAcceptance(input).rows.map((row) => [row.id, row.accepted, row.limitedBy]);

  test('what all fits is all taken', () => {
    const answer = mixedAcceptance({ room: baseRoom, waiting: [kind('a', 10), kind('b', 5)] });
    expect(answer.rows.map((row) => row.accepted)).toEqual([10, 5]);
    expect(answer.bindingLimit).toBeNull();
    expect(answer.allDryAtH).not.toBeNull();
  });

  test('the first in the order are served first, and what binds is named', () => {
    const answer = mixedAcceptance({ room: baseRoom, waiting: [kind('a', 20), kind('b', 30), kind('c', 10)] });
    // The worked room takes 34 of these below its cap.
    expect(answer.rows.map((row) => row.accepted)).toEqual([20, 14, 0]);
    expect(answer.bindingLimit).toBe('humidity-cap');
    expect(answer.peakRelativeHumidityPct!).toBeLessThanOrEqual(75);
  });

  test('a small thing may fit where a large one does not', () => {
    expect(rows({ room: baseRoom, waiting: [kind('covers', 34), kind('curtains', 2, { dryMassKg: 3, exposedAreaM2: 20 }), kind('napkins', 1, { dryMassKg: 0.05, exposedAreaM2: 0.1 })] })).toEqual([['covers', 34, null], ['curtains', 0, 'humidity-cap'], ['napkins', 1, null]]);
  });

  test('the rack is a limit of its own, shared by all', () => {
    const answer = mixedAcceptance({ room: baseRoom, freeRackM2: 12, waiting: [kind('a', 6), kind('b', 6)] });
    expect(answer.rows.map((row) => [row.accepted, row.limitedBy])).toEqual([[6, null], [2, 'rack-area']]);
    expect(answer.freeRackM2Left).toBeCloseTo(0, 9);
  });

  test('the answer holds: the room so filled keeps every limit', () => {
    fc.assert(fc.property(fc.array(fc.record({ count: fc.integer({ min: 1, max: 40 }), dryMassKg: number(0.2, 2), startX: number(0.5, 1.5), startDose: number(0, 0.9) }), { minLength: 1, maxLength: 4 }), (kinds) => {
      const waiting = kinds.map((one, i) => kind(`kind ${i}`, one.count, one));
      const answer = mixedAcceptance({ room: baseRoom, waiting, stepH: 0.5 });
      const hung = waiting.map((group, i) => ({ ...group, count: answer.rows[i]!.accepted })).filter((group) => group.count > 0);
      if (hung.length === 0) return;
      const run = simulateRoom(baseRoom, hung, { hours: 72, stepH: 0.5, promise: true });
      expect(run.allDryAtH).not.toBeNull();
      expect(run.peakRelativeHumidityPct).toBeLessThanOrEqual(75);
      for (const group of run.groups) expect(group.endDose).toBeLessThanOrEqual(1);
    }), { numRuns: 15 });
  });

  test.each([
    ['an id twice', [kind('a', 1), kind('a', 2)], /twice/],
    ['half a thing', [kind('a', 1.5)], /whole number/],
    ['a rack question without sizes', [kind('a', 1, { rackM2PerItem: undefined })], /rackM2PerItem/],
  ])('%s is refused', (_name, waiting, words) => {
    expect(() => mixedAcceptance({ room: baseRoom, waiting: waiting as WaitingGroup[], freeRackM2: 10 })).toThrow(words);
  });
});
