import type { Refusal, Removed } from '../words.js';
import { latin, u32be, viewOf } from './bytes.js';
import type { CleanVoice } from './voice.js';

/** Boxes that hold boxes on the way to what we look for; ISO/IEC 14496-12, table 1. */
const HOLDERS = new Set(['moov', 'trak', 'mdia', 'minf', 'dinf', 'stbl', 'moof', 'traf', 'mvex', 'edts']);
/** Where phones put places, names and pictures. */
const TAGS = new Set(['udta', 'meta', 'uuid', 'loci', 'xml ', 'free', 'skip', 'wide', 'pdin', 'id32', 'cprt', 'ID32']);
/** Boxes that may stand at the top of a recording. */
const AT_TOP = new Set(['ftyp', 'styp', 'moov', 'mdat', 'moof', 'sidx', 'mfra', 'prft', 'emsg', ...TAGS]);
const DEPTH = 8;

interface Box {
  type: string;
  from: number;
  body: number;
  end: number;
}

/**
 * M4A: walks all boxes and wipes what is no sound. A wiped box stays as long as it was (as `free`, filled with zeros), because the tables of the sound
 * count bytes from the start of the file. Tracks of anything but sound refuse the file.
 */
export function cleanMp4(sent: Uint8Array): CleanVoice | { refusal: Refusal } {
  const mp4 = sent.slice();
  const found = { tags: false, sound: 0, other: 0, media: 0, durationMs: null as number | null };
  const walk = (from: number, end: number, depth: number): boolean => {
    const boxes = boxesIn(mp4, from, end);
    if (boxes === null || depth > DEPTH) return false;
    return boxes.every((box) => {
      if (depth === 0 && !AT_TOP.has(box.type)) return false;
      if (TAGS.has(box.type)) found.tags = wipe(mp4, box) || found.tags;
      else if (box.type === 'hdlr') handler(mp4, box, found);
      else if (box.type === 'mdat') found.media += box.end - box.body;
      else if (box.type === 'mvhd') found.durationMs = durationOf(mp4, box);
      return !HOLDERS.has(box.type) || walk(box.body, box.end, depth + 1);
    });
  };
  if (!walk(0, mp4.length, 0) || found.media === 0 || found.sound + found.other === 0) return { refusal: 'broken' };
  if (found.other > 0) return { refusal: 'holds-pictures' };
  const removed: Removed[] = found.tags ? ['tags'] : [];
  return { bytes: mp4, removed, durationMs: found.durationMs };
}

/** Null when the boxes do not fill their room exactly. */
function boxesIn(mp4: Uint8Array, from: number, end: number): Box[] | null {
  const boxes: Box[] = [];
  for (let at = from; at < end; ) {
    const [short, type] = [u32be(mp4, at), latin(mp4, at + 4, 4)];
    const long = short === 1;
    const length = short === 0 ? end - at : long ? u32be(mp4, at + 8) * 2 ** 32 + u32be(mp4, at + 12) : short;
    const body = at + (long ? 16 : 8);
    if (!(length >= body - at && at + length <= end)) return null;
    boxes.push({ type, from: at, body, end: at + length });
    at += length;
  }
  return boxes;
}

/** Answers whether there was anything in it. */
function wipe(mp4: Uint8Array, box: Box): boolean {
  const something = mp4.subarray(box.body, box.end).some((byte) => byte !== 0);
  mp4.fill(0, box.body, box.end);
  mp4.set([0x66, 0x72, 0x65, 0x65], box.from + 4);
  return something;
}

/** Which kind of media a track holds; its name is a text and is wiped. */
function handler(mp4: Uint8Array, box: Box, found: { sound: number; other: number; tags: boolean }): void {
  if (latin(mp4, box.body + 8, 4) === 'soun') found.sound += 1;
  else found.other += 1;
  const name = mp4.subarray(Math.min(box.end, box.body + 24), box.end);
  if (name.some((byte) => byte !== 0)) found.tags = true;
  name.fill(0);
}

function durationOf(mp4: Uint8Array, { body, end }: Box): number | null {
  if (end - body < 32) return null;
  const long = mp4[body] === 1;
  const scale = u32be(mp4, body + (long ? 20 : 12));
  const length = long ? Number(viewOf(mp4).getBigUint64(body + 24)) : u32be(mp4, body + 16);
  const ms = Math.round((length / scale) * 1_000);
  return scale > 0 && ms > 0 && ms < 2 ** 31 ? ms : null;
}
