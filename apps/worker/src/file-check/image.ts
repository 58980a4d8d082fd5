import sharp, { type Metadata, type Sharp } from 'sharp';
import { type FileVerdict, type KeptObject, type Refusal, type Removed, sniffImage, withoutExtras } from '#application';

/** Largest picture that is decoded; our own calibration, above what telephones make and far below what fills the memory. */
export const MOST_PIXELS = 40_000_000;
export const MOST_SIDE_PX = 30_000;
/** Edges of the smaller pictures, in pixels: one fills a tablet, one a line of a list. Our own calibration. */
const EDGES = { medium: 1_280, small: 320 } as const;
const QUALITY = { full: 88, medium: 80, small: 72 } as const;

// Whatever the bytes claim, no other decoder is ever reached, and nothing of one picture is kept for the next.
sharp.block({ operation: ['VipsForeignLoad'] });
sharp.unblock({ operation: ['VipsForeignLoadJpegBuffer', 'VipsForeignLoadPngBuffer', 'VipsForeignLoadWebpBuffer'] });
sharp.cache(false);
sharp.concurrency(1);

/** Decodes a photograph wholly and writes it anew, the right way up, in sRGB, without anything but its pixels, in three sizes. */
export async function checkPhotograph(sent: Uint8Array): Promise<FileVerdict> {
  const kind = sniffImage(sent);
  if (typeof kind !== 'string') return kind;
  const png = kind === 'png' ? withoutExtras(sent) : undefined;
  if (png === null) return { refusal: 'broken' };
  if (png?.animated) return { refusal: 'animated' };
  // RFC 9649, 2.7.1: the flag of an animation, even of one frame.
  if (kind === 'webp' && latinOf(sent, 12, 4) === 'VP8X' && ((sent[20] ?? 0) & 0x02) !== 0) return { refusal: 'animated' };
  const bytes = png?.bytes ?? sent;
  try {
    const metadata = await open(bytes).metadata();
    const refusal = refusalOf(metadata, kind);
    if (refusal !== null) return { refusal };
    const removed = new Set<Removed>([...(png?.removed ?? []), ...removedOf(metadata), ...(kind === 'jpeg' && hasTail(bytes) ? ['trailing-bytes' as const] : [])]);
    return { kept: await written(bytes, removed) };
  } catch (error) {
    return { refusal: /pixel limit/i.test(String(error)) ? 'too-many-pixels' : 'broken' };
  }
}

const latinOf = (bytes: Uint8Array, from: number, length: number): string => String.fromCharCode(...bytes.subarray(from, from + length));

function open(bytes: Uint8Array): Sharp {
  return sharp(bytes, { limitInputPixels: MOST_PIXELS, failOn: 'error', sequentialRead: true, pages: 1 });
}

function refusalOf({ format, width, height, pages = 1 }: Metadata, kind: string): Refusal | null {
  if (format !== kind) return 'broken';
  if (pages > 1) return 'animated';
  return width * height > MOST_PIXELS || Math.max(width, height) > MOST_SIDE_PX ? 'too-many-pixels' : null;
}

function removedOf({ exif, xmp, iptc, icc, comments }: Metadata): Removed[] {
  const there: [Removed, unknown][] = [['exif', exif], ['location', exif !== undefined && hasLocation(exif)], ['xmp', xmp], ['iptc', iptc], ['colour-profile', icc], ['comments', comments !== undefined && comments.length > 0]];
  return there.filter(([, found]) => Boolean(found)).map(([removed]) => removed);
}

/** Tag 0x8825 (GPS info) in either order of bytes; Exif 3.0, table 3. */
function hasLocation(exif: Buffer): boolean {
  return exif.includes(Buffer.from([0x88, 0x25, 0x00, 0x04])) || exif.includes(Buffer.from([0x25, 0x88, 0x04, 0x00]));
}

/** Anything behind the last end-of-image marker: the rest of an archive, a page, a second picture. */
function hasTail(jpeg: Uint8Array): boolean {
  const end = Buffer.from(jpeg.buffer, jpeg.byteOffset, jpeg.length).lastIndexOf(Buffer.from([0xff, 0xd9]));
  return end >= 0 && end + 2 < jpeg.length;
}

async function written(bytes: Uint8Array, removed: ReadonlySet<Removed>) {
  const upright = () => open(bytes).autoOrient().flatten({ background: '#ffffff' }).toColourspace('srgb');
  const jpeg = async (role: 'full' | 'medium' | 'small', picture: Sharp): Promise<[KeptObject, { width: number; height: number }]> => {
    const { data, info } = await picture.jpeg({ quality: QUALITY[role], chromaSubsampling: role === 'full' ? '4:4:4' : '4:2:0' }).toBuffer({ resolveWithObject: true });
    return [{ role, mediaType: 'image/jpeg', bytes: data }, info];
  };
  const [full, { width, height }] = await jpeg('full', upright());
  const objects = [full];
  // The smaller ones are made from ours: what was sent is decoded once.
  for (const role of ['medium', 'small'] as const) objects.push((await jpeg(role, sharp(full.bytes).resize(EDGES[role], EDGES[role], { fit: 'inside', withoutEnlargement: true })))[0]);
  return { objects, widthPx: width, heightPx: height, durationMs: null, removed: [...removed] };
}
