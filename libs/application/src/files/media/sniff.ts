import type { Refusal } from '../words.js';
import { latin } from './bytes.js';

export type ImageKind = 'jpeg' | 'png' | 'webp';

/** What the first bytes say, before anything is decoded. A format that is not on the list is named, so that the sender knows what to do. */
export function sniffImage(bytes: Uint8Array): ImageKind | { refusal: Refusal } {
  const head = latin(bytes, 0, 16);
  // JPEG: ISO/IEC 10918-1, B.1.1.3 (SOI and the start of the next marker); PNG: W3C PNG third edition, 5.2; WebP: RFC 9649, 2.4.
  if (head.startsWith('\xff\xd8\xff')) return 'jpeg';
  if (head.startsWith('\x89PNG\r\n\x1a\n')) return 'png';
  if (head.startsWith('RIFF') && head.slice(8, 12) === 'WEBP') return 'webp';
  return { refusal: refusalOf(bytes, head) };
}

/** Signatures of what people send instead; from memory, and only to say which it was. */
function refusalOf(bytes: Uint8Array, head: string): Refusal {
  if (head.startsWith('GIF8')) return 'gif';
  if (head.startsWith('II*\0') || head.startsWith('MM\0*')) return 'tiff';
  if (head.startsWith('%PDF-')) return 'pdf';
  if (head.startsWith('PK\x03\x04') || head.startsWith('\xd0\xcf\x11\xe0')) return 'document';
  if (head.slice(4, 8) === 'ftyp' && /^(hei|hev|mif1|msf1|avi[fs])/.test(head.slice(8, 12))) return 'heic';
  if (/<svg[\s>]/i.test(latin(bytes, 0, 4_096))) return 'svg';
  return looksLikeSound(head) ? 'kind-differs' : 'not-on-the-list';
}

function looksLikeSound(head: string): boolean {
  return head.startsWith('ID3') || head.startsWith('OggS') || (head.startsWith('RIFF') && head.slice(8, 12) === 'WAVE') || head.slice(4, 8) === 'ftyp' || head.startsWith('\x1a\x45\xdf\xa3');
}
