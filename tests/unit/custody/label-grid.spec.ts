/** Where labels lie, and what stands where on one: nothing off the page, nothing on anything else. */
import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { BUILT_IN_TEMPLATES, codeBaselinesMm, INSET_MM, labelFrame, labelFrames, labelLayout, labelsPerPage, MIN_MODULE_MM, SMALLEST_LABELS_MM, templateFaults, type Box, type LabelTemplate, type TypeMeasure } from '#custody';

const TYPE: TypeMeasure = { capHeightEm: 0.668, code: [{ lines: [[0, 11]], widthEm: 8.05 }, { lines: [[0, 4], [5, 11]], widthEm: 4.35 }, { lines: [[0, 4], [5, 8], [9, 11]], widthEm: 3.35 }] };

const mm = (min: number, max: number) => fc.integer({ min: min * 100, max: max * 100 }).map((hundredths) => hundredths / 100);
/** Any grid, most of which fit no page. */
const anyTemplate: fc.Arbitrary<LabelTemplate> = fc.record({
  page: fc.record({ widthMm: mm(20, 420), heightMm: mm(20, 600) }), marginLeftMm: mm(0, 40), marginTopMm: mm(0, 40), columns: fc.integer({ min: 1, max: 8 }), rows: fc.integer({ min: 1, max: 12 }),
  pitchXMm: mm(0, 120), pitchYMm: mm(0, 120), label: fc.record({ widthMm: mm(10, 200), heightMm: mm(10, 200) }), cornerMm: mm(0, 20),
});
/** Grids that fit by how they are made: a page around labels, gaps and margins. */
const fitting: fc.Arbitrary<LabelTemplate> = fc
  .record({ label: fc.record({ widthMm: mm(10, 120), heightMm: mm(10, 120) }), gapXMm: mm(0, 9), gapYMm: mm(0, 9), columns: fc.integer({ min: 1, max: 8 }), rows: fc.integer({ min: 1, max: 12 }), marginLeftMm: mm(0, 30), marginTopMm: mm(0, 30), restMm: mm(0, 30) })
  .map(({ label, gapXMm, gapYMm, columns, rows, marginLeftMm, marginTopMm, restMm }) => ({
    label, columns, rows, marginLeftMm, marginTopMm, pitchXMm: label.widthMm + gapXMm, pitchYMm: label.heightMm + gapYMm, cornerMm: 0,
    page: { widthMm: marginLeftMm + columns * label.widthMm + (columns - 1) * gapXMm + restMm, heightMm: marginTopMm + rows * label.heightMm + (rows - 1) * gapYMm + restMm },
  }));

const isApart = (a: Box, b: Box) => a.xMm + a.widthMm <= b.xMm + 1e-6 || b.xMm + b.widthMm <= a.xMm + 1e-6 || a.yMm + a.heightMm <= b.yMm + 1e-6 || b.yMm + b.heightMm <= a.yMm + 1e-6;
const isInside = (box: Box, { widthMm, heightMm }: { widthMm: number; heightMm: number }, marginMm: number) =>
  box.xMm >= marginMm - 1e-6 && box.yMm >= marginMm - 1e-6 && box.xMm + box.widthMm <= widthMm - marginMm + 1e-6 && box.yMm + box.heightMm <= heightMm - marginMm + 1e-6;

describe('a grid', () => {
  test('that is built to fit has no fault, and each that has none keeps its labels on the page and off one another', () => {
    fc.assert(fc.property(fitting, (template) => expect(templateFaults(template)).toEqual([])));
    fc.assert(
      fc.property(fc.oneof(anyTemplate, fitting), (template) => {
        if (templateFaults(template).length > 0) return;
        const frames = labelFrames(template, labelsPerPage(template));
        // What rounding to hundredths may add up to, 0.05 mm.
        frames.forEach((frame) => expect(isInside(frame, template.page, -0.05)).toBe(true));
        frames.forEach((frame, index) => frames.slice(index + 1).forEach((other) => expect(isApart(frame, other)).toBe(true)));
      }),
    );
  });

  test('keeps its pitch exactly, page after page', () => {
    fc.assert(
      fc.property(fitting, fc.integer({ min: 0, max: 2_000 }), (template, position) => {
        const perPage = labelsPerPage(template);
        const here = labelFrame(template, position);
        expect(labelFrame(template, position + perPage)).toEqual({ ...here, page: here.page + 1 });
        if ((position % perPage) % template.columns < template.columns - 1) {
          const right = labelFrame(template, position + 1);
          expect([right.xMm - here.xMm, right.yMm]).toEqual([expect.closeTo(template.pitchXMm, 9), here.yMm]);
        }
        if ((position % perPage) + template.columns < perPage) {
          const lower = labelFrame(template, position + template.columns);
          expect([lower.xMm, lower.yMm - here.yMm]).toEqual([here.xMm, expect.closeTo(template.pitchYMm, 9)]);
        }
      }),
    );
  });

  test('that does not fit says what to change', () => {
    const { template } = BUILT_IN_TEMPLATES[0]!;
    const faults = (change: Partial<LabelTemplate>) => templateFaults({ ...template, ...change }).map(({ fault }) => fault);
    expect(faults({ columns: 4 })).toEqual(['too-wide']);
    expect(faults({ rows: 8 })).toEqual(['too-high']);
    expect(faults({ pitchXMm: 60 })).toEqual(['columns-overlap']);
    expect(faults({ pitchYMm: 38 })).toEqual(['rows-overlap']);
    expect(faults({ cornerMm: 20 })).toEqual(['corner-too-round']);
    expect(templateFaults({ ...template, marginLeftMm: 20 })[0]?.text).toBe('The columns end 215.5 mm from the left, but the page is 210 mm wide. Check the left margin, the distance from label to label, and the number of columns.');
  });

  test('has no position before the first or, to begin with, beyond the page', () => {
    const { template } = BUILT_IN_TEMPLATES[0]!;
    expect(() => labelFrame(template, -1)).toThrow(RangeError);
    expect(() => labelFrame(template, 0.5)).toThrow(RangeError);
    expect(() => labelFrames(template, 1, 21)).toThrow(RangeError);
  });

  test('each that comes with the program fits, is named by its dimensions, and once', () => {
    for (const { id, template } of BUILT_IN_TEMPLATES) {
      expect(templateFaults(template)).toEqual([]);
      expect(id).toMatch(/^((a4|letter|roll)-\d+x\d+|sign-(a4|a4-half|letter))$/);
      const [, wide, high] = /(\d+)x(\d+)$/.exec(id) ?? [];
      if (wide !== undefined) expect([Math.round(template.label.widthMm), Math.round(template.label.heightMm)]).toEqual([Number(wide), Number(high)]);
    }
    expect(new Set(BUILT_IN_TEMPLATES.map(({ id }) => id)).size).toBe(BUILT_IN_TEMPLATES.length);
  });
});

describe('a label', () => {
  test('of any size that is large enough has everything within its edges, and nothing on anything else', () => {
    const { lying, upright } = SMALLEST_LABELS_MM;
    const large = fc.oneof(
      fc.record({ heightMm: mm(lying.heightMm, 300), ratio: fc.double({ min: 0.5, max: 6, noNaN: true }) }).map(({ heightMm, ratio }) => ({ widthMm: Math.max(lying.widthMm, heightMm * ratio), heightMm })),
      fc.record({ widthMm: mm(upright.widthMm, 60), heightMm: mm(upright.heightMm, 300) }),
    );
    fc.assert(
      fc.property(large, (label) => {
        const layout = labelLayout(label, TYPE);
        if (layout === null) throw new Error('no layout');
        const { qr, code, caption, writing } = layout;
        const boxes: Box[] = [qr, code, caption, ...(writing === null ? [] : [writing])];
        for (const box of boxes) expect(isInside(box, label, INSET_MM)).toBe(true);
        boxes.forEach((box, index) => boxes.slice(index + 1).forEach((other) => expect(isApart(box, other)).toBe(true)));
        expect(qr.moduleMm).toBeGreaterThanOrEqual(MIN_MODULE_MM);
        expect(qr.moduleMm / 0.125).toBeCloseTo(Math.round(qr.moduleMm / 0.125), 9);
        expect(qr.widthMm).toBeCloseTo(33 * qr.moduleMm, 9);
        expect(code.capHeightMm).toBeGreaterThan(1.5);
        const measure = TYPE.code.find(({ lines }) => lines.length === code.lines.length);
        expect((measure?.widthEm ?? 0) * code.sizeMm).toBeLessThanOrEqual(code.widthMm + 1e-6);
        for (const baselineMm of codeBaselinesMm(code)) {
          expect(baselineMm - code.capHeightMm).toBeGreaterThanOrEqual(code.yMm - 1e-6);
          expect(baselineMm).toBeLessThanOrEqual(code.yMm + code.heightMm + 1e-6);
        }
      }),
      { numRuns: 1_000 },
    );
  });

  test('that is too small has no layout', () => {
    for (const label of [{ widthMm: 20, heightMm: 20 }, { widthMm: 100, heightMm: 20 }, { widthMm: 20, heightMm: 100 }]) expect(labelLayout(label, TYPE)).toBeNull();
  });
});
