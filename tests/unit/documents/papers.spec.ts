/** Papers for families as a printer gets them: drawn by us, read back and rendered by another program. */
import { describe, expect, test } from '@jest/globals';
import { LANGUAGES, type Language } from '#care';
import { formatTagCode } from '#custody';
import { careSheetPdf } from '../../../apps/api/src/documents/care-sheet.js';
import { conditionNotePdf } from '../../../apps/api/src/documents/condition-note.js';
import { paperKitPdf } from '../../../apps/api/src/documents/paper-kit.js';
import { receiptPdf, type PaperStyle } from '../../../apps/api/src/documents/receipt-paper.js';
import { referralPaperPdf } from '../../../apps/api/src/documents/referral-paper.js';
import { decodeQr, somePages, type Picture } from './pictures.support.js';
import { dossierOf, handBackOf, kitOf, LONG_WORD, packageOf, SIGNED } from './papers.support.js';
import { inkBeyond, maybeSave, textOf, typeSizesPt } from './paper-reading.support.js';

const PAPERS: Record<string, (things: number, style: PaperStyle) => Promise<Buffer>> = {
  receipt: (things, style) => receiptPdf(handBackOf(things), style),
  'care-sheet': (things, style) => careSheetPdf(handBackOf(things), style),
  'referral-package': (things, style) => referralPaperPdf(packageOf(things === 1 ? 9 : 120), style),
  'condition-note': (things, style) => conditionNotePdf(dossierOf(things === 1 ? 9 : 120), style),
};
const a4 = (language: Language): PaperStyle => ({ language, paper: 'a4' });
/** Pages at most for 1 and for 300 things: a family reads it, and a printer in a hall prints it. */
const MOST_PAGES: Record<string, [number, number]> = { receipt: [2, 48], 'care-sheet': [2, 48], 'condition-note': [3, 16], 'referral-package': [5, 18] };

describe.each(Object.keys(PAPERS))('the %s', (name) => {
  const draw = PAPERS[name] as (typeof PAPERS)[string];

  test.each(LANGUAGES)('in %s: for 1 thing a page or two, for 300 as many as can be handled; nothing lies off the paper, every page is numbered', async (language) => {
    for (const [index, things] of [1, 300].entries()) {
      const pdf = await draw(things, a4(language));
      await maybeSave(`${name}-${language}-${things}`, pdf);
      const pages = await textOf(pdf);
      expect(pages.length).toBeLessThanOrEqual(MOST_PAGES[name]?.[index] ?? 0);
      const number = language === 'en' ? 'Page {n} of {m}' : 'Página {n} de {m}';
      pages.forEach((page, at) => expect(page).toContain(number.replace('{n}', String(at + 1)).replace('{m}', String(pages.length))));
      expect(await inkBeyond(pdf, things === 1 ? null : [1, pages.length - 1])).toEqual([]);
    }
  }, 120_000);

  test('the same record has the same bytes, and says nothing of the moment of printing', async () => {
    const [once, again] = [await draw(3, a4('es')), await draw(3, a4('es'))];
    expect(again.equals(once)).toBe(true);
  });

  test.each(LANGUAGES)('in %s: running text is 12 points or larger, nothing below 10', async (language) => {
    const sizes = typeSizesPt(await draw(1, a4(language)));
    expect(Math.min(...sizes.keys())).toBeGreaterThanOrEqual(10);
    const [most] = [...sizes].sort((a, b) => b[1] - a[1])[0] ?? [0];
    expect(most).toBeGreaterThanOrEqual(12);
  });

  test('fits US letter as well', async () => {
    const pdf = await draw(1, { language: 'es', paper: 'letter' });
    expect(await inkBeyond(pdf, null)).toEqual([]);
  }, 30_000);
});

describe('the paper kit', () => {
  test.each(LANGUAGES)('in %s: a page of instructions, every slip with its number and tag to scan, a log for each station, a sheet for each place', async (language) => {
    for (const slips of [1, 60]) {
      const kit = kitOf(slips);
      const pdf = await paperKitPdf(kit, a4(language));
      const pages = await textOf(pdf);
      await maybeSave(`kit-${language}-${slips}`, pdf, slips === 1 ? [0, 1, 2, 5] : [60]);
      expect(pages).toHaveLength(1 + slips + kit.stations.length + kit.places.length);
      kit.codes.forEach((code, index) => {
        expect(pages[1 + index]).toContain(language === 'en' ? `Slip ${index + 1} of ${slips}` : `Ficha ${index + 1} de ${slips}`);
        expect(pages[1 + index]).toContain(formatTagCode(code));
      });
      expect(await inkBeyond(pdf, slips === 1 ? null : [60])).toEqual([]);
      expect(Math.min(...typeSizesPt(pdf).keys())).toBeGreaterThanOrEqual(10);
      expect(pages.join('')).not.toContain('…');
      if (slips > 1) continue;
      const { pictures } = await somePages(pdf, [1]);
      expect(decodeQr(pictures.get(1) as Picture, { xMm: 160, yMm: 12, widthMm: 40, heightMm: 34 })).toBe(kit.codes[0]);
    }
  }, 120_000);

  test.each(LANGUAGES)('in %s: each log and sheet has its number, room for its part, and numbered lines, so that a line can be named when it is keyed in', async (language) => {
    const kit = kitOf(1);
    const pages = (await textOf(await paperKitPdf(kit, a4(language)))).slice(2);
    const [sheet, part, put] = language === 'en' ? ['Sheet', 'Part', 'Put down at'] : ['Hoja', 'Parte', 'Se dejó en'];
    [...kit.stations, ...kit.places].forEach(({ sheetNo, kind }, index) => {
      const page = (pages[index] ?? '').replaceAll(/\s+/g, ' ');
      for (const said of [`${sheet} ${sheetNo} `, ` ${part} `, ' 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 ']) expect(`${page} `).toContain(said);
      expect(page.includes(put)).toBe(kind === 'station');
    });
  });

  test('fits US letter: no slip runs over to a second page', async () => {
    const pdf = await paperKitPdf(kitOf(3), { language: 'es', paper: 'letter' });
    expect(await textOf(pdf)).toHaveLength(1 + 3 + 2 + 2);
    expect(await inkBeyond(pdf, null)).toEqual([]);
  }, 60_000);
});

test('a word that is wider than its column is broken, never cut: every letter of it is on the paper', async () => {
  const whole = (await textOf(await receiptPdf(handBackOf(4), a4('en')))).join('').replaceAll(/\s/g, '');
  expect(whole).toContain(LONG_WORD);
  expect(whole).not.toContain('…');
});

test('letters with accents are there, in both languages; a letter that the typeface lacks is said to be missing', async () => {
  const spanish = (await textOf(await receiptPdf(handBackOf(6), a4('es')))).join('\n');
  for (const word of ['ñandutí', 'Álbum', '«Verano', 'montaña', 'Comprobación', 'Página']) expect(spanish.toLowerCase()).toContain(word.toLowerCase());
  expect(spanish).not.toContain('\uFFFD');
  const given = handBackOf(1);
  const [item] = given.receipt.items;
  if (item) item.description = 'Ковёр';
  expect((await textOf(await receiptPdf(given, a4('en')))).join('\n')).toContain('may stand for a letter or sign that this');
});

test('the receipt says who handed what to whom, what was done and not done, what was said against it, and promises nothing', async () => {
  const given = handBackOf(2, { reservations: 'La costura no estaba rota.\nFalta un botón.', signature: SIGNED });
  const text = (await textOf(await receiptPdf(given, a4('es')))).join('\n').replaceAll(/\s+/g, ' ');
  for (const said of ['HH-0042', 'Lead one', '20 de mayo de 2026, 09:10 (America/Denver)', 'No se secó aquí.', 'La costura no estaba rota. Falta un botón.', 'No se promete nada']) expect(text).toContain(said);
  const drawn = await receiptPdf(given, a4('es'));
  await maybeSave('receipt-signed-es', drawn);
  expect(drawn.length).toBeGreaterThan((await receiptPdf({ ...given, signature: null }, a4('es'))).length - 4_000);
});

test('things of which the same is said stand together, each by its tag, and none is left out', async () => {
  const given = handBackOf(40);
  const text = (await textOf(await receiptPdf(given, a4('en')))).join('\n');
  for (const { tag } of given.receipt.items) expect(text.split(tag)).toHaveLength(2);
  expect(text.split('What was done').length - 1).toBeLessThan(10);
});

test('the care sheet says by material what to do in the next weeks, what not, and when to ask, each with what it rests on', async () => {
  const text = (await textOf(await careSheetPdf(handBackOf(12), a4('en')))).join('\n').replaceAll(/\s+/g, ' ');
  for (const said of ['In the next weeks', 'What not to do', 'When to ask a conservator', 'CCI Notes 13/15', 'our own judgement', 'Padded quilt', 'Bound book', 'Never']) expect(text).toContain(said);
  const numbers = [...text.matchAll(/\[(\d+)\]/g)].map((match) => Number(match[1]));
  expect(new Set(numbers).size).toBe(Math.max(...numbers));
});

test('the referral package says first what can hurt whoever opens it, then how the thing is, what its owner allows and up to how much', async () => {
  const text = (await textOf(await referralPaperPdf(packageOf(), a4('en')))).join('\n').replaceAll(/\s+/g, ' ');
  for (const said of ['Before you open it', 'gloves', 'river water or sewage', '285 hours', 'counted from the beginning of the flood', 'At most USD 250.00', 'USD 180.00', 'approved', 'photo-1', 'You decide what is done']) expect(text).toContain(said);
  expect(text.indexOf('gloves')).toBeLessThan(text.indexOf('The thing'));
  expect((await textOf(await referralPaperPdf(packageOf(), a4('es')))).join('\n')).toContain('Como máximo');
});

test('the condition note tells the whole course with dates and hands by role, and no name', async () => {
  const text = (await textOf(await conditionNotePdf(dossierOf(), a4('en')))).join('\n').replaceAll(/\s+/g, ' ');
  for (const said of ['As it came', 'dripping', 'river water or sewage', 'red border', 'no dye on the swab', '6.25 kg', 'doubtful', 'did not succeed. Towels ran out.', '2 people, rinsing; Station RINSE', 'On the shelf A-1, Weir Lane hall.', 'no appraisal, no promise']) expect(text).toContain(said);
});
