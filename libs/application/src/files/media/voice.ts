import type { FileVerdict } from '../../ports/file-checker.js';
import type { Refusal, Removed } from '../words.js';
import { latin } from './bytes.js';
import { cleanMp3 } from './mp3.js';
import { cleanMp4 } from './mp4.js';
import { cleanOgg } from './ogg.js';
import { cleanWav } from './wav.js';
import { cleanWebm } from './webm.js';

/** A recording without its tags: same sound, byte for byte, in the same container. */
export interface CleanVoice {
  bytes: Uint8Array;
  removed: Removed[];
  /** Null where the container does not say. */
  durationMs: number | null;
}

type Clean = (bytes: Uint8Array) => CleanVoice | { refusal: Refusal };

/**
 * Looks whether a recording is what its first bytes say, from end to end, and takes out tags, texts and pictures. The sound itself is not decoded and
 * not changed: nothing here can hear, so what is in the sound stays in it, and a broken frame between whole ones stays unnoticed.
 */
export function checkVoice(bytes: Uint8Array): FileVerdict {
  const found = containerOf(bytes);
  if ('refusal' in found) return found;
  const clean = found.clean(bytes);
  if ('refusal' in clean) return clean;
  return { kept: { objects: [{ role: 'voice', mediaType: found.mediaType, bytes: clean.bytes }], widthPx: null, heightPx: null, durationMs: clean.durationMs, removed: clean.removed } };
}

/** By the first bytes: RFC 2361 (WAVE), ISO/IEC 11172-3 2.4.1.3 (frame of MPEG sound), ID3v2.4 3.1, ISO/IEC 14496-12 4.3, RFC 3533 6, RFC 8794 11.2.1. */
function containerOf(bytes: Uint8Array): { mediaType: string; clean: Clean } | { refusal: Refusal } {
  const head = latin(bytes, 0, 16);
  if (head.startsWith('RIFF') && head.slice(8, 12) === 'WAVE') return { mediaType: 'audio/wav', clean: cleanWav };
  if (head.startsWith('OggS')) return { mediaType: 'audio/ogg', clean: cleanOgg };
  if (head.startsWith('\x1a\x45\xdf\xa3')) return { mediaType: 'audio/webm', clean: cleanWebm };
  if (head.slice(4, 8) === 'ftyp') return { mediaType: 'audio/mp4', clean: cleanMp4 };
  if (head.startsWith('ID3') || (bytes[0] === 0xff && ((bytes[1] ?? 0) & 0xe6) === 0xe2)) return { mediaType: 'audio/mpeg', clean: cleanMp3 };
  return { refusal: otherThing(head) };
}

function otherThing(head: string): Refusal {
  if (head.startsWith('\xff\xd8\xff') || head.startsWith('\x89PNG') || head.startsWith('GIF8')) return 'kind-differs';
  if (head.startsWith('PK\x03\x04') || head.startsWith('%PDF-')) return 'document';
  return 'not-sound';
}
