/** Care guidance, sections 1b and 1c, row by row; the source stands beside each row. */
import { describe, expect, test } from '@jest/globals';
import type { Assessment, Disposition, MaterialClass } from '#care';
import { triage } from '#care';
import { contextAt, FLOOD_AT_MS, HOUR_MS, knownAssessment } from '../../unit/care/assessment.support.js';

interface Row {
  source: string;
  materialClass: MaterialClass;
  changes?: Partial<Assessment>;
  startByHours: number;
  /** Open dispositions, best first, without what only consent brings. */
  options: Disposition[];
  never: RegExp[];
}

const PAPER: Row[] = [
  { source: 'Iowa salvage chart (S7); Texas (S30)', materialClass: 'paper-uncoated', startByHours: 48, options: ['treat', 'hold-frozen', 'refer'], never: [/separate or unfold single wet sheets/] },
  { source: 'Iowa salvage chart (S7); UNESCO R8707 (S27); 2 h for "immediately" ours', materialClass: 'paper-soluble-media', startByHours: 2, options: ['hold-frozen', 'treat', 'refer'], never: [/Never blot it/] },
  { source: 'Iowa salvage chart (S7)', materialClass: 'paper-oversize', startByHours: 48, options: ['treat', 'hold-frozen', 'refer'], never: [/separate or unfold/] },
  { source: 'S7, S9, NLM (S22), Waters (S26); 6 h trade figure (S85)', materialClass: 'paper-coated', startByHours: 6, options: ['hold-frozen', 'hold-wet', 'treat', 'refer'], never: [/dry in a block/, /force leaves apart/, /compress/] },
  { source: 'S7, Iowa drying page (S73b); glass: Texas (S30)', materialClass: 'paper-framed', startByHours: 48, options: ['treat', 'refer'], never: [/peel it from the glass/] },
  { source: 'S7, MNHS books (S9), Waters (S26): damp', materialClass: 'book-bound', changes: { wetState: 'damp' }, startByHours: 48, options: ['treat', 'hold-frozen', 'refer'], never: [/open a closed wet book/, /remove the covers/] },
  { source: 'S7, S9, S26: soaked', materialClass: 'book-bound', changes: { wetState: 'dripping' }, startByHours: 48, options: ['hold-frozen', 'treat', 'refer'], never: [/remove the covers/] },
  { source: 'S9: fewer than about 100 volumes by air', materialClass: 'book-bound', changes: { wetState: 'damp', count: 100 }, startByHours: 48, options: ['hold-frozen', 'treat', 'refer'], never: [] },
  { source: 'S7, Louisiana (S8), NLM (S24): few', materialClass: 'book-leather-or-vellum', startByHours: 2, options: ['treat', 'hold-frozen', 'refer'], never: [/freeze-dry illuminated or gilded/] },
  { source: 'Louisiana (S8): many (number ours)', materialClass: 'book-leather-or-vellum', changes: { count: 40 }, startByHours: 2, options: ['hold-frozen', 'treat', 'refer'], never: [] },
  { source: 'AIC wiki, skin and leather (S14)', materialClass: 'parchment', startByHours: 2, options: ['refer', 'hold-frozen'], never: [/soak it for long/, /warm it/] },
  { source: 'Louisiana (S8); whole and weakest part from memory', materialClass: 'album-or-scrapbook', startByHours: 48, options: ['hold-frozen', 'refer'], never: [/take stuck pages apart/] },
];

const PHOTOGRAPHS: Row[] = [
  { source: 'NEDCC 3.7 (S20); Hendriks & Lesser as reported (S70)', materialClass: 'photo-collodion-or-tintype', startByHours: 2, options: ['treat', 'refer'], never: [/freeze or freeze-dry/, /leave it to soak/] },
  { source: 'from memory', materialClass: 'photo-daguerreotype', startByHours: 2, options: ['refer', 'treat'], never: [/touch or wipe the plate/, /Never freeze/] },
  { source: 'NEDCC 3.7 (S20); Texas (S30)', materialClass: 'photo-glass-plate-gelatin', startByHours: 2, options: ['refer', 'treat'], never: [/freeze glass plates/] },
  { source: 'Louisiana (S8)', materialClass: 'photo-albumen', startByHours: 48, options: ['treat', 'hold-frozen', 'refer'], never: [/bare hands/] },
  { source: 'Louisiana (S8); NLM photographs (S23)', materialClass: 'photo-silver-gelatin', startByHours: 48, options: ['treat', 'hold-frozen', 'refer'], never: [/thermal vacuum/] },
  { source: 'NLM photographs (S23); AIC wiki (S21)', materialClass: 'photo-colour-print', startByHours: 48, options: ['treat', 'hold-frozen', 'refer'], never: [/touch while drying/, /touch the image side while it is wet/] },
  { source: 'AIC wiki (S21); IPI (S78); no rinsing from memory', materialClass: 'photo-inkjet-or-digital-print', startByHours: 2, options: ['treat', 'refer'], never: [/rinse or soak a digital print/] },
  { source: 'CERF+ (S29); FEMA 2017 (S31); AIC wiki (S21)', materialClass: 'film-negative', startByHours: 48, options: ['treat', 'hold-frozen', 'refer'], never: [] },
  { source: 'NEDCC 3.7 (S20); isolation from memory', materialClass: 'film-nitrate-deteriorated', startByHours: 2, options: ['refer', 'hold-frozen'], never: [/warm it/] },
  { source: 'FEMA 2017 (S31); freezing from memory; 6 h ours', materialClass: 'photo-stuck-together', startByHours: 6, options: ['hold-frozen', 'hold-wet', 'refer'], never: [/pull them apart/] },
];

function check(row: Row): void {
  const result = triage(knownAssessment({ materialClass: row.materialClass, ...row.changes }), contextAt(0));
  expect((result.startByMs - FLOOD_AT_MS) / HOUR_MS).toBe(row.startByHours);
  expect(result.options.map((option) => option.disposition)).toEqual(row.options);
  for (const text of row.never) expect(result.never.map((statement) => statement.text)).toContainEqual(expect.stringMatching(text));
}

const stepsOf = (changes: Partial<Assessment>, disposition: Disposition): string[] =>
  (triage(knownAssessment(changes), contextAt(0)).options.find((option) => option.disposition === disposition)?.steps ?? []).map(({ step }) => step);

describe('paper and books, section 1b', () => {
  test.each(PAPER)('$materialClass $changes [$source]', check);

  test('sheets are interleaved before they air dry, and by the folder before they freeze [S7, S30]', () => {
    expect(stepsOf({ materialClass: 'paper-uncoated' }, 'treat')).toEqual(['stabilise', 'dry', 'check', 'wrap', 'hand-back']);
    expect(stepsOf({ materialClass: 'paper-uncoated' }, 'hold-frozen')).toEqual(['stabilise', 'wrap', 'freeze']);
  });

  test('coated paper is kept wet and covered until frozen [S7, S22]', () => {
    const frozen = triage(knownAssessment({ materialClass: 'paper-coated' }), contextAt(0)).options[0];
    expect(frozen?.steps.map(({ step }) => step)).toEqual(['stabilise', 'wrap', 'freeze']);
    expect(frozen?.steps[0]?.cautions.map(({ text }) => text)).toContainEqual(expect.stringMatching(/wet and covered/));
  });

  test('no route of soluble media rinses or blots [S7, S27]', () => {
    for (const disposition of ['treat', 'hold-frozen', 'refer'] as const) {
      const steps = stepsOf({ materialClass: 'paper-soluble-media' }, disposition);
      expect(steps).not.toContain('blot');
      expect(steps).not.toContain('rinse');
    }
  });

  test('ink seen to run turns plain paper into soluble media: at once [S7]', () => {
    const result = triage(knownAssessment({ materialClass: 'paper-uncoated', alreadyBled: true }), contextAt(0));
    expect(result.binding).toBe('image-loss');
    expect(result.urgency).toBe('immediate');
    expect(result.never.map(({ text }) => text)).toContain('Never blot it.');
  });
});

describe('photographs and film, section 1c', () => {
  test.each(PHOTOGRAPHS)('$materialClass [$source]', check);

  test('silver gelatin prints are rinsed cold and air dried face up [S8, S23]', () => {
    expect(stepsOf({ materialClass: 'photo-silver-gelatin' }, 'treat')).toEqual(['rinse', 'dry', 'check', 'wrap', 'hand-back']);
  });

  test.each(['photo-collodion-or-tintype', 'photo-albumen', 'photo-inkjet-or-digital-print', 'photo-daguerreotype', 'photo-glass-plate-gelatin'] as const)('%s is air dried without a rinse [S8, S20, S21]', (materialClass) => {
    expect(stepsOf({ materialClass }, 'treat')).toEqual(['dry', 'check', 'wrap', 'hand-back']);
  });

  test('daguerreotypes and nitrate film carry a referral statement [care guidance section 9 nos. 10 and 14]', () => {
    for (const materialClass of ['photo-daguerreotype', 'film-nitrate-deteriorated'] as const) {
      expect(triage(knownAssessment({ materialClass }), contextAt(0)).referral.map(({ text }) => text)).toContainEqual(expect.stringMatching(/stop/));
    }
  });

  test('nitrate film is frozen only with the competent authority’s agreement, even when the owner agrees [own]', () => {
    const frozen = triage(knownAssessment({ materialClass: 'film-nitrate-deteriorated' }), contextAt(0)).options.find((option) => option.disposition === 'hold-frozen');
    expect(frozen?.needs).toContainEqual(expect.stringMatching(/competent authority/));
  });
});
