/** The table of what sources ask for, checked line by line, and whether it leaves a rule of the book untested. */
import { describe, expect, test } from '@jest/globals';
import { bookOf, MATERIAL_CLASSES, NEWEST_RELEASE, releaseBefore, releaseChanges, RULE_BOOK } from '#care';
import type { Mark, Rule } from '#care';
import { factsOf, failuresOf, outcomeOf, TABLE } from './table/index.js';

/** Rows of the care guidance, sections 1a-1f and 2, by their first words. */
const GUIDANCE_ROWS = [
  '1a dyes that bleed', '1a archaeological', '1a small flat', '1a large flat', '1a stuffed quilt', '1a garments, hats, shoes', '1a composite costume', '1a silk', '1a wool', '1a cotton, linen', '1a rayon, acetate',
  '1a nylon, polyester, acrylic', '1a chintz, painted, gilded', '1a knits, bias-cut, lined', '1a pillows, stuffed toys', '1a everyday clothing',
  '1b uncoated documents', '1b water-soluble media', '1b maps, posters', '1b coated paper', '1b books', '1b leather, vellum bindings', '1b parchment', '1b framed works', '1b scrapbooks, albums',
  '1c wet collodion', '1c daguerreotypes', '1c gelatin plates, lantern slides', '1c albumen', '1c collodion prints', '1c silver gelatin', '1c carbon prints', '1c chromogenic colour', '1c inkjet', '1c film in good condition',
  '1c deteriorated nitrate', '1c stuck together', '1c film rolls',
  '1d ferric tape', '1d metal tape', '1d dry tape', '1d floppy', '1d vinyl, shellac', '1d CD, DVD', '1d drives, phones, cards',
  '1e paintings', '1e painted, gilded wood', '1e solid wood furniture', '1e veneer, instruments', '1e upholstery', '1e tanned leather', '1e semi-tanned leather', '1e bone, ivory, horn', '1e taxidermy, herbarium, minerals', '1e baskets',
  '1f glazed ceramic, glass, stone, metal', '1f iron, steel', '1f unfired ceramic', '1f salt-soaked', '1f old repairs',
  '2 category 1 clean', '2 category 2 grey', '2 category 3 black', '2 public-health usage', '2 escalation', '2 unknown source', '2 sewage or chemical contact', '2 fuel, pesticide, solvent', '2 floodwater, no known sewage',
  '2 porous goods, no significance', '2 porous heirlooms',
];

describe('what the sources ask for', () => {
  test.each(TABLE.map((row) => [row.row ?? 'beside the rows', row.what, row.source, row] as const))('%s: %s [%s]', (_row, _what, _source, row) => {
    expect(failuresOf(row)).toEqual([]);
  });

  test('every row of the care guidance, 1a to 1f and 2, has its lines, and no line names another', () => {
    const covered = new Set(TABLE.flatMap(({ row }) => row ?? []));
    expect(GUIDANCE_ROWS.filter((row) => !covered.has(row))).toEqual([]);
    expect([...covered].filter((row) => !GUIDANCE_ROWS.includes(row))).toEqual([]);
  });

  test('every material class has a line of its own', () => {
    const covered = new Set(TABLE.map(({ observed }) => observed.materialClass ?? 'textile-flat-small'));
    expect(MATERIAL_CLASSES.filter((materialClass) => !covered.has(materialClass))).toEqual([]);
  });

  test('there are well over 150 checks, each line with its source', () => {
    expect(TABLE.reduce((sum, row) => sum + factsOf(row).length, 0)).toBeGreaterThan(300);
    expect(TABLE.filter(({ source }) => source.trim() === '')).toEqual([]);
  });
});

/** True when the table notices that the book lacks a rule; only lines to which the rule applies are asked. */
function isMissed(rule: Rule, applied: ReadonlyMap<(typeof TABLE)[number], ReadonlySet<string>>): boolean {
  const without = bookOf(RULE_BOOK.filter((kept) => kept !== rule), 'without one rule');
  return TABLE.some((row) => applied.get(row)?.has(rule.id) === true && failuresOf(row, without).length > 0);
}

describe('the rules of the book', () => {
  test('none can be taken out without a line of the table failing', () => {
    const applied = new Map(TABLE.map((row) => [row, new Set(outcomeOf(row).reasons.map(({ ruleId }) => ruleId))]));
    expect(RULE_BOOK.filter((rule) => !isMissed(rule, applied)).map(({ id }) => id)).toEqual([]);
  });

  test('what the newest release changed cannot be changed back without a line of the table failing', () => {
    const before = releaseBefore(NEWEST_RELEASE);
    const altered = before === null ? [] : releaseChanges(before, NEWEST_RELEASE).rules.filter(({ kind }) => kind === 'altered');
    const seen = (old: Rule): boolean => {
      const undone = bookOf(RULE_BOOK.map((rule) => (rule.id === old.id ? old : rule)), 'one wording back');
      return TABLE.some((row) => failuresOf(row, undone).length > 0);
    };
    const unseen = altered.flatMap(({ before: old }) => (old === null || seen(old) ? [] : [old.id]));
    // These show under another choice or in the reasons alone: tests/unit/care/releases.spec.ts.
    expect(unseen).toEqual(['leather.tanned.two-days', 'basket.two-days', 'inorganic.salt.hours']);
  });

  test('each carries a mark: published, common practice, memory, or ours; none is unmarked', () => {
    const byMark = (mark: Mark): number => RULE_BOOK.filter(({ source }) => source.mark === mark).length;
    const report = { published: byMark('published'), 'common-practice': byMark('common-practice'), 'from-memory': byMark('from-memory'), 'own-calibration': byMark('own-calibration') };
    expect(Object.values(report).reduce((sum, count) => sum + count, 0)).toBe(RULE_BOOK.length);
    // The report itself: a rule that changes its mark, up or down, is seen here.
    expect(report).toEqual({ published: 171, 'common-practice': 39, 'from-memory': 30, 'own-calibration': 87 });
  });
});
