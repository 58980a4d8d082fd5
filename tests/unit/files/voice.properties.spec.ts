import { expect, test } from '@jest/globals';
import fc from 'fast-check';
import { checkVoice, sniffImage, withoutExtras } from '#application';
import { m4a, mp3, opus, wav, webm } from '../../api/support/sounds.js';

const made = [wav(), mp3(), m4a(), opus(), webm()];

test('whatever is done to a recording, looking into it ends with an answer, in time', () => {
  const changed = fc.record({ which: fc.nat({ max: made.length - 1 }), changes: fc.array(fc.record({ at: fc.nat(), byte: fc.nat({ max: 255 }) }), { maxLength: 12 }), cut: fc.nat() });
  fc.assert(fc.property(changed, ({ which, changes, cut }) => {
    const bytes = Buffer.from(made[which] ?? []);
    for (const { at, byte } of changes) bytes[at % bytes.length] = byte;
    const verdict = checkVoice(bytes.subarray(0, cut % 3 === 0 ? cut % (bytes.length + 1) : bytes.length));
    expect('refusal' in verdict || (verdict.kept.objects[0]?.bytes.length ?? 0) > 0).toBe(true);
  }), { numRuns: 400 });
});

test('the first bytes and the chunks of anything are read without a throw', () => {
  fc.assert(fc.property(fc.uint8Array({ maxLength: 200 }), fc.constantFrom('', '89504e470d0a1a0a', 'ffd8ff', '52494646000000005745425056503858'), (bytes, head) => {
    const all = Buffer.concat([Buffer.from(head, 'hex'), bytes]);
    expect(sniffImage(all)).toBeDefined();
    expect(withoutExtras(all)).not.toBeUndefined();
  }));
});
