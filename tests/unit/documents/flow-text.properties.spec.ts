import { expect, test } from '@jest/globals';
import fc from 'fast-check';
import { TextMeasure } from '../../../apps/api/src/documents/flow/flow-text.js';
import { PdfPages } from '../../../apps/api/src/documents/pdf-page.js';

const measure = new TextMeasure(new PdfPages({ title: '', language: 'en', createdAtMs: 0 }));
const word = fc.stringMatching(/^[A-Za-zÁÉÍÓÚÑáéíóúñü0-9.,/@-]{1,60}$/);
const text = fc.array(fc.tuple(word, fc.constantFrom(' ', '  ', '\n', '\t')), { maxLength: 25 }).map((parts) => parts.flat().join(''));

test('breaking a text into lines loses no letter, keeps their order, and no line is wider than its room', () => {
  fc.assert(
    fc.property(text, fc.integer({ min: 12, max: 180 }), fc.constantFrom('regular' as const, 'bold' as const), (given, widthMm, weight) => {
      const style = { sizeMm: 4.4, weight };
      const lines = measure.lines(given, widthMm, style);
      expect(lines.join('').replaceAll(/\s/g, '')).toBe(given.replaceAll(/\s/g, ''));
      for (const line of lines) expect(measure.widthMm(line, style)).toBeLessThanOrEqual(widthMm + 1e-6);
    }),
    { numRuns: 200 },
  );
});
