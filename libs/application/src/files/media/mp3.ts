import type { Refusal, Removed } from '../words.js';
import { latin, u32le } from './bytes.js';
import type { CleanVoice } from './voice.js';

/** kbit/s of layer III by index; ISO/IEC 11172-3, 2.4.2.3, and ISO/IEC 13818-3, 2.4.2.3. */
const KBIT_V1 = [0, 32, 40, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320];
const KBIT_V2 = [0, 8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160];
const HZ_V1 = [44_100, 48_000, 32_000];
const ID3V1_BYTES = 128;
const APE_BYTES = 32;

/** MPEG layer III: takes the tags from both ends, then walks frame by frame to the end. */
export function cleanMp3(mp3: Uint8Array): CleanVoice | { refusal: Refusal } {
  const { from, to } = withoutTags(mp3);
  let [at, durationMs, frames] = [from, 0, 0];
  while (at < to) {
    const frame = frameAt(mp3, at);
    if (frame === null) break;
    // The last frame of a recording that was stopped may be cut; a player passes over it.
    if (at + frame.bytes > to) break;
    at += frame.bytes;
    durationMs += frame.ms;
    frames += 1;
  }
  // One frame is found in noise easily, and what follows the last one is no sound.
  if (frames < 3 || (to - at) * 20 > to - from) return { refusal: 'broken' };
  const removed: Removed[] = [...(from > 0 || to < mp3.length ? ['tags' as const] : []), ...(at < to ? ['trailing-bytes' as const] : [])];
  return { bytes: mp3.slice(from, at), removed, durationMs: Math.round(durationMs) };
}

/** ID3v2.4 section 3.1 (28-bit size), ID3v1, APEv2; the last two from memory. Tags may stand behind each other. */
function withoutTags(mp3: Uint8Array): { from: number; to: number } {
  let [from, to] = [0, mp3.length];
  while (latin(mp3, from, 3) === 'ID3' && from + 10 <= to) {
    const size = [6, 7, 8, 9].reduce((sum, byte) => sum * 128 + ((mp3[from + byte] ?? 0) & 0x7f), 0);
    from = Math.min(to, from + 10 + size + ((mp3[from + 5] ?? 0) & 0x10 ? 10 : 0));
  }
  for (;;) {
    if (to - ID3V1_BYTES >= from && latin(mp3, to - ID3V1_BYTES, 3) === 'TAG') to -= ID3V1_BYTES;
    else if (to - APE_BYTES >= from && latin(mp3, to - APE_BYTES, 8) === 'APETAGEX') to = Math.max(from, to - Math.max(APE_BYTES, u32le(mp3, to - 20)) - ((mp3[to - 9] ?? 0) & 0x80 ? APE_BYTES : 0));
    else return { from, to };
  }
}

function frameAt(mp3: Uint8Array, at: number): { bytes: number; ms: number } | null {
  const [sync = 0, kind = 0, rate = 0] = mp3.subarray(at, at + 3);
  if (sync !== 0xff || (kind & 0xe6) !== 0xe2) return null;
  const version = (kind >> 3) & 3;
  const [kbit, hz] = [(version === 3 ? KBIT_V1 : KBIT_V2)[rate >> 4] ?? 0, HZ_V1[(rate >> 2) & 3]];
  if (version === 1 || kbit === 0 || hz === undefined) return null;
  const rateHz = version === 3 ? hz : version === 2 ? hz / 2 : hz / 4;
  const samples = version === 3 ? 1_152 : 576;
  return { bytes: Math.floor((samples / 8) * ((kbit * 1_000) / rateHz)) + ((rate >> 1) & 1), ms: (samples / rateHz) * 1_000 };
}
