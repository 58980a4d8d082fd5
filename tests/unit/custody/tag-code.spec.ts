import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { TAG_ALPHABET, TAG_CODE_LENGTH, TAG_KINDS, TAG_SERIAL_COUNT, formatTagCode, isTagCode, isTagFault, makeTagCode, nearestPlausible, parseTagCode, type TagCode, type TagKind } from '#custody';

const ALL = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ';

/** 2,000 codes of all kinds, spread over the whole range and with runs of neighbours. */
const CODES: string[] = Array.from({ length: 2000 }, (_, i) => {
  const serial = i % 2 === 0 ? i : (i * 31_999_927) % TAG_SERIAL_COUNT;
  return makeTagCode(serial, TAG_KINDS[i % TAG_KINDS.length] ?? 'item');
});

const kindArb = fc.constantFrom<TagKind>(...TAG_KINDS);
const serialArb = fc.oneof(fc.integer({ min: 0, max: TAG_SERIAL_COUNT - 1 }), fc.constantFrom(0, 1, TAG_SERIAL_COUNT - 1));

function read(text: string): TagCode {
  const result = parseTagCode(text);
  if (isTagFault(result)) throw new Error(`${text}: ${result.fault}`);
  return result;
}

function substituted(code: string): string[] {
  return [...code].flatMap((right, at) => [...ALL].filter((wrong) => wrong !== right).map((wrong) => code.slice(0, at) + wrong + code.slice(at + 1)));
}

function swapped(code: string): string[] {
  return Array.from({ length: code.length - 1 }, (_, at) => code.slice(0, at) + code.charAt(at + 1) + code.charAt(at) + code.slice(at + 2)).filter((each) => each !== code);
}

describe('tag codes', () => {
  test('the alphabet leaves out I, L, O and U and every vowel but Y', () => {
    expect(TAG_ALPHABET).toBe('BCDFGHJKMNPQRSTVWXYZ');
    expect(TAG_ALPHABET.length ** 6).toBe(TAG_SERIAL_COUNT);
  });

  test('a serial number and a kind give one code, and the code gives them back', () => {
    fc.assert(
      fc.property(serialArb, kindArb, (serial, kind) => {
        const code = makeTagCode(serial, kind);
        expect(code).toMatch(/^[KCPV][BCDFGHJKMNPQRSTVWXYZ]{6}[0-9]{2}$/);
        expect(read(code)).toEqual({ code, kind, serial });
        expect(makeTagCode(serial, kind)).toBe(code);
      }),
      { numRuns: 5000 },
    );
  });

  test('every code has a serial number: the map is onto as well', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...TAG_ALPHABET), { minLength: 6, maxLength: 6 }), (letters) => {
        const body = letters.join('');
        // Only the right check digits read; try all and make the code again from its serial number.
        const codes = Array.from({ length: 100 }, (_, check) => `K${body}${String(check).padStart(2, '0')}`).filter(isTagCode);
        expect(codes).toHaveLength(1);
        expect(makeTagCode(read(codes[0] ?? '').serial, 'item')).toBe(codes[0]);
      }),
    );
  });

  test('codes are frozen: tags already tied to things must read for ever', () => {
    expect([makeTagCode(0, 'item'), makeTagCode(1, 'item'), makeTagCode(1, 'container'), makeTagCode(1, 'place'), makeTagCode(63_999_999, 'person')]).toEqual(['KBBBBBB24', 'KRMJXTS43', 'CRMJXTS79', 'PRMJXTS69', 'VKQSDHK42']);
  });

  test.each([-1, 0.5, TAG_SERIAL_COUNT, Number.NaN, Infinity])('serial %d is refused', (serial) => {
    expect(() => makeTagCode(serial, 'item')).toThrow(RangeError);
  });

  test('print is three groups in QR alphanumeric mode', () => {
    for (const code of CODES) {
      const printed = formatTagCode(code);
      expect(printed).toMatch(/^[KCPV][B-Z]{3}-[B-Z]{3}-[0-9]{2}$/);
      expect(printed).toMatch(/^[0-9A-Z $%*+\-./:]{11}$/);
      expect(read(printed).code).toBe(code);
    }
  });

  test('neighbours on a roll look nothing alike: bodies one letter or one swap apart are 1,806,400 serials apart', () => {
    // One letter or one adjacent swap changes the body's value by j * 20^k or by 19 * j * 20^k; the serials' distance depends
    // on that difference alone, so 209 cases cover every pair of codes.
    const zero = read(CODES.find((code) => read(code).serial === 0 && read(code).kind === 'item') ?? '').serial;
    const serialOfValue = (value: number): number => {
      let rest = value;
      let body = '';
      for (let i = 0; i < 6; i += 1) {
        body = TAG_ALPHABET.charAt(rest % 20) + body;
        rest = Math.floor(rest / 20);
      }
      const code = Array.from({ length: 100 }, (_, check) => `K${body}${String(check).padStart(2, '0')}`).find(isTagCode);
      return read(code ?? '').serial;
    };
    const distances: number[] = [];
    for (let k = 0; k < 6; k += 1) {
      for (let j = 1; j < 20; j += 1) {
        for (const step of [j * 20 ** k, k < 5 ? 19 * j * 20 ** k : j * 20 ** k]) {
          const d = serialOfValue(step % TAG_SERIAL_COUNT) - zero;
          distances.push(Math.min(Math.abs(d), TAG_SERIAL_COUNT - Math.abs(d)));
        }
      }
    }
    expect(Math.min(...distances)).toBe(1_806_400);
  });
});

describe('misreading is caught', () => {
  test('every single substitution by any letter or digit, over 2,000 codes: never read as another code', () => {
    let tried = 0;
    const slipped: string[] = [];
    for (const code of CODES) {
      for (const wrong of substituted(code)) {
        tried += 1;
        if (isTagCode(wrong)) slipped.push(`${code} ${wrong}`);
        const result = parseTagCode(wrong);
        // A look-alike of the right character may read, but only as the code that is meant.
        if (!isTagFault(result) && result.code !== code) slipped.push(`${code} ${wrong} ${result.code}`);
      }
    }
    expect(slipped).toEqual([]);
    expect(tried).toBe(2000 * TAG_CODE_LENGTH * 35);
  });

  test('every adjacent swap, over 2,000 codes: never read as another code', () => {
    let tried = 0;
    const slipped: string[] = [];
    for (const code of CODES) {
      for (const wrong of swapped(code)) {
        tried += 1;
        const result = parseTagCode(wrong);
        if (isTagCode(wrong) || (!isTagFault(result) && result.code !== code)) slipped.push(`${code} ${wrong}`);
      }
    }
    expect(slipped).toEqual([]);
    expect(tried).toBeGreaterThan(14_000);
  });

  test('a swap of the last letter and the first check digit never reads as another code, for any pair of them', () => {
    const pairs = new Set<string>();
    for (let serial = 0; pairs.size < 180 && serial < 50_000; serial += 1) {
      const code = makeTagCode(serial, 'item');
      pairs.add(code.slice(6, 8));
      const result = parseTagCode(code.slice(0, 6) + code.charAt(7) + code.charAt(6) + code.slice(8));
      if (!isTagFault(result)) expect(result.code).toBe(code);
    }
    expect(pairs.size).toBeGreaterThanOrEqual(180);
  });
});

describe('typing', () => {
  const code = makeTagCode(2_601, 'item');

  test.each([code.toLowerCase(), ` ${code} `, formatTagCode(code), formatTagCode(code).replaceAll('-', ' '), formatTagCode(code).replaceAll('-', '\u2013'), formatTagCode(code).replaceAll('-', '\u00a0'), [...code].join('.'), `${code}\r\n`])('%j reads', (text) => {
    expect(read(text)).toEqual({ code, kind: 'item', serial: 2_601 });
  });

  test('look-alikes read as the only character that may stand there', () => {
    const asDigit: Record<string, string> = { '0': 'OQD', '1': 'IL', '2': 'Z', '5': 'S', '8': 'B' };
    const asLetter: Record<string, string> = { S: '5', Z: '2', B: '8' };
    let tried = 0;
    for (const each of CODES) {
      [...each].forEach((right, at) => {
        for (const typed of (at > 6 ? asDigit : at > 0 ? asLetter : {})[right] ?? '') {
          tried += 1;
          expect(read(each.slice(0, at) + typed + each.slice(at + 1)).code).toBe(each);
        }
      });
    }
    expect(tried).toBeGreaterThan(1000);
  });

  test.each([
    ['', 'empty', /Scan the tag/],
    [' - - ', 'empty', /Scan the tag/],
    ['KBCD', 'length', /9 characters.*this has 4/],
    [`${code}0`, 'length', /this has 10/],
    ['x'.repeat(50_000), 'length', /this has 50000/],
    [`X${code.slice(1)}`, 'kind', /K \(item\), C \(container\), P \(place\) or V \(person\)/],
    ['KBCDF0G42', 'character', /six of the letters/],
    ['KBCDF1G42', 'character', /six of the letters/],
    ['KBCDFAG42', 'character', /six of the letters/],
    ['KBCDFGHJK', 'character', /two digits/],
    ['K\u0411CDFGH42', 'character', /only letters and digits/],
    ['Kß12345678', 'character', /only letters and digits/],
    [code.slice(0, -2) + (code.endsWith('42') ? '43' : '42'), 'check', /do not guess/],
  ].map(([text, fault, advice]) => ({ text: text as string, fault: fault as string, advice: advice as RegExp, name: (text as string).slice(0, 16) })))('"$name" is refused as $fault, with advice', ({ text, fault, advice }) => {
    expect(parseTagCode(text)).toEqual({ fault, text: expect.stringMatching(advice) });
  });

  test('any text answers with a code or a fault, and a code that was read always makes itself again', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary' }), fc.string({ unit: fc.constantFrom(...ALL, '-', ' '), maxLength: 12 })), (text) => {
        const result = parseTagCode(text);
        if (isTagFault(result)) expect(result.text).toMatch(/\.$/);
        else expect(makeTagCode(result.serial, result.kind)).toBe(result.code);
      }),
      { numRuns: 2000 },
    );
  });
});

describe('nearest plausible codes', () => {
  const known = CODES.slice(0, 400);

  test('a valid code is its own and only suggestion', () => {
    for (const code of known.slice(0, 50)) expect(nearestPlausible(code.toLowerCase(), null)).toEqual([code]);
  });

  test('any single slip leads back to the code, and among 400 known codes to no other', () => {
    let others = 0;
    for (const code of known.slice(0, 12)) {
      const missing = [...code].map((_, at) => code.slice(0, at) + code.slice(at + 1));
      const extra = [...code].map((character, at) => code.slice(0, at) + character + code.slice(at));
      for (const typed of [...substituted(code), ...swapped(code), ...missing, ...extra]) {
        const offers = nearestPlausible(typed, known);
        expect(offers).toContain(code);
        others += offers.length - 1;
      }
    }
    expect(others).toBe(0);
  });

  test('every suggestion is valid, new and one slip away; the order is fixed', () => {
    fc.assert(
      fc.property(serialArb, kindArb, fc.nat({ max: 8 }), fc.constantFrom(...ALL), (serial, kind, at, wrong) => {
        const code = makeTagCode(serial, kind);
        const typed = code.slice(0, at) + wrong + code.slice(at + 1);
        const offers = nearestPlausible(typed, null);
        expect(offers.every(isTagCode)).toBe(true);
        expect(new Set(offers).size).toBe(offers.length);
        expect(offers).toContain(code);
        expect(nearestPlausible(typed, null)).toEqual(offers);
        expect(nearestPlausible(typed, [...offers].reverse())).toEqual(offers);
      }),
    );
  });

  test.each([
    ['a look-alike (M typed as N) comes before a swap', 'M', 'N', true],
    ['a swap comes before a character that looks nothing alike (S typed as K)', 'S', 'K', false],
  ] as const)('%s', (_name, right, wrong, codeFirst) => {
    let compared = 0;
    for (let serial = 0; compared < 5; serial += 1) {
      const code = makeTagCode(serial, 'item');
      const at = code.indexOf(right, 1);
      if (at < 1) continue;
      const typed = code.slice(0, at) + wrong + code.slice(at + 1);
      const offers = nearestPlausible(typed, null);
      for (const swap of swapped(typed).filter(isTagCode)) {
        expect(offers.indexOf(code) < offers.indexOf(swap)).toBe(codeFirst);
        expect(offers).toEqual(expect.arrayContaining([code, swap]));
        compared += 1;
      }
    }
  });

  test('only known codes are offered when a list is given, in any spelling', () => {
    const code = known[7] ?? '';
    const typed = code.slice(0, 3) + (code.charAt(3) === 'X' ? 'W' : 'X') + code.slice(4);
    expect(nearestPlausible(typed, [])).toEqual([]);
    expect(nearestPlausible(typed, [formatTagCode(code).toLowerCase()])).toEqual([code]);
    expect(nearestPlausible(code, CODES.slice(500, 510))).toEqual([]);
  });

  test.each(['', 'KBC', 'x'.repeat(50_000), '\u0000'])('a text far from any code (%#) has no suggestion', (text) => {
    expect(nearestPlausible(text, null)).toEqual([]);
  });
});
