import { describe, expect, test } from '@jest/globals';
import * as fc from 'fast-check';
import { airSigns, ALARM_CALIBRATION, ALARM_KINDS, alarmWords, calibrateAlarms, clockSigns, DEFAULT_ALARM_VALUES, freezerSigns, judgeAlarms, machineSigns, silenceOf, type AlarmEvidenceOf, type AlarmKind, type AlarmSubjectKind, type AnySign, type OpenAlarm, type Reporting } from '#application';
import { render } from '#care';
import { criticalHumidityPct } from '#climate';
import { at } from './room.support.js';

const SILENT_H = 3;
const LOGGED: Reporting = { everyMinutes: null, byHand: false };
const room = (relativeHumidityPct: number, airTempC = 20, measuredH = 0, reporting = LOGGED) => ({ id: 'room', humidityCapPct: 75, inUse: true, reporting, air: { airTempC, relativeHumidityPct, measuredAtMs: at(measuredH) } });
const verdictOf = (signs: readonly AnySign[], kind: AlarmKind) => signs.find((sign) => sign.kind === kind)?.verdict;
const freezer = (...readings: [minutes: number, tempC: number][]) => freezerSigns({ id: 'f', inUse: true, reporting: LOGGED, readings: readings.map(([minutes, tempC]) => ({ tempC, measuredAtMs: at(minutes / 60) })) }, at((readings.at(-1)?.[0] ?? 0) / 60));

/** Applies signs one after the other as the store does. */
function run(rounds: readonly (readonly AnySign[])[]): { open: OpenAlarm[]; raised: number; cleared: number } {
  let open: OpenAlarm[] = [];
  let [raised, cleared] = [0, 0];
  for (const signs of rounds) {
    const changes = judgeAlarms(open, signs);
    raised += changes.raise.length;
    cleared += changes.clear.length;
    const gone = new Set(changes.clear.map(({ id }) => id));
    open = [...open.filter(({ id }) => !gone.has(id)), ...changes.raise.map(({ kind, subject, severity }, i) => ({ id: `${raised}-${i}`, kind, subject, severity }))];
  }
  return { open, raised, cleared };
}

const anyHumidity = fc.array(fc.double({ min: 30, max: 99, noNaN: true }), { minLength: 1, maxLength: 40 });

describe('an alarm', () => {
  test('is never open twice of a kind about a thing, and is cleared at most as often as it was raised', () => {
    fc.assert(fc.property(anyHumidity, (course) => {
      const { open, raised, cleared } = run(course.map((rh, i) => airSigns(room(rh, 20, i / 4), at(i / 4), SILENT_H)));
      expect(new Set(open.map(({ kind, subject }) => `${kind}/${subject.id}`)).size).toBe(open.length);
      expect(raised - cleared).toBe(open.length);
    }));
  });

  test('does not flap: whatever the air does between the cap and three points below it, nothing is raised and nothing cleared', () => {
    fc.assert(fc.property(fc.array(fc.double({ min: 72.01, max: 75, noNaN: true }), { minLength: 1, maxLength: 40 }), fc.boolean(), (course, over) => {
      const before = over ? [airSigns(room(80, 20), at(0), SILENT_H)] : [];
      const { raised, cleared } = run([...before, ...course.map((rh, i) => airSigns(room(rh, 20, i / 4), at(i / 4), SILENT_H))]);
      expect([raised, cleared]).toEqual([over ? 2 - Number(80 < criticalHumidityPct(20)) : 0, over ? 2 - Number(80 < criticalHumidityPct(20)) - 1 : 0]);
    }));
  });

  test('is raised once by the same data however often they are looked at, and again only after it was cleared', () => {
    const [dry, damp] = [airSigns(room(60), at(0), SILENT_H), airSigns(room(78), at(0), SILENT_H)];
    expect(run([damp, damp, damp])).toMatchObject({ raised: 1, cleared: 0 });
    expect(run([damp, dry, dry, damp])).toMatchObject({ raised: 2, cleared: 1 });
  });
});

describe('a room', () => {
  test('is over its cap above it and no longer three points below it', () => {
    expect([75, 75.1, 73, 72].map((rh) => verdictOf(airSigns(room(rh), at(0), SILENT_H), 'room-over-cap'))).toEqual(['between', 'on', 'between', 'off']);
  });

  test('makes mould possible from the critical humidity on, which is higher in the cold, and never when frozen', () => {
    expect(verdictOf(airSigns(room(82, 22), at(0), SILENT_H), 'room-mould-possible')).toBe('on');
    expect(verdictOf(airSigns(room(82, 5), at(0), SILENT_H), 'room-mould-possible')).not.toBe('on');
    expect(verdictOf(airSigns(room(99, -2), at(0), SILENT_H), 'room-mould-possible')).toBe('off');
  });

  test('that nobody reads any more raises and clears nothing by its old air, and says that it is silent while something hangs there', () => {
    const signs = airSigns(room(90), at(3.1), SILENT_H);
    expect(['room-over-cap', 'room-mould-possible', 'sensor-silent'].map((kind) => verdictOf(signs, kind as AlarmKind))).toEqual(['unknown', 'unknown', 'on']);
    expect(verdictOf(airSigns({ ...room(90), inUse: false }, at(9), SILENT_H), 'sensor-silent')).toBe('off');
    expect(airSigns({ ...room(90), air: null }, at(9), SILENT_H)).toEqual([]);
  });

  test('tells all its clocks in one alarm for each state, the most pressing first, and names no more than a wall can hold', () => {
    const clocks = Array.from({ length: 400 }, (_, i) => ({ itemId: `i${i}`, tagCode: `T${i}`, householdId: `h${i % 7}`, state: i % 4 === 0 ? ('red' as const) : ('amber' as const), hoursToRed: i % 4 === 0 ? 0 : 400 - i }));
    const [amber, red] = clockSigns('room', clocks) as [AnySign & { kind: 'clock-amber' }, AnySign & { kind: 'clock-red' }];
    expect(amber.evidence).toMatchObject({ items: 300, households: 7, soonestRedH: 1 });
    expect(amber.evidence.first).toHaveLength(ALARM_CALIBRATION.itemsNamed.value);
    expect(amber.evidence.first[0]).toEqual({ itemId: 'i399', tagCode: 'T399' });
    expect(red).toMatchObject({ verdict: 'on', severity: 'danger', evidence: { items: 100 } });
    expect(clockSigns('room', []).map(({ verdict }) => verdict)).toEqual(['off', 'off']);
  });

  test('a machine recorded as tripped is alarming, one that was switched off is not', () => {
    const machine = { id: 'm', code: 'D1', name: 'Machine', sinceMs: null };
    expect(machineSigns('room', [{ ...machine, state: 'tripped' }, { ...machine, state: 'off' }, { ...machine, state: 'running' }]).map(({ verdict }) => verdict)).toEqual(['on', 'off', 'off']);
  });
});

describe('numbers that a network has set', () => {
  test('are the ones that alarms go by', () => {
    const values = calibrateAlarms({ humidityClearPct: 6, freezerWarmTempC: -10, itemsNamed: 2, silentAfterH: 5 });
    expect([70, 69].map((rh) => verdictOf(airSigns(room(rh), at(0), SILENT_H, values), 'room-over-cap'))).toEqual(['between', 'off']);
    expect([4.9, 5.1].map((hours) => verdictOf(airSigns(room(60), at(hours), SILENT_H, values), 'sensor-silent'))).toEqual(['off', 'on']);
    const warm = { id: 'f', inUse: true, reporting: LOGGED, readings: [{ tempC: -12, measuredAtMs: at(0) }, { tempC: -12, measuredAtMs: at(1) }] };
    expect([verdictOf(freezerSigns(warm, at(1)), 'freezer-warm'), verdictOf(freezerSigns(warm, at(1), values), 'freezer-warm')]).toEqual(['on', 'off']);
    const clocks = ['a', 'b', 'c'].map((itemId) => ({ itemId, tagCode: itemId, householdId: 'h', state: 'amber' as const, hoursToRed: 3 }));
    expect((clockSigns('room', clocks, values)[0] as AnySign & { kind: 'clock-amber' }).evidence).toMatchObject({ items: 3, first: [{ itemId: 'a' }, { itemId: 'b' }] });
  });

  test('move only how long old air is silent, not how long it is believed', () => {
    const signs = airSigns(room(90), at(4), SILENT_H, calibrateAlarms({ silentAfterH: 5 }));
    expect(['room-over-cap', 'sensor-silent'].map((kind) => verdictOf(signs, kind as AlarmKind))).toEqual(['unknown', 'off']);
  });

  test('cannot contradict each other or leave their limits, and ice melts at 0 °C for everybody', () => {
    expect(() => calibrateAlarms({ machineShare: 0.8 })).toThrow('machineShare (0.8) may not exceed machineShareClear (0.75)');
    expect(() => calibrateAlarms({ freezerWarmTempC: 5 })).toThrow('from -40 to -1 (C)');
    expect(() => calibrateAlarms({ itemsNamed: 2.5 })).toThrow('a whole number');
    expect(() => calibrateAlarms({ freezerThawTempC: -5 })).toThrow('is no number of this table');
  });

  test('a place is never called silent sooner for being expected less often', () => {
    fc.assert(fc.property(fc.integer({ min: 1, max: 10_080 }), fc.integer({ min: 1, max: 10_080 }), fc.boolean(), (a, b, byHand) => {
      const limit = (everyMinutes: number) => silenceOf('freezer', { everyMinutes, byHand }, DEFAULT_ALARM_VALUES).limitH;
      expect(limit(Math.min(a, b))).toBeLessThanOrEqual(limit(Math.max(a, b)));
      // Nobody is called silent who has not missed a single report.
      expect(limit(a)).toBeGreaterThan(a / 60);
    }));
  });
});

describe('a freezer', () => {
  test('is warm when it stays above -15 C for ten minutes, not when somebody opened the lid', () => {
    expect(verdictOf(freezer([0, -18], [5, -12], [10, -17]), 'freezer-warm')).toBe('off');
    expect(verdictOf(freezer([0, -18], [5, -12], [9, -12]), 'freezer-warm')).toBe('between');
    expect(verdictOf(freezer([0, -18], [5, -12], [15, -11]), 'freezer-warm')).toBe('on');
    expect(verdictOf(freezer([0, -12], [15, -15.5]), 'freezer-warm')).toBe('between');
  });

  test('thaws above 0 C, which is a danger of its own', () => {
    const signs = freezer([0, -8], [20, 0.5], [31, 1.2]);
    expect(signs.find(({ kind }) => kind === 'freezer-thawing')).toMatchObject({ verdict: 'on', severity: 'danger', evidence: { tempC: 1.2, aboveSinceMs: at(20 / 60) } });
    expect(verdictOf(freezer([0, 1.2], [15, -0.5]), 'freezer-thawing')).toBe('between');
    expect(verdictOf(freezer([0, 1.2], [15, -1]), 'freezer-thawing')).toBe('off');
  });

  test('with nothing in it thaws nothing, and is still too warm to be loaded', () => {
    const empty = freezerSigns({ id: 'f', inUse: false, reporting: LOGGED, readings: [{ tempC: 8, measuredAtMs: at(0) }, { tempC: 7, measuredAtMs: at(0.5) }] }, at(0.5));
    expect([verdictOf(empty, 'freezer-thawing'), verdictOf(empty, 'freezer-warm')]).toEqual(['off', 'on']);
  });

  test('that nobody reads is silent while something lies in it; one that never had a reading says nothing', () => {
    const silent = (inUse: boolean) => verdictOf(freezerSigns({ id: 'f', inUse, reporting: LOGGED, readings: [{ tempC: -18, measuredAtMs: at(0) }] }, at(4)), 'sensor-silent');
    expect([silent(true), silent(false)]).toEqual(['on', 'off']);
    expect(freezerSigns({ id: 'f', inUse: true, reporting: LOGGED, readings: [] }, at(4))).toEqual([]);
  });

  test('that people look at may be silent longer than one with a logger; what its sensor says of itself comes before both', () => {
    const silentAt = (reporting: Reporting) => (hours: number) => verdictOf(freezerSigns({ id: 'f', inUse: true, reporting, readings: [{ tempC: -18, measuredAtMs: at(0) }] }, at(hours)), 'sensor-silent');
    expect([3, 3.1, 12, 12.1].map(silentAt(LOGGED))).toEqual(['off', 'on', 'on', 'on']);
    expect([3, 3.1, 12, 12.1].map(silentAt({ everyMinutes: null, byHand: true }))).toEqual(['off', 'off', 'off', 'on']);
    // Twice a day: late by half a turn after 18 h; every ten minutes: after the least time for a logger that sends in batches.
    expect([17.9, 18.1].map(silentAt({ everyMinutes: 720, byHand: true }))).toEqual(['off', 'on']);
    expect([0.4, 0.6].map(silentAt({ everyMinutes: 10, byHand: false }))).toEqual(['off', 'on']);
  });
});

/** One of each kind, for the words. */
const EVIDENCE: { [K in AlarmKind]: AlarmEvidenceOf[K] } = {
  'room-over-cap': { airTempC: 20, relativeHumidityPct: 84.04, measuredAtMs: 0, capPct: 75 }, 'room-mould-possible': { airTempC: 20, relativeHumidityPct: 84, measuredAtMs: 0, criticalPct: 80 },
  'clock-amber': { items: 3, households: 2, first: [], soonestRedH: 9.8 }, 'clock-red': { items: 1, households: 1, first: [] },
  'dehumidifier-stopped': { code: 'D1', name: 'Machine', roomId: 'r', state: 'tripped', sinceMs: null }, 'dehumidifier-short': { fromMs: 0, toMs: 5_400_000, running: 2, expectedKg: 3.21, atMostKg: -0.4, relativeHumidityPct: 80 },
  'freezer-warm': { tempC: -11.5, limitC: -15, measuredAtMs: 0, aboveSinceMs: 0 }, 'freezer-thawing': { tempC: 1.2, limitC: 0, measuredAtMs: 0, aboveSinceMs: 0 }, 'sensor-silent': { lastAtMs: 0, silentH: 7.9, limitH: 3 }, 'things-unseen': { items: 2, households: 1, oldestSeenMs: 0, first: [] },
};
const words = (kind: AlarmKind, change: object = {}, subject: AlarmSubjectKind = 'drying-room') => (alarmWords as (kind: AlarmKind, evidence: unknown, name: string, subject: AlarmSubjectKind) => ReturnType<typeof alarmWords>)(kind, { ...EVIDENCE[kind], ...change }, 'Upper hall', subject);
const what = (...about: Parameters<typeof words>) => render(words(...about).what, 'en');

describe('what an alarm says', () => {
  test('names the place and what to do, in both languages, for every kind', () => {
    for (const kind of ALARM_KINDS) {
      const { what, doNow } = words(kind);
      for (const language of ['en', 'es'] as const) expect(render(what, language)).toMatch(/^Upper hall: /);
      expect(doNow.length).toBeGreaterThan(0);
    }
  });

  test('never leaves out what keeps people safe: electricity near machines, a respirator near mould, no refreezing without asking', () => {
    const cautions = (kind: AlarmKind) => words(kind).cautions.map((message) => render(message, 'en')).join(' ');
    for (const kind of ['room-over-cap', 'room-mould-possible', 'dehumidifier-stopped', 'dehumidifier-short', 'freezer-warm', 'freezer-thawing'] as const) expect(cautions(kind)).toMatch(/licensed electrician/);
    for (const kind of ['room-mould-possible', 'clock-red'] as const) expect(cautions(kind)).toMatch(/respirator/);
    expect(cautions('freezer-thawing')).toMatch(/conservator/);
  });

  test('a clock that hardly runs is told in days and with the air it holds for, not as hours to count on', () => {
    expect(what('clock-amber')).toMatch(/the first has about 9 h left by the 48 h rule of practice\.$/);
    expect(what('clock-amber', { soonestRedH: 72 })).toContain('about 72 h left');
    expect(what('clock-amber', { soonestRedH: 162 })).toMatch(/In the present air they hardly run: it would be more than 6 days until the first is red\. In damper air it is less\.$/);
    expect(what('clock-amber', { soonestRedH: 162 })).not.toMatch(/162|48 h/);
    expect(what('clock-amber', { soonestRedH: null })).toContain('stand still');
  });

  test('silence is told with what was expected, and with what to do there: a freezer is not opened, a room is read', () => {
    expect(what('sensor-silent')).toBe('Upper hall: no reading for 7 h.');
    expect(what('sensor-silent', { silentH: 0.7, expectedEveryMinutes: 10 })).toBe('Upper hall: no reading for 42 min, where one is expected every 10 min.');
    expect(what('sensor-silent', { silentH: 18.9, expectedEveryMinutes: 720 })).toBe('Upper hall: no reading for 18 h, where one is expected every 12 h.');
    expect(what('sensor-silent', { silentH: 1.6, expectedEveryMinutes: 60 })).toBe('Upper hall: no reading for 1 h, where one is expected every 60 min.');
    const doNow = (subject: AlarmSubjectKind) => words('sensor-silent', {}, subject).doNow.map((message) => render(message, 'en')).join(' ');
    expect(doNow('freezer')).toMatch(/lid shut/);
    expect(doNow('freezer')).not.toMatch(/saturated/);
    expect(doNow('drying-room')).toMatch(/hygrometer/);
  });

  test('promises nothing: a red clock does not say that there is mould', () => {
    expect(render(words('clock-red').what, 'en')).toMatch(/does not say that there is mould/);
    expect(render(words('dehumidifier-short').what, 'en')).toContain('0 kg at most');
  });
});
