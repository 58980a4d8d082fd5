import { describe, expect, test } from '@jest/globals';
import { Dice } from '../../../apps/ops/src/demo/dice.js';
import type { Layout } from '../../../apps/ops/src/demo/driver/book.js';
import { Crew } from '../../../apps/ops/src/demo/driver/crew.js';
import { Outcomes } from '../../../apps/ops/src/demo/driver/outcomes.js';
import { DEMO_USAGE, readOptions } from '../../../apps/ops/src/demo/options.js';
import { createProgress } from '../../../apps/ops/src/demo/progress.js';
import { generateWorld } from '../../../apps/ops/src/demo/world/generator.js';

type Person = Layout['people'][number];

const AT = Date.parse('2026-05-09T08:00:00Z');
const minutes = (count: number) => AT + count * 60_000;
const person = (id: string, skills: Person['skills'], more: Partial<Person> = {}): Person => ({
  id, siteId: 'site', code: id, displayName: id, skills, restrictions: [], respiratorFitUntil: null, version: 1, shifts: [{ id: `${id}-shift`, startsAt: '2026-05-09T07:00:00Z', endsAt: '2026-05-09T12:00:00Z', version: 1 }], ...more,
});
const rinse = { crew: 1, skill: 'rinsing' as const, barredRestrictions: [] };

describe('hands', () => {
  test('nobody does two things at once', () => {
    const crew = new Crew([person('a', ['rinsing'])]);
    const first = crew.find(rinse, [], AT, minutes(15));
    expect(first).toEqual({ personIds: ['a'], startsAtMs: AT });
    crew.occupy(['a'], minutes(10));
    expect(crew.find(rinse, [], AT, minutes(15))?.startsAtMs).toBe(minutes(10));
    crew.occupy(['a'], minutes(20));
    expect(crew.find(rinse, [], AT, minutes(15))).toBeNull();
  });

  test('only who has the skill, is on shift, and has not declared a barred restriction', () => {
    expect(new Crew([person('a', ['paper'])]).find(rinse, [], AT, minutes(15))).toBeNull();
    expect(new Crew([person('a', ['rinsing'])]).find(rinse, [], minutes(300), minutes(315))).toBeNull();
    expect(new Crew([person('a', ['rinsing'], { restrictions: ['no-wet-work'] })]).find({ ...rinse, barredRestrictions: ['no-wet-work'] }, [], AT, minutes(15))).toBeNull();
    const masked = { ...rinse, ppe: ['N95 respirator'] };
    const fitted = (respiratorFitUntil: string) => new Crew([person('a', ['rinsing'], { respiratorFitUntil })]);
    expect(fitted('2026-05-08').find(masked, [], AT, minutes(15))).toBeNull();
    expect(fitted('2026-05-09').find(masked, [], AT, minutes(15))?.personIds).toEqual(['a']);
    expect([fitted('2026-05-08').somebody(masked, AT), fitted('2026-05-09').somebody(masked, AT)]).toEqual([null, 'a']);
  });

  test('a step for two begins when both are free; planned people go before others', () => {
    const crew = new Crew([person('a', ['rinsing']), person('b', ['rinsing']), person('c', ['rinsing'])]);
    crew.occupy(['b'], minutes(5));
    expect(crew.find({ ...rinse, crew: 2 }, ['b', 'c'], AT, minutes(15))).toEqual({ personIds: ['c', 'b'], startsAtMs: minutes(5) });
    expect(new Crew([person('a', ['rinsing'])]).find({ ...rinse, crew: 2 }, [], AT, minutes(15))).toBeNull();
  });
});

describe('chance', () => {
  test('of the first 400 colour tests exactly 31 bleed, whatever the seed', () => {
    const thing = generateWorld(7, 0.05).things[0]!;
    for (const seed of [1, 7, 1234567]) {
      const outcomes = new Outcomes(seed, 1);
      for (let test = 0; test < 400; test += 1) outcomes.nextColourTestBleeds(thing);
      expect(outcomes.colourTests).toEqual({ tests: 400, bled: 31 });
    }
  });

  test('a stream of chance depends on its subject alone', () => {
    const roll = () => Array.from({ length: 5 }, () => Dice.of(7, 'ends', 'T-1', 'rinse').int(1, 1_000_000));
    expect(new Set(roll()).size).toBe(1);
    expect(Dice.of(7, 'ends', 'T-1').int(1, 1_000_000)).not.toBe(Dice.of(7, 'ends', 'T-2').int(1, 1_000_000));
  });

  test('shares are kept', () => {
    const dice = Dice.of(7, 'shares of three');
    const counts = { a: 0, b: 0 };
    for (let i = 0; i < 4_000; i += 1) counts[dice.weighted({ a: 3, b: 1 })] += 1;
    expect(counts.a / 4_000).toBeCloseTo(0.75, 1);
  });
});

describe('options and progress', () => {
  test('what is left out has a sound default, nonsense is refused with a sentence', () => {
    expect(readOptions(['--once', '--kills', '10'])).toEqual({ once: true, kills: 10, apis: 1, workers: 1, scale: 1, seed: 7, planIterations: null, keepProblems: false });
    expect(() => readOptions(['--scale', '3'])).toThrow('--scale takes a share from 0.02 to 1.');
    expect(() => readOptions(['--kills', 'many'])).toThrow('--kills takes a whole number');
    expect(() => readOptions(['--nonsense'])).toThrow();
    expect(DEMO_USAGE).toContain('--kills');
  });

  test('without a terminal progress is a plain line every tenth part', () => {
    const lines: string[] = [];
    const out = { write: (text: string) => lines.push(text) } as unknown as NodeJS.WriteStream;
    const bar = createProgress(out).bar('intake', 20);
    for (let i = 0; i < 20; i += 1) bar.advance();
    bar.done();
    expect(lines).toHaveLength(10);
    expect(lines.at(-1)).toBe('intake: 100 %\n');
  });
});
