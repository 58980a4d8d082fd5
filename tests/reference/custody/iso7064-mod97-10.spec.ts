import { describe, expect, test } from '@jest/globals';
import { checkDigits97, isValid97, mod97 } from '#custody';

/**
 * ISO/IEC 7064, MOD 97-10. The examples come from our guidance, api-conventions B.17 [K], and are recomputed here with
 * whole-number arithmetic that shares no code with the library.
 */
function bigRemainder(text: string): number {
  const digits = [...text].map((character) => String(parseInt(character, 36))).join('');
  return Number(BigInt(digits) % 97n);
}

describe('ISO/IEC 7064 MOD 97-10', () => {
  test('794 takes the check digits 44 (ISO/IEC 7064, worked example)', () => {
    expect(checkDigits97('794')).toBe('44');
    expect(isValid97('79444')).toBe(true);
  });

  test('the IBAN example GB82 WEST 1234 5698 7654 32 leaves 1 when rearranged (ISO 13616-1)', () => {
    const iban = 'GB82WEST12345698765432';
    const rearranged = iban.slice(4) + iban.slice(0, 4);
    expect(mod97(rearranged)).toBe(1);
    expect(isValid97(rearranged)).toBe(true);
    expect(checkDigits97(`${iban.slice(4)}GB`)).toBe('82');
  });

  test.each(['5493001KJTIIGC8Y1R12', '213800WSGIIZCXF1P572'])('the LEI %s leaves 1 (ISO 17442-1)', (lei) => {
    expect(mod97(lei)).toBe(1);
    expect(isValid97(lei)).toBe(true);
    expect(checkDigits97(lei.slice(0, -2))).toBe(lei.slice(-2));
  });

  test.each(['0', '97', 'Z', 'WEST12345698765432', 'ZZZZZZZZZZZZZZZZZZZZZZZZZZZZZZ'])('%s leaves the remainder that exact arithmetic gives', (text) => {
    expect(mod97(text)).toBe(bigRemainder(text));
  });

  test('a second spelling with the same remainder is refused', () => {
    // 98 and 01, 97 and 00, 02 and 99 leave the same remainder; only 02 to 98 are ever issued.
    const byCheck = (check: string): string => {
      for (let n = 0; n < 10_000; n += 1) if (checkDigits97(`K${n}`) === check) return `K${n}`;
      throw new Error(`no number takes ${check}`);
    };
    for (const [proper, twin] of [['98', '01'], ['97', '00'], ['02', '99']] as const) {
      const stem = byCheck(proper);
      expect(isValid97(stem + proper)).toBe(true);
      expect(mod97(stem + twin)).toBe(1);
      expect(isValid97(stem + twin)).toBe(false);
    }
  });

  test.each(['', 'a1', '12 3', 'É1', '1-2'])('%j is not silently counted', (text) => {
    expect(() => mod97(text)).toThrow(RangeError);
    expect(isValid97(text)).toBe(false);
  });
});
