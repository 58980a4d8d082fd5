import type { Refusal, Removed } from '../words.js';
import { latin, u32le, viewOf } from './bytes.js';
import type { CleanVoice } from './voice.js';

const PAGE_HEAD = 27;
const OPUS_HZ = 48_000;

interface Page {
  from: number;
  body: number;
  end: number;
  serial: number;
  /** Samples to the end of this page; NaN where no packet ends in it. */
  granule: number;
  lacing: Uint8Array;
}

/** Where the bytes of a packet lie; it may go on over several pages. */
type Pieces = { from: number; to: number }[];

/**
 * Ogg with one stream of Opus or Vorbis (RFC 3533, RFC 7845, Vorbis I specification): every page must follow the one before and have the right check
 * value. The comments are overwritten where they stand by a maker's name of spaces of the same length, so all else stays as it is.
 */
export function cleanOgg(sent: Uint8Array): CleanVoice | { refusal: Refusal } {
  const ogg = sent.slice();
  const pages = pagesOf(ogg);
  const first = pages?.[0];
  if (!pages || !first || pages.some(({ serial }) => serial !== first.serial)) return { refusal: 'broken' };
  const opus = latin(ogg, first.body, 8) === 'OpusHead';
  if (!opus && latin(ogg, first.body, 7) !== '\x01vorbis') return { refusal: 'not-sound' };
  const second = packetAfterHead(pages);
  const removed = second === null ? null : blank(ogg, second, opus);
  if (removed === null) return { refusal: 'broken' };
  for (const page of pages) viewOf(ogg).setUint32(page.from + 22, crcOf(ogg, page), true);
  const samples = pages.reduce((last, { granule }) => (Number.isNaN(granule) ? last : granule), NaN);
  const hz = opus ? OPUS_HZ : u32le(ogg, first.body + 12);
  const durationMs = Math.round((samples / hz) * 1_000);
  return { bytes: ogg, removed, durationMs: durationMs > 0 && durationMs < 2 ** 31 ? durationMs : null };
}

function pagesOf(ogg: Uint8Array): Page[] | null {
  const pages: Page[] = [];
  for (let at = 0; at < ogg.length; ) {
    if (latin(ogg, at, 4) !== 'OggS' || at + PAGE_HEAD > ogg.length) return null;
    const body = at + PAGE_HEAD + (ogg[at + 26] ?? 0);
    const lacing = ogg.subarray(at + PAGE_HEAD, body);
    const end = body + lacing.reduce((sum, length) => sum + length, 0);
    if (end > ogg.length) return null;
    const page: Page = { from: at, body, end, serial: u32le(ogg, at + 14), granule: granuleOf(ogg, at), lacing };
    if (u32le(ogg, at + 22) !== crcOf(ogg, page)) return null;
    pages.push(page);
    at = end;
  }
  return pages;
}

function granuleOf(ogg: Uint8Array, at: number): number {
  const granule = viewOf(ogg).getBigInt64(at + 6, true);
  return granule < 0n ? NaN : Number(granule);
}

/** The packet of comments; it begins the second page. Null when it does not end. */
function packetAfterHead(pages: readonly Page[]): Pieces | null {
  const pieces: Pieces = [];
  for (const page of pages.slice(1)) {
    let at = page.body;
    for (const length of page.lacing) {
      at += length;
      if (length === 255) continue;
      pieces.push({ from: page.body, to: at });
      return pieces;
    }
    pieces.push({ from: page.body, to: at });
  }
  return null;
}

/** Magic, length of the maker's name, the name, number of comments (0), and for Vorbis the bit that ends the header. */
function blank(ogg: Uint8Array, pieces: Pieces, opus: boolean): Removed[] | null {
  const length = pieces.reduce((sum, { from, to }) => sum + to - from, 0);
  const magic = opus ? 'OpusTags' : '\x03vorbis';
  const name = length - magic.length - 8 - (opus ? 0 : 1);
  if (name < 0) return null;
  const packet = new Uint8Array(length).fill(0x20);
  packet.set(Array.from(magic, (letter) => letter.charCodeAt(0)));
  viewOf(packet).setUint32(magic.length, name, true);
  viewOf(packet).setUint32(magic.length + 4 + name, 0, true);
  if (!opus) packet[length - 1] = 1;
  let [at, changed] = [0, false];
  for (const { from, to } of pieces) {
    if (at < magic.length && latin(ogg, from, Math.min(to - from, magic.length)) !== magic.slice(0, to - from)) return null;
    for (let byte = from; byte < to; byte += 1, at += 1) {
      changed ||= ogg[byte] !== packet[at];
      ogg[byte] = packet[at] ?? 0;
    }
  }
  return changed ? ['tags'] : [];
}

/** CRC-32 with polynomial 04C11DB7, no reflection, start 0; RFC 3533, section 6, field 7. */
const CRC = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte << 24;
  for (let bit = 0; bit < 8; bit += 1) value = (value << 1) ^ (value < 0 ? 0x04c11db7 : 0);
  return value >>> 0;
});

function crcOf(ogg: Uint8Array, { from, end }: Pick<Page, 'from' | 'end'>): number {
  let crc = 0;
  for (let at = from; at < end; at += 1) {
    const byte = at >= from + 22 && at < from + 26 ? 0 : (ogg[at] ?? 0);
    crc = ((crc << 8) ^ (CRC[(crc >>> 24) ^ byte] ?? 0)) >>> 0;
  }
  return crc;
}
