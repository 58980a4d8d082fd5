import { spawnSync } from 'node:child_process';
import { describe, expect, test } from '@jest/globals';
import { makespanOf } from './project.adapter.js';
import { readOptions, UsageError } from './options.js';
import { runSet } from './run-set.js';

const OWN = 'tests/reference/planning';

function bench(...args: string[]) {
  return spawnSync('npm', ['run', '--silent', 'bench:planning', '--', ...args], { encoding: 'utf8', shell: process.platform === 'win32' });
}

describe('npm run bench:planning', () => {
  test.each(['single-machine-rj-wu', 'mini-care'])('prints one JSON line for %s', (set) => {
    const { stdout, stderr, status } = bench('--set', set, '--data', OWN, '--schedules', '20', '--seed', '7', '--every', '5');
    expect({ stderr, status }).toEqual({ stderr: '', status: 0 });
    expect(stdout.trim().split('\n')).toHaveLength(1);
    const report = JSON.parse(stdout) as Record<string, unknown>;
    expect(report).toMatchObject({ set, n: set === 'mini-care' ? 5 : 8, seed: 7, budget: { schedules: 20 }, better: 0, machine: { node: process.versions.node } });
    expect(report['hits']).toBeGreaterThanOrEqual(0);
    expect(typeof report['meanDeviationPercent']).toBe('number');
  });

  test('plans mini-care in two strands as the service does, never worse than in one', () => {
    const reports = ['1', '2'].map((strands) => {
      const { stdout, status } = bench('--set', 'mini-care', '--data', OWN, '--schedules', '60', '--every', '5', '--strands', strands);
      expect(status).toBe(0);
      return JSON.parse(stdout) as { meanDeviationPercent: number; budget: { strands?: number } };
    });
    expect(reports[1]?.budget.strands).toBe(2);
    expect(reports[1]?.meanDeviationPercent).toBeLessThanOrEqual(reports[0]?.meanDeviationPercent ?? 0);
  });

  test.each([
    ['no set', ['--data', OWN], 'Name a set'],
    ['an unknown set', ['--set', 'travelling', '--data', OWN], 'no adapter for "travelling"'],
    ['a folder without instances', ['--set', 'rcpsp-j30', '--data', OWN], 'no instances.jsonl'],
    ['a budget that is no number', ['--set', 'mini-care', '--data', OWN, '--ms', 'soon'], '--ms is a whole number'],
    ['two budgets', ['--set', 'mini-care', '--data', OWN, '--ms', '5', '--schedules', '5'], 'not both'],
    ['an unknown option', ['--fast'], '--fast'],
    ['strands for a set of one search', ['--set', 'rcpsp-j30', '--data', OWN, '--strands', '2'], 'for mini-care alone'],
    ['the time of one process for several threads', ['--set', 'mini-care', '--data', OWN, '--strands', '2', '--clock', 'cpu'], 'leave it out with --strands'],
  ])('with %s is refused with a sentence on what to change', async (_, args, sentence) => {
    const run = async () => runSet(readOptions(args));
    await expect(run()).rejects.toThrow(UsageError);
    await expect(run()).rejects.toThrow(sentence);
  });

  test('that is refused prints the sentence, no result and no trace, and fails', () => {
    const { stdout, stderr, status } = bench('--set', 'travelling', '--data', OWN);
    expect({ stdout, status }).toEqual({ stdout: '', status: 2 });
    expect(stderr).toContain('no adapter for "travelling"');
    expect(stderr).not.toContain('    at ');
  });
});

describe('single-machine-rj-wu, optima proved by CP-SAT 9.15 (see its README)', () => {
  test('at least 95 % of the optima are reached in 10,000 rounds, none is undercut, and again the same', async () => {
    const options = readOptions(['--set', 'single-machine-rj-wu', '--data', OWN, '--schedules', '10000', '--stop-at-expected']);
    const { seconds: _, ...report } = await runSet(options);
    expect(report).toMatchObject({ n: 36, better: 0 });
    expect(report.hits / report.n).toBeGreaterThanOrEqual(0.95);
    const { seconds: __, ...again } = await runSet(options);
    expect(again).toEqual(report);
  });
});

describe('the check of a project plan', () => {
  const mode = (duration: number, demand: number, stock: number) => ({ duration, demand: [demand], stock: [stock] });
  // Worked by hand: capacity 2; A (3 slots, 1), B (2 slots, 1) after A, C (2 slots, 2). A 0-3, B 3-5, C 5-7 takes 7.
  const project = { capacity: [2], stock: [4], modes: [[mode(3, 1, 1)], [mode(2, 1, 1), mode(1, 1, 4)], [mode(2, 2, 1)]], successors: [[1], [], []] };

  test('answers the makespan of a plan that holds', () => {
    expect(makespanOf(project, [0, 3, 5], [0, 0, 0])).toBe(7);
  });

  test.each([
    ['a precedence', [0, 2, 5], [0, 0, 0], 'starts before'],
    ['a resource', [0, 3, 4], [0, 0, 0], 'overdrawn in slot 4'],
    ['a stock', [0, 3, 5], [0, 1, 0], 'Stock 0'],
    ['a start', [0, 3, -2], [0, 0, 0], 'no start'],
  ])('finds %s that is broken', (_, start, modes, fault) => {
    expect(() => makespanOf(project, start, modes)).toThrow(fault);
  });
});
