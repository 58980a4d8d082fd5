import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from '@jest/globals';
import { contradictionsIn } from '#care';
import { projectRoot } from '#platform';
import { contextAt, knownAssessment } from '../../unit/care/assessment.support.js';
import { HARD_CASES } from './hard-cases/cases.js';
import { hardCasesPage } from './hard-cases/page.js';

const PAGE = join(projectRoot(), 'tests', 'reference', 'care', 'hard-cases.md');

describe('the hard cases', () => {
  test('are twenty-five, each with its note, and none contradicts itself', () => {
    expect(HARD_CASES).toHaveLength(25);
    expect(new Set(HARD_CASES.map(({ title }) => title)).size).toBe(25);
    for (const { title, observed, hours, note } of HARD_CASES) {
      expect(note.length).toBeGreaterThan(40);
      // The base of these cases is a cotton cloth; a case about something else leaves its fibre unsaid.
      expect([title, contradictionsIn(knownAssessment({ fibre: 'unknown', ...observed }), contextAt(hours)).map(({ code }) => code)]).toEqual([title, []]);
    }
  });

  test('stand beside the answers the rule book gives today', () => {
    if (process.env['WRITE_PAGES'] === '1') writeFileSync(PAGE, hardCasesPage());
    expect(readFileSync(PAGE, 'utf8')).toBe(hardCasesPage());
  });
});
