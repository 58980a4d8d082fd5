/** Sheets of tags as a printer gets them: drawn by us, rendered and decoded by others, and measured in the pictures. */
import { afterAll, describe, expect, test } from '@jest/globals';
import { BUILT_IN_TEMPLATES, formatTagCode, INSET_MM, labelFrames, labelLayout, labelsPerPage, makeTagCode, TAG_ALPHABET, TAG_KINDS, type LabelFrame, type LabelTemplate } from '#custody';
import { calibrationPdf } from '../../../apps/api/src/documents/calibration-page.js';
import { labelSheetPdf, type LabelSheet } from '../../../apps/api/src/documents/label-sheet.js';
import { LABEL_TYPE } from '../../../apps/api/src/documents/label-type.js';
import { PdfPages, POINTS_PER_MM } from '../../../apps/api/src/documents/pdf-page.js';
import { QUIET_MODULES, TAG_QR_MODULES, tagQr } from '../../../apps/api/src/documents/qr-squares.js';
import { DPI, inkBox, Onlooker, pageSizesPt, picturesOf, type BoxMm, type Look, type Picture } from './pictures.support.js';

/** What the issue allows; a pixel is 0.085 mm. */
const TOLERANCE_MM = 0.2;
/**
 * Pixels for each module of a symbol when all pages of a long sheet are read: fewer than a telephone held over the label sees. The labels
 * of the short sheets are read and measured at 300 dpi.
 */
const READ_MODULE_PIXELS = 4;
const onlooker = new Onlooker();
afterAll(() => onlooker.close());
const layoutOf = (template: LabelTemplate) => {
  const layout = labelLayout(template.label, LABEL_TYPE);
  if (layout === null) throw new Error('too small');
  return layout;
};

function sheetOf(template: LabelTemplate, count: number, change: Partial<LabelSheet> = {}): LabelSheet {
  const kind = change.kind ?? 'item';
  const tags = Array.from({ length: count }, (_, index) => ({ code: makeTagCode(1 + index, kind), placeName: null }));
  return { template, kind, tags, incidentName: 'River Selm flood', firstPosition: 0, cutLines: false, language: 'en', createdAtMs: 0, ...change };
}

/** Where the symbol should stand: its dark corner, without the quiet zone. */
function symbolOf(template: LabelTemplate, frame: LabelFrame) {
  const { qr } = layoutOf(template);
  const quietMm = QUIET_MODULES * qr.moduleMm;
  return { xMm: frame.xMm + qr.xMm + quietMm, yMm: frame.yMm + qr.yMm + quietMm, widthMm: TAG_QR_MODULES * qr.moduleMm, heightMm: TAG_QR_MODULES * qr.moduleMm };
}

const pages = async (sheet: LabelSheet) => picturesOf(await labelSheetPdf(sheet));
let worstMm = 0;

/** The ink that was found within a box and two modules around it is just the box. */
function expectInk(ink: BoxMm | null | undefined, box: BoxMm): void {
  if (!ink) throw new Error('there is no ink');
  const off = [ink.xMm - box.xMm, ink.yMm - box.yMm, ink.xMm + ink.widthMm - box.xMm - box.widthMm, ink.yMm + ink.heightMm - box.yMm - box.heightMm].map(Math.abs);
  worstMm = Math.max(worstMm, ...off);
  expect(Math.max(...off)).toBeLessThanOrEqual(TOLERANCE_MM);
}

const around = (box: BoxMm, mm: number): BoxMm => ({ xMm: box.xMm - mm, yMm: box.yMm - mm, widthMm: box.widthMm + 2 * mm, heightMm: box.heightMm + 2 * mm });

/** Checks every label of a sheet: symbol where it should be and readable, all other ink within the label. */
async function checkLabels(template: LabelTemplate, sheet: LabelSheet, pdf: Uint8Array): Promise<{ read: number; count: number }> {
  const { moduleMm } = layoutOf(template).qr;
  const frames = labelFrames(template, sheet.tags.length, sheet.firstPosition);
  const symbols = frames.map((frame) => symbolOf(template, frame));
  const looks = frames.map((frame, index): Look => ({ page: frame.page, inks: [around(symbols[index] as BoxMm, 2 * moduleMm), frame], symbols: [around(symbols[index] as BoxMm, QUIET_MODULES * moduleMm)] }));
  const { count, seen } = await onlooker.see(pdf, DPI, looks);
  frames.forEach((frame, index) => {
    const { inks: [dark, all] = [], symbols: [code] = [] } = seen[index] ?? {};
    expectInk(dark, symbols[index] as BoxMm);
    expect(code).toBe(sheet.tags[index]?.code);
    if (!all) throw new Error('an empty label');
    // Nothing nearer to the edge than the inset, so nothing is cut off.
    for (const distance of [all.xMm - frame.xMm, all.yMm - frame.yMm, frame.xMm + frame.widthMm - all.xMm - all.widthMm, frame.yMm + frame.heightMm - all.yMm - all.heightMm]) expect(distance).toBeGreaterThanOrEqual(INSET_MM - TOLERANCE_MM);
  });
  return { read: seen.length, count };
}

describe.each(BUILT_IN_TEMPLATES.map(({ id, template }) => ({ id, template })))('$id', ({ template }) => {
  const perPage = labelsPerPage(template);

  test.each([1, 30])('%d labels: page size, page count, every symbol in its place and read back, nothing cut off', async (count) => {
    const sheet = sheetOf(template, count);
    const pdf = await labelSheetPdf(sheet);
    const sizes = pageSizesPt(pdf);
    expect(sizes).toHaveLength(Math.ceil(count / perPage));
    for (const { width, height } of sizes) {
      expect((width / 72) * 25.4).toBeCloseTo(template.page.widthMm, 2);
      expect((height / 72) * 25.4).toBeCloseTo(template.page.heightMm, 2);
    }
    expect(await checkLabels(template, sheet, pdf)).toEqual({ read: count, count: sizes.length });
  }, 120_000);

  test('300 labels: page count, and every symbol of all pages read back', async () => {
    const sheet = sheetOf(template, 300);
    const { qr } = layoutOf(template);
    const frames = labelFrames(template, 300);
    const dpi = Math.min(DPI, Math.ceil((READ_MODULE_PIXELS * 25.4) / qr.moduleMm));
    const looks = frames.map((frame): Look => ({ page: frame.page, inks: [], symbols: [{ xMm: frame.xMm + qr.xMm, yMm: frame.yMm + qr.yMm, widthMm: qr.widthMm, heightMm: qr.heightMm }] }));
    const { count, seen } = await onlooker.see(await labelSheetPdf(sheet), dpi, looks);
    expect(count).toBe(Math.ceil(300 / perPage));
    expect(seen.map(({ symbols }) => symbols[0])).toEqual(sheet.tags.map(({ code }) => code));
  }, 120_000);

  test('a part-used sheet begins at its first free label', async () => {
    if (perPage === 1) return;
    const sheet = sheetOf(template, 2, { firstPosition: perPage - 1, kind: 'container' });
    const pdf = await labelSheetPdf(sheet);
    expect(await checkLabels(template, sheet, pdf)).toEqual({ read: 2, count: 2 });
    const { seen } = await onlooker.see(pdf, DPI, [{ page: 0, inks: labelFrames(template, perPage - 1), symbols: [] }]);
    expect(new Set(seen[0]?.inks)).toEqual(new Set([null]));
  }, 60_000);

  test('frames to cut along lie within 0.2 mm of the template', async () => {
    const picture = (await pages(sheetOf(template, perPage, { cutLines: true })))[0] as Picture;
    // The corner lines alone: a strip across the middle of each edge holds nothing else of the label.
    for (const frame of labelFrames(template, perPage)) {
      const middle = { xMm: frame.xMm + frame.widthMm / 2, yMm: frame.yMm + frame.heightMm / 2 };
      const strips = [
        { edgeMm: frame.xMm, ink: inkBox(picture, { xMm: frame.xMm - 1, yMm: middle.yMm - 0.5, widthMm: 2, heightMm: 1 }), of: 'x' as const },
        { edgeMm: frame.yMm, ink: inkBox(picture, { xMm: middle.xMm - 0.5, yMm: frame.yMm - 1, widthMm: 1, heightMm: 2 }), of: 'y' as const },
      ];
      for (const { edgeMm, ink, of } of strips) {
        if (edgeMm < 1) continue;
        if (ink === null) throw new Error('no line to cut along');
        const lineMm = of === 'x' ? ink.xMm + ink.widthMm / 2 : ink.yMm + ink.heightMm / 2;
        // Neighbours without a gap draw their lines on one another.
        worstMm = Math.max(worstMm, Math.abs(lineMm - edgeMm));
        expect(Math.abs(lineMm - edgeMm)).toBeLessThanOrEqual(TOLERANCE_MM);
      }
    }
  }, 60_000);
});

describe('signs of places', () => {
  const sign = BUILT_IN_TEMPLATES.find(({ id }) => id === 'sign-a4')?.template as LabelTemplate;

  test.each(['Rack 1', 'Freezer trailer at the north gate of the old dye works, behind the stage', 'Estantería «Ñandú», Łódź', 'Donaudampfschifffahrtsgesellschaftskapitänskajüte'])('%s stands on its sign in letters that fit', async (placeName) => {
    const sheet = sheetOf(sign, 1, { kind: 'place', tags: [{ code: makeTagCode(1, 'place'), placeName }] });
    const pdf = await labelSheetPdf(sheet);
    await checkLabels(sign, sheet, pdf);
    const pictures = await picturesOf(pdf);
    const frame = labelFrames(sign, 1)[0] as LabelFrame;
    const name = layoutOf(sign).writing;
    if (name === null) throw new Error('no name on a sign');
    const ink = inkBox(pictures[0] as Picture, { ...name, xMm: frame.xMm + name.xMm, yMm: frame.yMm + name.yMm });
    expect(ink?.heightMm ?? 0).toBeGreaterThan(4);
    expect(ink?.widthMm ?? 0).toBeGreaterThan(30);
  }, 60_000);

  test('a name in a script that the typeface lacks leaves the field blank for a hand instead of question marks', async () => {
    const tag = { code: makeTagCode(1, 'place') };
    const [blank, unknown] = await Promise.all([null, 'Стеллаж'].map(async (placeName) => (await labelSheetPdf(sheetOf(sign, 1, { kind: 'place', tags: [{ ...tag, placeName }] }))).toString('latin1')));
    expect(unknown).toBe(blank);
  });
});

describe('the calibration page', () => {
  test.each(BUILT_IN_TEMPLATES.map(({ id, template }) => ({ id, template })))('$id: rulers are as long as they say, to 0.2 mm', async ({ id, template }) => {
    const picture = (await picturesOf(await calibrationPdf({ name: id, template, language: 'en', createdAtMs: 0 })))[0] as Picture;
    const isLarge = (sideMm: number) => sideMm >= 150;
    const start = (sideMm: number) => (isLarge(sideMm) ? 10 : 5);
    const { widthMm, heightMm } = template.page;
    const acrossMm = Math.max(10, Math.floor((widthMm - 2 * start(widthMm)) / 10) * 10);
    const downMm = Math.max(10, Math.floor((heightMm - 2 * start(heightMm)) / 10) * 10);
    const fromX = acrossMm > 100 ? 10 : 5;
    const fromY = downMm > 100 ? 10 : 5;
    // The last long tick ends where the ruler does; the line of the ruler itself is at its side.
    const lastAcross = inkBox(picture, { xMm: fromX + acrossMm - 0.45, yMm: fromX + 2.2, widthMm: 0.9, heightMm: 0.6 });
    const lastDown = inkBox(picture, { xMm: fromY + 2.2, yMm: fromY + downMm - 0.45, widthMm: 0.6, heightMm: 0.9 });
    expect(Math.abs((lastAcross?.xMm ?? 0) + (lastAcross?.widthMm ?? 0) / 2 - fromX - acrossMm)).toBeLessThanOrEqual(TOLERANCE_MM);
    expect(Math.abs((lastDown?.yMm ?? 0) + (lastDown?.heightMm ?? 0) / 2 - fromY - downMm)).toBeLessThanOrEqual(TOLERANCE_MM);
  }, 60_000);

  test('speaks Spanish', async () => {
    const { template } = BUILT_IN_TEMPLATES[0] as (typeof BUILT_IN_TEMPLATES)[number];
    const [english, spanish] = await Promise.all((['en', 'es'] as const).map((language) => calibrationPdf({ name: 'x', template, language, createdAtMs: 0 })));
    expect(spanish?.toString('latin1')).toContain('/Lang (es)');
    expect(spanish?.equals(english as Buffer)).toBe(false);
  });
});

describe('the measures behind it', () => {
  test('no code is wider than the layout reckons with, whatever its letters', () => {
    const pdf = new PdfPages({ title: '', language: 'en', createdAtMs: 0 });
    const widest = (characters: string) => [...characters].reduce((one, other) => (width(other.repeat(8)) > width(one.repeat(8)) ? other : one));
    const width = (text: string) => pdf.widthMm(text, { sizeMm: 1, weight: 'bold' });
    const letter = widest(TAG_ALPHABET);
    const digit = widest('0123456789');
    for (const kind of TAG_KINDS) {
      const first = makeTagCode(0, kind).charAt(0);
      const printed = formatTagCode(`${first}${letter.repeat(6)}${digit.repeat(2)}`);
      for (const { lines, widthEm } of LABEL_TYPE.code) for (const [from, to] of lines) expect(width(printed.slice(from, to))).toBeLessThanOrEqual(widthEm);
    }
    for (let serial = 1; serial < 4_000; serial += 1) {
      const printed = formatTagCode(makeTagCode(serial * 15_991, 'item'));
      for (const { lines, widthEm } of LABEL_TYPE.code) for (const [from, to] of lines) if (width(printed.slice(from, to)) > widthEm) throw new Error(printed);
    }
  });

  test('every built-in template has a symbol of 0.5 mm modules or more, letters of 5 mm or more, and a field to write in', () => {
    for (const { template } of BUILT_IN_TEMPLATES) {
      const layout = layoutOf(template);
      expect(layout.qr.moduleMm).toBeGreaterThanOrEqual(0.5);
      expect(layout.code.capHeightMm).toBeGreaterThanOrEqual(5);
      expect(layout.writing?.heightMm ?? 0).toBeGreaterThanOrEqual(4.5);
    }
  });

  test('a symbol is version 2, and a point is 1/72 inch', () => {
    expect(tagQr('KRMJXTS43').modules).toBe(25);
    expect(POINTS_PER_MM * 25.4).toBeCloseTo(72, 10);
    expect(DPI).toBe(300);
  });

  test('the same sheet has the same bytes', async () => {
    const sheet = sheetOf((BUILT_IN_TEMPLATES[0] as (typeof BUILT_IN_TEMPLATES)[number]).template, 3);
    expect((await labelSheetPdf(sheet)).equals(await labelSheetPdf(sheet))).toBe(true);
  });
});

test('how far off the worst edge was', () => {
  process.stdout.write(`label sheets at ${DPI} dpi: worst edge ${worstMm.toFixed(3)} mm off\n`);
  expect(worstMm).toBeLessThanOrEqual(TOLERANCE_MM);
});
