/**
 * Published sets, which the project has no copies of: read from the folder that WRACKLINE_BENCHMARKS names. `.ci/run`
 * names ../shared/benchmarks when it is there. A part of each set with a small budget; the gates are our own, a
 * little above what was measured on just these parts, and fail when a search gets worse. The full measurements are
 * in the README beside.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from '@jest/globals';
import { readOptions } from './options.js';
import { runSet } from './run-set.js';

const folder = process.env['WRACKLINE_BENCHMARKS'] ?? '';
/** Set, most that the mean may lie above the best known values in %, budget. */
const GATES: [string, number, string][] = [
  ['single-machine-wt', 0, '--schedules 2000 --every 8 --stop-at-expected'],
  ['rcpsp-j30', 0.6, '--schedules 1000 --every 8'],
  ['rcpsp-j60', 2, '--schedules 1000 --every 12'],
  ['rcpsp-j120', 5, '--schedules 500 --every 30'],
  ['mrcpsp', 2, '--schedules 1000 --every 3'],
  ['jobshop-twt', 20, '--schedules 10000 --every 6 --stop-at-expected'],
  ['fjsp', 2, '--schedules 5000 --every 8'],
];
const there = GATES.filter(([set]) => folder !== '' && existsSync(join(folder, set, 'instances.jsonl')));

if (there.length === 0) {
  test('the published sets were skipped: WRACKLINE_BENCHMARKS names no folder that holds any of them', () => {
    expect(there).toEqual([]);
  });
} else {
  describe('a part of the published sets', () => {
    test.each(there)('%s: checked solutions, none below the best known value, mean at most %d %% (%s)', async (set, most, budget) => {
      const report = await runSet(readOptions(['--set', set, '--data', folder, ...budget.split(' ')]));
      expect(report.better).toBe(0);
      expect(report.meanFromBestPercent).toBeLessThanOrEqual(most);
    });
  });
}
