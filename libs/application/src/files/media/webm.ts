import type { Refusal, Removed } from '../words.js';
import { latin, viewOf } from './bytes.js';
import type { CleanVoice } from './voice.js';

/** Elements of EBML and Matroska by id; RFC 8794 section 11, RFC 9559 sections 5 and 27. */
const ID = { ebml: 0x1a45dfa3, docType: 0x4282, segment: 0x18538067, info: 0x1549a966, tracks: 0x1654ae6b, track: 0xae, trackType: 0x83, cluster: 0x1f43b675, tags: 0x1254c367, attachments: 0x1941a469, chapters: 0x1043a770, seekHead: 0x114d9b74, cues: 0x1c53bb6b, voidOf: 0xec, scale: 0x2ad7b1, duration: 0x4489, title: 0x7ba9, name: 0x536e, dateUtc: 0x4461, muxer: 0x4d80, writer: 0x5741 };
const AT_TOP = new Set([ID.info, ID.tracks, ID.cluster, ID.tags, ID.attachments, ID.chapters, ID.seekHead, ID.cues, ID.voidOf]);
/** Elements with texts, pictures and dates. */
const WIPED = new Set([ID.tags, ID.attachments, ID.chapters, ID.title, ID.name, ID.dateUtc, ID.muxer, ID.writer, ID.voidOf]);
const HOLDERS = new Set([ID.info, ID.tracks, ID.track]);
const SOUND = 2;

interface Element {
  id: number;
  from: number;
  body: number;
  end: number;
  /** A browser that records does not know the length beforehand. */
  open: boolean;
}

interface Found {
  tags: boolean;
  sound: number;
  other: number;
  clusters: number;
  scaleNs: number;
  ticks: number;
}

/** WebM as browsers record it: walks the elements and overwrites what is no sound by a Void element of the same length. */
export function cleanWebm(sent: Uint8Array): CleanVoice | { refusal: Refusal } {
  const webm = sent.slice();
  const head = elementAt(webm, 0, webm.length);
  const segment = head === null ? null : elementAt(webm, head.end, webm.length);
  if (head?.id !== ID.ebml || segment?.id !== ID.segment) return { refusal: 'broken' };
  if (!latin(webm, head.body, head.end - head.body).includes('webm')) return { refusal: 'not-sound' };
  const found: Found = { tags: false, sound: 0, other: 0, clusters: 0, scaleNs: 1_000_000, ticks: 0 };
  if (!walk(webm, segment.body, segment.end, found, 0) || found.clusters === 0 || found.sound + found.other === 0) return { refusal: 'broken' };
  if (found.other > 0) return { refusal: 'holds-pictures' };
  const durationMs = Math.round((found.ticks * found.scaleNs) / 1_000_000);
  const removed: Removed[] = [...(found.tags ? ['tags' as const] : []), ...(segment.end < webm.length ? ['trailing-bytes' as const] : [])];
  return { bytes: webm.slice(0, segment.end), removed, durationMs: durationMs > 0 && durationMs < 2 ** 31 ? durationMs : null };
}

function walk(webm: Uint8Array, from: number, end: number, found: Found, depth: number): boolean {
  for (let at = from; at < end; ) {
    const element = elementAt(webm, at, end);
    if (element === null || (depth === 0 && !AT_TOP.has(element.id))) return false;
    if (element.id === ID.cluster) found.clusters += 1;
    // An open cluster goes on to the next element of the top; its blocks are walked as if they stood there.
    if (element.open) {
      const next = element.id === ID.cluster ? endOfCluster(webm, element.body, end) : null;
      if (next === null) return false;
      at = next;
      continue;
    }
    take(webm, element, found);
    if (HOLDERS.has(element.id) && !walk(webm, element.body, element.end, found, depth + 1)) return false;
    at = element.end;
  }
  return true;
}

function take(webm: Uint8Array, element: Element, found: Found): void {
  if (WIPED.has(element.id)) found.tags = wipe(webm, element) || found.tags;
  else if (element.id === ID.trackType) found[webm[element.body] === SOUND ? 'sound' : 'other'] += 1;
  else if (element.id === ID.scale) found.scaleNs = webm.subarray(element.body, element.end).reduce((sum, byte) => sum * 256 + byte, 0);
  else if (element.id === ID.duration) found.ticks = floatOf(webm, element);
}

function endOfCluster(webm: Uint8Array, from: number, end: number): number | null {
  let at = from;
  while (at < end) {
    const element = elementAt(webm, at, end);
    if (element === null) return null;
    if (AT_TOP.has(element.id) && element.id !== ID.voidOf) return at;
    if (element.open) return null;
    at = element.end;
  }
  return at;
}

function elementAt(webm: Uint8Array, at: number, end: number): Element | null {
  const id = vint(webm, at, end, 4);
  const size = id === null ? null : vint(webm, at + id.bytes, end, 8);
  if (id === null || size === null) return null;
  const body = at + id.bytes + size.bytes;
  const open = size.value === 2 ** (7 * size.bytes) - 1;
  const stop = open ? end : body + size.value;
  return stop <= end ? { id: id.raw, from: at, body, end: stop, open } : null;
}

/** A number of variable length: leading zeros of the first byte say how many bytes follow; RFC 8794, section 4. */
function vint(webm: Uint8Array, at: number, end: number, most: number): { raw: number; value: number; bytes: number } | null {
  const first = at < end ? (webm[at] ?? 0) : 0;
  const bytes = Math.clz32(first) - 23;
  if (first === 0 || bytes > most || at + bytes > end) return null;
  const rest = webm.subarray(at + 1, at + bytes);
  return { raw: rest.reduce((sum, byte) => sum * 256 + byte, first), value: rest.reduce((sum, byte) => sum * 256 + byte, first & (0xff >> bytes)), bytes };
}

/** The element becomes Void, filled with zeros. Its length stays written in as many bytes as before, and its id takes the room of the old one with leading size bytes. */
function wipe(webm: Uint8Array, { from, body, end }: Element): boolean {
  const something = webm.subarray(body, end).some((byte) => byte !== 0);
  webm.fill(0, from, end);
  webm[from] = ID.voidOf;
  const length = end - from;
  // One byte of id; as many bytes of length as fit and are needed, at most eight.
  const sizeBytes = length - 2 < 127 ? 1 : Math.min(8, body - from - 1);
  const size = length - 1 - sizeBytes;
  for (let byte = 0; byte < sizeBytes; byte += 1) webm[from + 1 + byte] = Math.floor(size / 256 ** (sizeBytes - 1 - byte)) % 256;
  webm[from + 1] = (webm[from + 1] ?? 0) | (0x80 >> (sizeBytes - 1));
  return something;
}

function floatOf(webm: Uint8Array, { body, end }: Element): number {
  if (end - body === 8) return viewOf(webm).getFloat64(body);
  return end - body === 4 ? viewOf(webm).getFloat32(body) : 0;
}
