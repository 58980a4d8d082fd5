/** Papers as another program reads and renders them. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { inflateSync } from 'node:zlib';
import { PDFiumLibrary } from '@hyzyla/pdfium';
import { pageSizesPt, picturesOf, savePng, somePages, wordsOf } from './pictures.support.js';

/** The text of each page, words that were broken over two lines put together again by nobody. */
export const textOf = (pdf: Uint8Array): Promise<string[]> => wordsOf(pdf);

const BEYOND_PT = 150;

/**
 * Pages on which something lies off the paper, or nearer than 5 mm to its edge. The page is made larger by 150 points on each side before
 * it is rendered, so that what a printer would cut off is seen.
 */
export async function inkBeyond(pdf: Uint8Array, wanted: readonly number[] | null): Promise<string[]> {
  const sizes = pageSizesPt(pdf);
  const larger = Buffer.from(Buffer.from(pdf).toString('latin1').replaceAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g, (_, width: string, height: string) => `/MediaBox [-${BEYOND_PT} -${BEYOND_PT} ${Number(width) + BEYOND_PT} ${Number(height) + BEYOND_PT}]`), 'latin1');
  const library = await (loaded ??= PDFiumLibrary.init());
  const document = await library.loadDocument(larger);
  const edgePt = (5 / 25.4) * 72;
  const found: string[] = [];
  try {
    if (document.getPageCount() !== sizes.length) throw new Error('the enlarged file was not read');
    for (const index of wanted ?? sizes.keys()) {
      const size = sizes[index] ?? { width: 0, height: 0 };
      // One pixel a point.
      const [wide, high] = [Math.round(size.width + 2 * BEYOND_PT), Math.round(size.height + 2 * BEYOND_PT)];
      const { width, height, data } = await document.getPage(index).render({ scale: 1, width: wide, height: high, render: 'bitmap', colorSpace: 'Gray' });
      const grey = data.slice();
      let ink = 0;
      for (let y = 0; y < height; y += 1) {
        for (let x = 0; x < width; x += 1) {
          if ((grey[y * width + x] as number) > 200) continue;
          const inside = x >= BEYOND_PT + edgePt && x <= BEYOND_PT + size.width - edgePt && y >= BEYOND_PT + edgePt && y <= BEYOND_PT + size.height - edgePt;
          if (!inside) found.push(`page ${index + 1}: ${x - BEYOND_PT}, ${y - BEYOND_PT}`);
          else ink += 1;
          if (found.length > 5) return found;
        }
      }
      // A blank picture would prove nothing.
      if (ink < 100) found.push(`page ${index + 1} is blank`);
    }
    return found;
  } finally {
    document.destroy();
  }
}

let loaded: Promise<PDFiumLibrary> | undefined;

/** How many characters stand in each size of type, by the operators of the page (ISO 32000-1, 9.3.1: `Tf`). */
export function typeSizesPt(pdf: Uint8Array): Map<number, number> {
  const sizes = new Map<number, number>();
  for (const stream of contentsOf(pdf)) {
    let size = 0;
    for (const match of stream.matchAll(/\/F\d+ ([\d.]+) Tf|<([0-9a-fA-F]+)>/g)) {
      if (match[1] !== undefined) size = Number(match[1]);
      else if (size > 0) sizes.set(size, (sizes.get(size) ?? 0) + (match[2]?.length ?? 0) / 4);
    }
  }
  return sizes;
}

function contentsOf(pdf: Uint8Array): string[] {
  const file = Buffer.from(pdf);
  const text = file.toString('latin1');
  return [...text.matchAll(/\/Length (\d+)[^>]*>>\s*stream\r?\n/g)].flatMap((match) => {
    const from = match.index + match[0].length;
    try {
      const inflated = inflateSync(file.subarray(from, from + Number(match[1]))).toString('latin1');
      return inflated.includes(' Tf') ? [inflated] : [];
    } catch {
      return [];
    }
  });
}

/** With WRACKLINE_LOOK=/some/folder, writes the first pages as pictures to look at. */
export async function maybeSave(name: string, pdf: Uint8Array, pages: readonly number[] | null = null): Promise<void> {
  const folder = process.env['WRACKLINE_LOOK'];
  if (folder === undefined) return;
  mkdirSync(folder, { recursive: true });
  writeFileSync(`${folder}/${name}.pdf`, pdf);
  const count = pageSizesPt(pdf).length;
  const wanted = pages ?? [0, 1, 2, count - 1].filter((page, index, all) => page < count && all.indexOf(page) === index);
  const { pictures } = pages === null && count <= 3 ? { pictures: new Map((await picturesOf(pdf)).entries()) } : await somePages(pdf, wanted);
  for (const [page, picture] of pictures) savePng(picture, `${folder}/${name}-p${page + 1}.png`);
}
