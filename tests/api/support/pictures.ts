/** Pictures and recordings made for tests, good ones and hostile ones. None shows anybody. */
import { crc32, deflateSync } from 'node:zlib';
import sharp, { type Sharp } from 'sharp';

/** A picture with something in every corner, so that turning it shows. */
export function picture(width = 640, height = 480): Sharp {
  return sharp({ create: { width, height, channels: 3, background: { r: 120, g: 80, b: 40 } } }).composite([{ input: Buffer.from([255, 0, 0]), raw: { width: 1, height: 1, channels: 3 }, left: 0, top: 0, tile: false }]);
}

export const jpeg = (width?: number, height?: number): Promise<Buffer> => picture(width, height).jpeg({ quality: 90 }).toBuffer();
export const png = (width?: number, height?: number): Promise<Buffer> => picture(width, height).png().toBuffer();
export const webp = (width?: number, height?: number): Promise<Buffer> => picture(width, height).webp().toBuffer();

/** A JPEG with a maker, a place on earth, XMP and the mark that it lies on its side. */
export function jpegWithPlace(): Promise<Buffer> {
  return picture(600, 300)
    .withExif({ IFD0: { Make: 'InventedCamera', Artist: 'Invented Person' }, IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '51/1 30/1 0/1', GPSLongitudeRef: 'W', GPSLongitude: '0/1 7/1 0/1' } })
    .withXmp('<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description>InventedXmpSecret</rdf:Description></rdf:RDF></x:xmpmeta>')
    .withMetadata({ orientation: 6 })
    .jpeg()
    .toBuffer();
}

export function chunk(type: string, data: Uint8Array): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const around = Buffer.alloc(8);
  around.writeUInt32BE(data.length, 0);
  around.writeUInt32BE(crc32(body), 4);
  return Buffer.concat([around.subarray(0, 4), body, around.subarray(4)]);
}

const SIGNATURE = Buffer.from('89504e470d0a1a0a', 'hex');

export function header(width: number, height: number, bits = 8, colour = 0): Buffer {
  const data = Buffer.alloc(13);
  data.writeUInt32BE(width, 0);
  data.writeUInt32BE(height, 4);
  data.set([bits, colour, 0, 0, 0], 8);
  return chunk('IHDR', data);
}

/** A PNG of so many grey pixels, all black, in a few hundred kilobytes. */
export function pixelBomb(side: number): Buffer {
  return Buffer.concat([SIGNATURE, header(side, side), chunk('IDAT', deflateSync(Buffer.alloc((side + 1) * side))), chunk('IEND', Buffer.alloc(0))]);
}

/** A small good PNG with extra chunks before its pixels. */
export async function pngWith(...extra: Buffer[]): Promise<Buffer> {
  const plain = await png(64, 64);
  const afterHeader = 8 + 25;
  return Buffer.concat([plain.subarray(0, afterHeader), ...extra, plain.subarray(afterHeader)]);
}

/** A compressed text that unfolds to so many bytes. */
export function textBomb(bytes: number): Buffer {
  return chunk('zTXt', Buffer.concat([Buffer.from('Comment\0\0', 'latin1'), deflateSync(Buffer.alloc(bytes))]));
}

export const animationControl = (frames: number): Buffer => {
  const data = Buffer.alloc(8);
  data.writeUInt32BE(frames, 0);
  return chunk('acTL', data);
};

/** A moving WebP of so many frames. */
export async function movingWebp(frames: number, side = 16): Promise<Buffer> {
  const raw = Buffer.alloc(side * side * 3 * frames);
  // Far apart from one to the next, so that no coder takes two for one.
  for (let frame = 0; frame < frames; frame += 1) raw.fill((frame * 97) % 256, frame * side * side * 3, (frame + 1) * side * side * 3);
  return sharp(raw, { raw: { width: side, height: side * frames, channels: 3, pageHeight: side } }).webp({ loop: 0, delay: Array.from({ length: frames }, () => 50) }).toBuffer();
}
