/** Pages as pictures, by a renderer that is not the one that made them. */
import { writeFileSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { crc32, deflateSync } from 'node:zlib';
import { PDFiumLibrary } from '@hyzyla/pdfium';
import jsQRModule from 'jsqr';

export const DPI = 300;
/** Millimetres of one pixel. */
export const MM_PER_PIXEL = 25.4 / DPI;

// Its types say ES module, its file is CommonJS.
const jsQR = ('default' in jsQRModule ? jsQRModule.default : jsQRModule) as unknown as (data: Uint8ClampedArray, width: number, height: number, options: object) => { data: string } | null;

/** The size of each page as the file states it (MediaBox, ISO 32000-1, 7.7.3.3), in points. */
export function pageSizesPt(pdf: Uint8Array): { width: number; height: number }[] {
  return [...Buffer.from(pdf).toString('latin1').matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)].map(([, width, height]) => ({ width: Number(width), height: Number(height) }));
}

export interface Picture {
  width: number;
  height: number;
  /** One byte of grey for each pixel, 0 for black. */
  grey: Uint8Array;
  /** Pixels for an inch; `DPI` when left out. */
  dpi?: number;
}

/** Every page as a picture. */
export async function picturesOf(pdf: Uint8Array): Promise<Picture[]> {
  return [...(await somePages(pdf, null)).pictures.values()];
}

/** Some pages by their number from 0 (null for all), and how many there are. */
export async function somePages(pdf: Uint8Array, wanted: readonly number[] | null): Promise<{ count: number; pictures: Map<number, Picture> }> {
  const pictures = new Map<number, Picture>();
  return { count: await eachPage(pdf, DPI, wanted, (picture, index) => pictures.set(index, picture)), pictures };
}

/** Renders page after page, of which only one is held at a time. Answers how many pages there are. */
async function eachPage(pdf: Uint8Array, dpi: number, wanted: readonly number[] | null, look: (picture: Picture, index: number) => void): Promise<number> {
  const document = await (await library()).loadDocument(pdf);
  try {
    const count = document.getPageCount();
    const sizes = pageSizesPt(pdf);
    for (const index of wanted === null ? Array.from({ length: count }, (_, each) => each) : new Set(wanted)) {
      // Pixels by the page's own size: left alone, the renderer cuts off parts of a point and squeezes the page by a thousandth.
      const [wide, high] = [sizes[index]?.width ?? 0, sizes[index]?.height ?? 0].map((points) => Math.round((points / 72) * dpi));
      const { width, height, data } = await document.getPage(index).render({ scale: 1, width: wide, height: high, render: 'bitmap', colorSpace: 'Gray' });
      // A copy without a walk over an array of another realm, which takes minutes.
      look({ width, height, grey: data.slice(), dpi }, index);
    }
    return count;
  } finally {
    document.destroy();
  }
}

/** What is to be seen on a page: the ink within some boxes, and the symbols within others. */
export interface Look {
  page: number;
  inks: BoxMm[];
  symbols: BoxMm[];
}

export interface Seen {
  inks: (BoxMm | null)[];
  symbols: (string | null)[];
}

/** Renders the pages that are looked at and says what is on them, in the order of the looks. */
export async function seenOn(pdf: Uint8Array, dpi: number, looks: readonly Look[]): Promise<{ count: number; seen: Seen[] }> {
  const seen: Seen[] = [];
  const count = await eachPage(pdf, dpi, looks.map(({ page }) => page), (picture, index) => {
    looks.forEach((look, at) => {
      if (look.page === index) seen[at] = { inks: look.inks.map((box) => inkBox(picture, box)), symbols: look.symbols.map((box) => decodeQr(picture, box)) };
    });
  });
  return { count, seen };
}

/**
 * The same in a thread of plain Node. Within Jest every look at a global crosses from one realm to another, which makes each pixel some
 * ten times as dear; hundreds of pages are read this way, and three could be otherwise.
 */
export class Onlooker {
  private readonly worker = new Worker(new URL('pictures.worker.mjs', import.meta.url));

  async see(pdf: Uint8Array, dpi: number, looks: readonly Look[]): Promise<{ count: number; seen: Seen[] }> {
    const answer = new Promise<{ count: number; seen: Seen[] }>((resolve, reject) => {
      this.worker.once('error', reject);
      this.worker.once('message', ({ value, error }: { value: string; error: string | null }) => (error === null ? resolve(JSON.parse(value) as { count: number; seen: Seen[] }) : reject(new Error(error))));
    });
    this.worker.postMessage({ pdf: Buffer.from(pdf).toString('base64'), dpi, looks: JSON.stringify(looks) }, []);
    return answer;
  }

  async close(): Promise<void> {
    await this.worker.terminate();
  }
}

/** The words of all pages, as a reader of the file finds them. */
export async function wordsOf(pdf: Uint8Array): Promise<string[]> {
  const document = await (await library()).loadDocument(pdf);
  try {
    return Array.from({ length: document.getPageCount() }, (_, index) => document.getPage(index).getText());
  } finally {
    document.destroy();
  }
}

/** How many pictures are drawn in a document. */
export async function imagesIn(pdf: Uint8Array): Promise<number> {
  const document = await (await library()).loadDocument(pdf);
  try {
    return Array.from({ length: document.getPageCount() }, (_, index) => [...document.getPage(index).objects()].filter(({ type }) => type === 'image').length).reduce((sum, count) => sum + count, 0);
  } finally {
    document.destroy();
  }
}

let loaded: Promise<PDFiumLibrary> | undefined;
function library(): Promise<PDFiumLibrary> {
  return (loaded ??= PDFiumLibrary.init());
}

export interface BoxMm {
  xMm: number;
  yMm: number;
  widthMm: number;
  heightMm: number;
}

interface PixelBox {
  left: number;
  top: number;
  /** Exclusive. */
  right: number;
  bottom: number;
}

function pixelsOf(picture: Picture, box: BoxMm): PixelBox {
  const mmPerPixel = mmPerPixelOf(picture);
  const within = (value: number, most: number) => Math.min(Math.max(Math.round(value / mmPerPixel), 0), most);
  return { left: within(box.xMm, picture.width), top: within(box.yMm, picture.height), right: within(box.xMm + box.widthMm, picture.width), bottom: within(box.yMm + box.heightMm, picture.height) };
}

function mmPerPixelOf({ dpi = DPI }: Picture): number {
  return 25.4 / dpi;
}

/** A pixel that is half covered or more counts as ink; the light grey of frames does as well. */
const INK = 190;

/** The smallest box around all ink within a part of the page; null where it is blank. */
export function inkBox(picture: Picture, part: BoxMm): BoxMm | null {
  const { left, top, right, bottom } = pixelsOf(picture, part);
  const found: PixelBox = { left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity };
  const { grey, width } = picture;
  for (let y = top; y < bottom; y += 1) {
    for (let x = left, at = y * width + left; x < right; x += 1, at += 1) {
      if ((grey[at] as number) > INK) continue;
      if (x < found.left) found.left = x;
      if (x >= found.right) found.right = x + 1;
      if (y < found.top) found.top = y;
      found.bottom = y + 1;
    }
  }
  if (found.left === Infinity) return null;
  const mmPerPixel = mmPerPixelOf(picture);
  return { xMm: found.left * mmPerPixel, yMm: found.top * mmPerPixel, widthMm: (found.right - found.left) * mmPerPixel, heightMm: (found.bottom - found.top) * mmPerPixel };
}

/** Pixels on a side that a decoder gets at most: large symbols are thinned out, as a camera further away would see them. */
const DECODED_SIDE = 330;

/** What an independent decoder reads in a part of the page; null when it finds no symbol. */
export function decodeQr(picture: Picture, part: BoxMm): string | null {
  const { left, top, right, bottom } = pixelsOf(picture, part);
  const step = Math.max(1, Math.floor((right - left) / DECODED_SIDE));
  const [width, height] = [Math.floor((right - left) / step), Math.floor((bottom - top) / step)];
  const data = new Uint8ClampedArray(width * height * 4);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const grey = picture.grey[(top + y * step) * picture.width + left + x * step] as number;
      data.fill(grey, (y * width + x) * 4, (y * width + x) * 4 + 3);
      data[(y * width + x) * 4 + 3] = 255;
    }
  }
  return jsQR(data, width, height, { inversionAttempts: 'dontInvert' })?.data ?? null;
}

/** For a person to look at: a grey PNG, one filter byte of 0 before each row (W3C PNG, third edition, 7 and 9). Packed here, because a packer in JavaScript takes minutes within Jest. */
export function savePng({ width, height, grey }: Picture, path: string): void {
  const rows = Buffer.alloc((width + 1) * height);
  for (let row = 0; row < height; row += 1) rows.set(grey.subarray(row * width, (row + 1) * width), row * (width + 1) + 1);
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head[8] = 8;
  writeFileSync(path, Buffer.concat([Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]), chunk('IHDR', head), chunk('IDAT', deflateSync(rows)), chunk('IEND', Buffer.alloc(0))]));
}

function chunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const around = Buffer.alloc(8);
  around.writeUInt32BE(data.length, 0);
  around.writeUInt32BE(crc32(body), 4);
  return Buffer.concat([around.subarray(0, 4), body, around.subarray(4)]);
}
