import { describe, expect, test } from '@jest/globals';
import * as fc from 'fast-check';
import { oneLine, receiptText, type Receipt } from '#application';
import { LANGUAGES } from '#care';

/** Text as people and attackers type it: breaks, escapes, reordering marks, patterns, formulas, markup. */
const nasty = fc.array(fc.oneof(fc.string({ unit: 'grapheme' }), fc.constantFrom('\n', '\r\n', '\u2028', '\u0085', '\u001b[2J', '\u202e', '\u2066', '\u0000', '\ufeff', '\t', '{done}', "'{'", '=1+1', '<b>', '1. BBBC-BBB-47: ', 'Condition: ')), { maxLength: 12 }).map((parts) => parts.join(''));

// Unicode Standard 16.0, section 23: control and format characters; ICU MessageFormat: braces are patterns.
const BREAKS = /[\p{Cc}\p{Zl}\p{Zp}]/u;
const REORDERS = /[\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069]/u;

describe('what somebody typed, in one line', () => {
  test('never breaks a line, moves a cursor or turns the direction of reading', () => {
    fc.assert(fc.property(nasty, (text) => {
      const line = oneLine(text);
      expect(BREAKS.test(line)).toBe(false);
      expect(REORDERS.test(line)).toBe(false);
      expect(oneLine(line)).toBe(line);
    }));
  });

  test('keeps every letter in its order, joiners of scripts and emoji among them', () => {
    fc.assert(fc.property(nasty, (text) => {
      const letters = (words: string): string => words.replace(/[\s\p{Cc}\p{Zl}\p{Zp}\p{Cf}]/gu, '');
      expect(letters(oneLine(text))).toBe(letters(text));
    }));
    expect(oneLine('می\u200cخواهم 👩\u200d🔧')).toBe('می\u200cخواهم 👩\u200d🔧');
  });
});

const item = fc.record({ description: nasty, conditionNote: nasty });

test('no note and no description of anybody can make or hide a line of a receipt, in any language', () => {
  fc.assert(
    fc.property(fc.array(item, { minLength: 1, maxLength: 3 }), fc.constantFrom(...LANGUAGES), (items, language) => {
      const receipt = (told: { description: string; conditionNote: string }[]): Receipt => ({
        handBackId: 'id', householdCode: 'HH-1', handedAt: '2026-05-09T07:00:00.000Z', ruleBookVersion: '2026.2', standing: 'First aid.',
        items: told.map((one, index) => ({ itemId: String(index), tag: 'BBBC-BBB-47', count: 1, done: [], notDone: [], storageAdvice: [], never: ['Never wring it.'], residualRisk: [], ...one })),
      });
      const lines = receiptText(receipt(items), language).split('\n');
      const plain = receiptText(receipt(items.map(() => ({ description: 'x', conditionNote: 'x' }))), language).split('\n');
      expect(lines).toHaveLength(plain.length);
      for (const line of lines) expect([BREAKS.test(line), REORDERS.test(line)]).toEqual([false, false]);
      items.forEach(({ conditionNote }) => expect(lines.join('\n')).toContain(oneLine(conditionNote)));
    }),
  );
});
