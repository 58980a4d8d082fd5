import { expect, test } from '@jest/globals';
import fc from 'fast-check';
import { byteRange } from '../../../apps/api/src/http/byte-range.js';

// The first five are the examples of RFC 9110, section 14.1.2, for a representation of 10,000 bytes; the others are ours.
test.each([
  ['bytes=0-499', { from: 0, to: 499 }],
  ['bytes=500-999', { from: 500, to: 999 }],
  ['bytes=-500', { from: 9_500, to: 9_999 }],
  ['bytes=9500-', { from: 9_500, to: 9_999 }],
  ['bytes=0-0,-1', 'whole'],
  ['bytes=10000-', 'outside'],
  ['bytes=-0', 'outside'],
  ['bytes=-', 'whole'],
  ['bytes=5-2', 'whole'],
  ['items=0-4', 'whole'],
])('%s of 10,000 bytes', (header, range) => {
  expect(byteRange(header, 10_000)).toEqual(range);
});

test('a part lies within the thing, whatever is asked, and without a header all is sent', () => {
  fc.assert(fc.property(fc.oneof(fc.string(), fc.tuple(fc.option(fc.nat()), fc.option(fc.nat())).map(([a, b]) => `bytes=${a ?? ''}-${b ?? ''}`)), fc.nat(100_000), (header, length) => {
    const range = byteRange(header, length);
    if (typeof range !== 'string') expect(0 <= range.from && range.from <= range.to && range.to < length).toBe(true);
    expect(byteRange(undefined, length)).toBe('whole');
  }));
});
