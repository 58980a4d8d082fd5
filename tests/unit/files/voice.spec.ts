import { describe, expect, test } from '@jest/globals';
import { checkVoice } from '#application';
import { m4a, mp3, oggCrc, opus, SECRET, wav, webm } from '../../api/support/sounds.js';

const kept = (bytes: Uint8Array) => {
  const verdict = checkVoice(bytes);
  if ('refusal' in verdict) throw new Error(`refused: ${verdict.refusal}`);
  return { ...verdict.kept, bytes: Buffer.from(verdict.kept.objects[0]?.bytes ?? []), mediaType: verdict.kept.objects[0]?.mediaType };
};
const refusal = (bytes: Uint8Array) => {
  const verdict = checkVoice(bytes);
  return 'refusal' in verdict ? verdict.refusal : 'kept';
};

const MADE: [string, Buffer, string, number | null][] = [
  ['WAV', wav(), 'audio/wav', 1_000], ['MP3', mp3(), 'audio/mpeg', 1_045], ['M4A', m4a(), 'audio/mp4', 2_500], ['Ogg Opus', opus(), 'audio/ogg', 2_000], ['Ogg Opus with long comments', opus(2_000), 'audio/ogg', 2_000], ['WebM', webm(), 'audio/webm', null],
];

describe('a recording keeps its sound and loses its tags', () => {
  test.each(MADE)('%s', (_name, bytes, mediaType, durationMs) => {
    expect(bytes.includes(SECRET)).toBe(true);
    const made = kept(bytes);
    expect(made.bytes.includes(SECRET)).toBe(false);
    expect(made).toMatchObject({ mediaType, durationMs, removed: ['tags'] });
    // What came out is taken again, and nothing more is found in it.
    const again = kept(made.bytes);
    expect(again.bytes.equals(made.bytes)).toBe(true);
    expect(again.removed).toEqual([]);
  });

  test('the sound is the same, byte for byte', () => {
    const sound = (bytes: Buffer, marker: Buffer) => bytes.includes(marker);
    expect(sound(kept(m4a()).bytes, Buffer.alloc(500, 7))).toBe(true);
    expect(sound(kept(opus()).bytes, Buffer.alloc(80, 3))).toBe(true);
    expect(sound(kept(webm()).bytes, Buffer.alloc(60, 9))).toBe(true);
    expect(kept(mp3()).bytes.length).toBe(40 * 417);
    const plain = wav();
    expect(kept(plain).bytes.subarray(-16_000).equals(plain.subarray(-16_000))).toBe(true);
  });

  test('the tables of M4A and the pages of Ogg stay where they were, with right check values', () => {
    expect(kept(m4a()).bytes.length).toBe(m4a().length);
    const ogg = kept(opus()).bytes;
    expect(ogg.length).toBe(opus().length);
    const second = ogg.indexOf('OggS', 4);
    const page = Buffer.from(ogg.subarray(second, ogg.indexOf('OggS', second + 4)));
    const said = page.readUInt32LE(22);
    page.writeUInt32LE(0, 22);
    expect(oggCrc(page)).toBe(said);
  });
});

describe('what is no whole recording is refused with the reason', () => {
  test.each(MADE)('%s cut at any tenth of it is refused or shorter, and nothing is thrown', (_name, bytes) => {
    for (let tenth = 0; tenth < 10; tenth += 1) {
      const verdict = checkVoice(bytes.subarray(0, Math.floor((bytes.length * tenth) / 10)));
      if ('kept' in verdict) expect(verdict.kept.objects[0]?.bytes.length).toBeLessThan(bytes.length);
    }
  });

  test.each([
    ['a film in M4A', m4a('vide'), 'holds-pictures'], ['a film in WebM', webm(1), 'holds-pictures'], ['a JPEG', Buffer.from('ffd8ffe000104a464946', 'hex'), 'kind-differs'], ['a ZIP', Buffer.from('504b0304', 'hex'), 'document'], ['a text', Buffer.from('hello'), 'not-sound'],
    ['nothing', Buffer.alloc(0), 'not-sound'], ['an ID3 tag alone', Buffer.concat([Buffer.from('ID3'), Buffer.from([4, 0, 0, 0, 0, 0, 0])]), 'broken'], ['an Ogg page with a wrong check value', Buffer.from(opus()).fill(1, 60, 62), 'broken'],
    ['boxes that overlap', Buffer.concat([m4a().subarray(0, 40), Buffer.from('ffffffff6d6f6f76', 'hex')]), 'broken'], ['a tag of APE that says it has no length', Buffer.concat([mp3(), Buffer.from('APETAGEX'), Buffer.alloc(24)]), 'kept'],
  ])('%s: %s', (_name, bytes, expected) => expect(refusal(bytes)).toBe(expected));
});
