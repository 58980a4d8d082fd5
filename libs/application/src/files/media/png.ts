import type { Removed } from '../words.js';
import { concat, latin, u32be } from './bytes.js';

/** Chunks that a picture needs, and those that say what its colours are and which way is up; W3C PNG third edition, 5.6 and 11. */
const KEPT = new Set(['IHDR', 'PLTE', 'IDAT', 'IEND', 'tRNS', 'sRGB', 'gAMA', 'cHRM', 'iCCP', 'eXIf']);
const SIGNATURE = 8;
/** Length, type and check value of a chunk beside its data. */
const AROUND = 12;
/** Colour profiles of cameras have some kilobytes; what is larger is left out undecompressed. Our own calibration. */
const PROFILE_BYTES = 65_536;

export type PngWithoutExtras = { bytes: Uint8Array; removed: Removed[]; animated: boolean } | null;

/**
 * A PNG without what its decoder need not see: compressed texts (which may unfold into gigabytes), unknown chunks, and what stands after its end.
 * Null when its chunks do not fit into each other. Check values are the decoder's affair.
 */
export function withoutExtras(png: Uint8Array): PngWithoutExtras {
  const pieces = [png.subarray(0, SIGNATURE)];
  const removed = new Set<Removed>();
  for (let at = SIGNATURE; ; ) {
    const length = u32be(png, at);
    const end = at + AROUND + length;
    if (!(end <= png.length)) return null;
    const type = latin(png, at + 4, 4);
    if (type === 'acTL') return { bytes: png, removed: [], animated: true };
    if (KEPT.has(type) && !(type === 'iCCP' && length > PROFILE_BYTES)) pieces.push(png.subarray(at, end));
    else removed.add('comments');
    if (type === 'IEND') {
      if (end < png.length) removed.add('trailing-bytes');
      return { bytes: concat(pieces), removed: [...removed], animated: false };
    }
    at = end;
  }
}
