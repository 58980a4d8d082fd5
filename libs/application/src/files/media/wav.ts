import type { Refusal, Removed } from '../words.js';
import { concat, latin, u32le, viewOf } from './bytes.js';
import type { CleanVoice } from './voice.js';

/** What a player needs; everything else (LIST, id3, bext, iXML, ...) is left out. Chunks of RIFF: "Multimedia Programming Interface and Data Specifications 1.0", IBM and Microsoft, 1991. */
const KEPT = new Set(['fmt ', 'fact', 'data']);
const HEAD = 12;

export function cleanWav(wav: Uint8Array): CleanVoice | { refusal: Refusal } {
  const chunks: Uint8Array[] = [];
  const removed = new Set<Removed>();
  const said = Math.min(wav.length, u32le(wav, 4) + 8);
  let [bytesPerS, dataBytes] = [0, 0];
  for (let at = HEAD; at + 8 <= said; ) {
    const [type, length] = [latin(wav, at, 4), u32le(wav, at + 4)];
    const end = at + 8 + length;
    if (end > wav.length) return { refusal: 'broken' };
    if (type === 'fmt ') bytesPerS = u32le(wav, at + 16);
    if (type === 'data') dataBytes += length;
    if (KEPT.has(type)) chunks.push(padded(wav.subarray(at, end)));
    else removed.add('tags');
    at = end + (length % 2);
  }
  if (!(bytesPerS > 0) || dataBytes === 0) return { refusal: 'broken' };
  if (said < wav.length) removed.add('trailing-bytes');
  const body = concat(chunks);
  const head = wav.slice(0, HEAD);
  viewOf(head).setUint32(4, body.length + 4, true);
  return { bytes: concat([head, body]), removed: [...removed], durationMs: Math.round((dataBytes / bytesPerS) * 1_000) };
}

/** Chunks begin at even bytes. */
function padded(chunk: Uint8Array): Uint8Array {
  return chunk.length % 2 === 0 ? chunk : concat([chunk, new Uint8Array(1)]);
}
