import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { acceptanceDifference, arrivalDifference, manifestDifference, mayDepart } from '#custody';

// Our own model of a manifest; the promise behind it (an inventory at each departure, every difference named) is that of IATA Resolution 753.

const things = fc.array(fc.constantFrom(...'abcdefghij'), { maxLength: 14 });
const sorted = (list: Iterable<string>) => [...list].sort();

describe('the difference of a manifest', () => {
  test('puts every thing that was expected, scanned or named into exactly one list, by what it was', () => {
    fc.assert(
      fc.property(things, things, things, (expected, scanned, named) => {
        const difference = manifestDifference({ expected, scanned, named });
        const lists = Object.values(difference);
        expect(sorted(lists.flat())).toEqual(sorted(new Set([...expected, ...scanned, ...named])));
        for (const list of lists) expect(list).toEqual(sorted(new Set(list)));
        expect(sorted([...difference.asExpected, ...difference.excused, ...difference.unaccounted])).toEqual(sorted(new Set(expected)));
        expect(sorted([...difference.asExpected, ...difference.unexpected])).toEqual(sorted(new Set(scanned)));
        expect(difference.excused.every((thing) => named.includes(thing) && !scanned.includes(thing))).toBe(true);
        expect(difference.unaccounted.some((thing) => named.includes(thing))).toBe(false);
        expect(difference.idle.every((thing) => named.includes(thing) && !scanned.includes(thing) && !expected.includes(thing))).toBe(true);
      }),
    );
  });

  test('does not depend on order or repetition', () => {
    fc.assert(
      fc.property(things, things, things, (expected, scanned, named) => {
        const turned = manifestDifference({ expected: [...expected, ...expected].reverse(), scanned: scanned.toReversed(), named: [...named, ...named] });
        expect(turned).toEqual(manifestDifference({ expected, scanned, named }));
      }),
    );
  });

  test('lets it go exactly when what is expected is scanned or named, and nothing else is named', () => {
    fc.assert(
      fc.property(things, things, things, (expected, scanned, named) => {
        const allowed = expected.every((thing) => scanned.includes(thing) || named.includes(thing)) && named.every((thing) => expected.includes(thing) || scanned.includes(thing));
        expect(mayDepart(manifestDifference({ expected, scanned, named }))).toBe(allowed);
      }),
    );
  });

  test('at the other end: what went on is arrived or missing, what came off is arrived or extra', () => {
    fc.assert(
      fc.property(things, things, (loaded, unloaded) => {
        const { arrived, missing, extra } = arrivalDifference(loaded, unloaded);
        expect(sorted([...arrived, ...missing])).toEqual(sorted(new Set(loaded)));
        expect(sorted([...arrived, ...extra])).toEqual(sorted(new Set(unloaded)));
        expect(arrived.some((thing) => missing.includes(thing) || extra.includes(thing))).toBe(false);
      }),
    );
  });

  test('an example by hand', () => {
    expect(manifestDifference({ expected: ['quilt', 'letters', 'clock'], scanned: ['quilt', 'doll'], named: ['clock'] })).toEqual({ asExpected: ['quilt'], excused: ['clock'], unaccounted: ['letters'], unexpected: ['doll'], idle: [] });
  });
});

describe('the answer to a hand-over', () => {
  test('is whole exactly when each offered thing is accepted or excepted, none both, and nothing else is', () => {
    fc.assert(
      fc.property(things, fc.option(things), things, (offered, accepted, excepted) => {
        const { taken, unanswered, both, notOffered } = acceptanceDifference({ offered, accepted, excepted });
        const taking = accepted ?? offered.filter((thing) => !excepted.includes(thing));
        expect(taken).toEqual(sorted(new Set(taking)));
        const whole = offered.every((thing) => taking.includes(thing) !== excepted.includes(thing)) && [...taking, ...excepted].every((thing) => offered.includes(thing));
        expect(unanswered.length + both.length + notOffered.length === 0).toBe(whole);
      }),
    );
  });

  test('without names everything is taken', () => {
    expect(acceptanceDifference({ offered: ['b', 'a'], accepted: null, excepted: [] })).toEqual({ taken: ['a', 'b'], unanswered: [], both: [], notOffered: [] });
  });
});
