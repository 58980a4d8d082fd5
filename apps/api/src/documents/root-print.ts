/** One root of the custody record on one page: to be filed by a family, a notary, a partner. */
import { render, say, type Language, type Message } from '#care';
import { PdfPages, type TextStyle } from './pdf-page.js';
import { qrOf, qrSideMm, qrSquares } from './qr-squares.js';

/** What stands on the page; all of it as the API says it. */
export interface PrintedRoot {
  networkId: string;
  rootNo: number;
  periodFrom: string;
  periodTo: string;
  eventCount: number;
  merkleRoot: string;
  prevRootHash: string;
  keyId: string;
  publicKey: string | null;
  statement: string;
  hash: string;
  signature: string;
}

// A4, with margins that also fit on US Letter when it is printed without scaling (216 x 279 mm).
const PAPER = { widthMm: 210, heightMm: 297 };
const LEFT_MM = 20;
const WIDTH_MM = 170;
const TOP_MM = 28;
const TITLE: TextStyle = { sizeMm: 7, weight: 'bold' };
const LABEL: TextStyle = { sizeMm: 3.2, weight: 'bold' };
const VALUE: TextStyle = { sizeMm: 4 };
const SENTENCE: TextStyle = { sizeMm: 3.6 };
const LINE_MM = 5.2;
/** Our own calibration: read from paper by a telephone at arm's length. */
const QR_MODULE_MM = 0.7;
/** 64 hex digits in groups of four, eight groups to a line, can be compared by eye and read out. */
const GROUP = 4;
const GROUPS_IN_LINE = 8;

/** The page as PDF; the same root gives the same bytes. */
export async function printRoot(root: PrintedRoot, language: Language): Promise<Buffer> {
  const spoken = (message: Message): string => render(message, language);
  const title = spoken(say('Custody record: root {rootNo}', { rootNo: String(root.rootNo) }));
  const pages = new PdfPages({ title, language, createdAtMs: Date.parse(root.periodTo) });
  pages.addPage(PAPER);
  pages.text(title, LEFT_MM, TOP_MM, TITLE);
  let y = TOP_MM + 10;
  for (const { label, lines } of fieldsOf(root, spoken)) {
    pages.text(label, LEFT_MM, y, LABEL);
    for (const line of lines) pages.text(line, LEFT_MM, (y += LINE_MM), VALUE);
    y += LINE_MM + 1.5;
  }
  drawBelow(pages, root, spoken, y);
  return pages.finish();
}

type Spoken = (message: Message) => string;

function fieldsOf(root: PrintedRoot, spoken: Spoken): { label: string; lines: string[] }[] {
  const field = (message: Message, ...lines: string[]) => ({ label: spoken(message), lines });
  const minute = (instant: string): string => `${instant.slice(0, 10)} ${instant.slice(11, 19)} UTC`;
  return [
    field(say('Network'), root.networkId),
    field(say('Recorded from'), `${minute(root.periodFrom)}, ${spoken(say('until before'))} ${minute(root.periodTo)}`),
    field(say('Events'), String(root.eventCount)),
    field(say('Root of the hash tree'), ...grouped(root.merkleRoot)),
    field(say('Hash of this statement'), ...grouped(root.hash)),
    field(say('Hash of the root before'), ...grouped(root.prevRootHash)),
    field(say('Key {keyId}, public part', { keyId: root.keyId }), ...(root.publicKey === null ? [spoken(say('not known any more'))] : grouped(root.publicKey))),
    field(say('Signature (Ed25519)'), ...grouped(root.signature, GROUPS_IN_LINE * 2)),
  ];
}

/** Square on the left, what the page is good for beside it. */
function drawBelow(pages: PdfPages, root: PrintedRoot, spoken: Spoken, yMm: number): void {
  const symbol = qrOf(`${root.statement}\n${root.signature}`);
  const side = qrSideMm(symbol, QR_MODULE_MM);
  pages.filled(qrSquares(symbol, LEFT_MM, yMm, QR_MODULE_MM));
  const sentences = [
    say('Keep this page where the people who run the database cannot reach it. As long as you have it, none of these events can be changed, removed or added to without it showing: the record must still give this root under this number.'),
    say('It shows what was recorded, not that what was recorded is true. It says nothing about events that came later.'),
    say('The square holds the signed statement and its signature as text. Compare the public key with one that you were given by another way.'),
  ];
  const x = LEFT_MM + side + 4;
  let y = yMm + 6;
  for (const sentence of sentences) {
    for (const line of pages.wrapped(spoken(sentence), LEFT_MM + WIDTH_MM - x, SENTENCE)) {
      pages.text(line, x, y, SENTENCE);
      y += LINE_MM - 0.4;
    }
    y += 2;
  }
}

/** Hex digits in groups of four, so many groups to a line. */
export function grouped(hex: string, groupsInLine = GROUPS_IN_LINE): string[] {
  const groups = hex.match(new RegExp(`.{1,${GROUP}}`, 'g')) ?? [];
  return Array.from({ length: Math.ceil(groups.length / groupsInLine) }, (_, line) => groups.slice(line * groupsInLine, (line + 1) * groupsInLine).join(' '));
}
