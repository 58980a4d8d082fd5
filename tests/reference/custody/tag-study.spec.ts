/**
 * What a tag code withstands, over 10,000 codes of all kinds (issue E, must show 4). The check characters are ISO/IEC 7064 MOD 97-10; its published
 * examples are recomputed in `iso7064-mod97-10.spec.ts`. What sounds alike on the telephone is our own list, from the names of letters in English and Spanish.
 */
import { describe, expect, test } from '@jest/globals';
import { isTagFault, makeTagCode, nearestPlausible, parseTagCode, TAG_ALPHABET, TAG_KINDS, TAG_SERIAL_COUNT } from '#custody';

const COUNT = 10_000;
/** Half of them neighbours on a roll, as one team has them, half spread over all that there are. */
const CODES = Array.from({ length: COUNT }, (_, index) => makeTagCode(index % 2 === 0 ? index / 2 : (index * 31_999_927) % TAG_SERIAL_COUNT, TAG_KINDS[(index >> 1) % TAG_KINDS.length] ?? 'item'));
const EXISTING = new Set(CODES);
const ALL = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ';

/** Park and Miller, "Random number generators: good ones are hard to find", Communications of the ACM 31 (10), 1988: the minimal standard. */
function minimalStandard(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state * 16_807) % 2_147_483_647;
    return Math.floor((state / 2_147_483_647) * below);
  };
}

const put = (code: string, at: number, character: string) => code.slice(0, at) + character + code.slice(at + 1);
const swap = (code: string, at: number) => code.slice(0, at) + code.charAt(at + 1) + code.charAt(at) + code.slice(at + 2);
/** Accepted as another code: the error that loses a thing. */
const misleads = (typed: string, meant: string) => {
  const read = parseTagCode(typed);
  return !isTagFault(read) && read.code !== meant;
};

test('the codes are 10,000 different ones', () => expect(EXISTING.size).toBe(COUNT));

describe('one error', () => {
  test('every other character at every place of every code is caught', () => {
    let tried = 0;
    let missed = 0;
    for (const code of CODES) {
      for (let at = 0; at < code.length; at += 1) {
        for (const wrong of ALL) {
          if (wrong === code.charAt(at)) continue;
          tried += 1;
          const typed = put(code, at, wrong);
          if (misleads(typed, code)) missed += 1;
        }
      }
    }
    process.stdout.write(`tag study: ${tried} single errors in ${COUNT} codes, ${missed} missed\n`);
    expect([tried, missed]).toEqual([COUNT * 9 * 35, 0]);
  }, 120_000);

  test('every swap of neighbours in every code is caught', () => {
    let tried = 0;
    let missed = 0;
    for (const code of CODES) {
      for (let at = 0; at + 1 < code.length; at += 1) {
        if (code.charAt(at) === code.charAt(at + 1)) continue;
        tried += 1;
        if (misleads(swap(code, at), code)) missed += 1;
      }
    }
    process.stdout.write(`tag study: ${tried} adjacent swaps, ${missed} missed\n`);
    expect(missed).toBe(0);
    expect(tried).toBeGreaterThan(70_000);
  });
});

/** Ways to make two errors in characters that could stand there, so that only the check digits can tell. */
const DOUBLE: Record<string, (code: string, draw: (below: number) => number) => string> = {
  'two wrong characters': (code, draw) => {
    const first = draw(9);
    const second = (first + 1 + draw(8)) % 9;
    return another(another(code, first, draw), second, draw);
  },
  'two swaps': (code, draw) => {
    const first = draw(8);
    return swap(swap(code, first), (first + 1 + draw(7)) % 8);
  },
  'a swap and a wrong character': (code, draw) => another(swap(code, draw(8)), draw(9), draw),
  'a swap across one character': (code, draw) => {
    const at = draw(7);
    return put(put(code, at, code.charAt(at + 2)), at + 2, code.charAt(at));
  },
};
/** Above what a check of two digits gives by chance (96 of 97), less what 200,000 trials scatter; our own bound. */
const FLOOR = 0.985;

function another(code: string, at: number, draw: (below: number) => number): string {
  const from = at === 0 ? 'KCPV' : at <= 6 ? TAG_ALPHABET : '0123456789';
  const others = [...from].filter((character) => character !== code.charAt(at));
  return put(code, at, others[draw(others.length)] ?? '');
}

describe('two errors', () => {
  test.each(Object.entries(DOUBLE))('%s: the share that is caught', (name, spoil) => {
    const draw = minimalStandard(20_260_509);
    let tried = 0;
    let missed = 0;
    for (let round = 0; round < 20; round += 1) {
      for (const code of CODES) {
        const typed = spoil(code, draw);
        if (typed === code) continue;
        tried += 1;
        if (misleads(typed, code)) missed += 1;
      }
    }
    const caught = 1 - missed / tried;
    process.stdout.write(`tag study: ${name}, ${tried} tried: ${(caught * 100).toFixed(3)} % caught\n`);
    expect(tried).toBeGreaterThan(100_000);
    expect(caught).toBeGreaterThan(FLOOR);
  }, 60_000);
});

/** Names of letters and digits that are taken for one another over a bad line. */
const SOUNDS_ALIKE = ['BCDGPTVZ', 'MN', 'FSX', 'JGK', 'BV', 'QK', 'SCZ', 'YRW'];
const DIGITS_ALIKE = ['59', '23', '67', '12', '60', '48'];

describe('read out over a bad line', () => {
  test('a letter heard as one that sounds alike is never another tag, and the true one is among what is offered', () => {
    let tried = 0;
    let misled = 0;
    let offered = 0;
    let first = 0;
    let others = 0;
    CODES.forEach((code, index) => {
      // Every code with one mishearing at each place in turn.
      const at = index % 9;
      const groups = at <= 6 ? SOUNDS_ALIKE : DIGITS_ALIKE;
      const heard = groups.filter((group) => group.includes(code.charAt(at))).flatMap((group) => [...group]).filter((character) => character !== code.charAt(at));
      for (const wrong of new Set(heard)) {
        const typed = put(code, at, wrong);
        tried += 1;
        if (misleads(typed, code)) misled += 1;
        const offers = nearestPlausible(typed, null).filter((offer) => EXISTING.has(offer));
        if (offers.includes(code)) offered += 1;
        if (offers[0] === code) first += 1;
        others += offers.length - 1;
      }
    });
    process.stdout.write(`tag study: ${tried} mishearings, the true tag offered in ${offered}, first in ${first}; ${(others / tried).toFixed(4)} other existing tags offered on average\n`);
    expect(tried).toBeGreaterThan(20_000);
    expect([misled, offered]).toEqual([0, tried]);
    expect(first / tried).toBeGreaterThan(0.99);
  }, 120_000);

  test('check digits that were heard wrong altogether, fifteen for fifty, still lead to the tag', () => {
    for (const code of CODES.slice(0, 2_000)) {
      const [tens, ones] = [code.charAt(7), code.charAt(8)];
      if (ones === tens) continue;
      const turned = code.slice(0, 7) + ones + tens;
      expect(misleads(turned, code)).toBe(false);
      expect(nearestPlausible(turned, null)).toContain(code);
      const both = code.slice(0, 7) + String((Number(tens) + 3) % 10) + String((Number(ones) + 4) % 10);
      expect(misleads(both, code)).toBe(false);
      expect(nearestPlausible(both, null)).toContain(code);
    }
  });
});
