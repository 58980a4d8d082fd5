import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { blindKeyOf, blindWord, freshKey, openBytes, SealBroken, sealBytes } from '../../../libs/persistence/src/personal/envelope.js';

const placeArb = fc.array(fc.string(), { minLength: 1, maxLength: 4 });
const bytesArb = fc.uint8Array({ maxLength: 300 });

describe('a sealed value', () => {
  test('opens where it was sealed, and is other bytes each time', () => {
    fc.assert(fc.property(placeArb, bytesArb, (place, plain) => {
      const key = freshKey();
      const sealed = sealBytes(key, place, plain);
      expect(openBytes(key, place, sealed)).toEqual(Buffer.from(plain));
      expect(sealBytes(key, place, plain)).not.toEqual(sealed);
    }));
  });

  test('opens nowhere else, and under no other key', () => {
    fc.assert(fc.property(placeArb, placeArb, bytesArb, (place, other, plain) => {
      fc.pre(JSON.stringify(place) !== JSON.stringify(other));
      const key = freshKey();
      const sealed = sealBytes(key, place, plain);
      expect(() => openBytes(key, other, sealed)).toThrow(SealBroken);
      expect(() => openBytes(freshKey(), place, sealed)).toThrow(SealBroken);
    }));
  });

  test('does not open when any bit of it was changed or anything was cut off', () => {
    fc.assert(fc.property(bytesArb, fc.nat(), fc.nat(7), fc.nat(), (plain, where, bit, cut) => {
      const key = freshKey();
      const sealed = sealBytes(key, ['x'], plain);
      const changed = Buffer.from(sealed);
      const at = where % sealed.length;
      changed[at] = (changed[at] ?? 0) ^ (1 << bit);
      expect(() => openBytes(key, ['x'], changed)).toThrow(SealBroken);
      expect(() => openBytes(key, ['x'], sealed.subarray(0, cut % sealed.length))).toThrow(SealBroken);
    }));
  });

  test('parts of a place cannot be moved across their border', () => {
    const key = freshKey();
    const sealed = sealBytes(key, ['ab', 'c'], Buffer.from('text'));
    expect(() => openBytes(key, ['a', 'bc'], sealed)).toThrow(SealBroken);
    expect(() => openBytes(key, ['abc'], sealed)).toThrow(SealBroken);
  });
});

test('a blind word is the same for the same word, purpose and network, and for nothing else', () => {
  const [ours, theirs] = [blindKeyOf(freshKey()), blindKeyOf(freshKey())];
  expect(blindWord(ours, 'name', 'berger')).toEqual(blindWord(ours, 'name', 'berger'));
  for (const other of [blindWord(theirs, 'name', 'berger'), blindWord(ours, 'phone', 'berger'), blindWord(ours, 'name', 'bergen')]) expect(other).not.toEqual(blindWord(ours, 'name', 'berger'));
});
