/**
 * What stands where on one label: the symbol to scan, the code in letters as large as the label allows, which kind of tag it is and of
 * which incident, and a field to write in. Millimetres from the upper left corner of the label. The sizes are our own calibration.
 */

/** A box on the label. */
export interface Box {
  xMm: number;
  yMm: number;
  widthMm: number;
  heightMm: number;
}

export interface LabelLayout {
  /** The symbol with its quiet zone; square. */
  qr: Box & { moduleMm: number };
  /** Lines of the code as slices of its printed form, the size of the type, and the box in which they stand, centred. */
  code: Box & { lines: CodeLines; sizeMm: number; capHeightMm: number };
  /** The kind of tag and, after it or in a second line, the incident. */
  caption: Box & { sizeMm: number; lines: 1 | 2 };
  /** A field to write in, or for the name of a place; null when there is no room. */
  writing: Box | null;
}

/** How a printed code, `KBCD-FGH-42`, is broken: where each line begins and ends. */
export type CodeLines = readonly (readonly [from: number, to: number])[];

/** Ways to break it, with the width of the widest code of each in units of the size of the type. */
export interface CodeMeasure {
  lines: CodeLines;
  widthEm: number;
}

export interface TypeMeasure {
  /** Height of capitals as a share of the size of the type. */
  capHeightEm: number;
  code: readonly CodeMeasure[];
}

/** Modules of a version 2 symbol on a side with 4 quiet ones on each (ISO/IEC 18004, from memory). */
const QR_SIDE_MODULES = 25 + 2 * 4;
/** Below this many cameras in gloves and wet light fail (guidance, api-conventions B.17). */
export const MIN_MODULE_MM = 0.5;
/** A module is a whole number of dots of a roll printer with 8 dots to the millimetre, so that it prints square. */
const DOT_MM = 0.125;
/** A code of this height reads at arm's length (guidance, tablet-app D.4). */
export const GOOD_CAP_HEIGHT_MM = 5;
/** Cutting and feeding drift: nothing stands nearer to the edge. */
export const INSET_MM = 2;
/** The lowest field in which a person can write with a pencil, and the highest that is worth its room. */
const WRITING_MM = { least: 4.5, most: 14 } as const;
const GAP_MM = 1;
/** Distance of lines in units of the size of the type; capitals alone need no room below the line. */
const LINE_EM = 0.86;
/** Distance of the lines of a caption in units of its size. */
export const CAPTION_LINE_EM = 1.2;
/** A code is broken once more only where that makes it so much larger: fewer pieces are read in one go. */
const WORTH_A_LINE = 1.15;
/** Labels of which both sides are at least so long are signs, to be read across a hall. */
const SIGN_MM = 120;

/** The smallest labels that hold a symbol of readable size with letters: lying, with the code beside it, and upright, with the code below. */
export const SMALLEST_LABELS_MM = { lying: { widthMm: 41, heightMm: QR_SIDE_MODULES * MIN_MODULE_MM + 2 * INSET_MM }, upright: { widthMm: 24, heightMm: 36 } } as const;

interface Size {
  widthMm: number;
  heightMm: number;
}

/** A sign names its place in large letters above the symbol. */
export function isSign({ widthMm, heightMm }: Size): boolean {
  return Math.min(widthMm, heightMm) >= SIGN_MM;
}

/** The layout of a label of this size, or null when it is too small (`SMALLEST_LABELS_MM`). */
export function labelLayout(label: Size, type: TypeMeasure): LabelLayout | null {
  const inner = { widthMm: label.widthMm - 2 * INSET_MM, heightMm: label.heightMm - 2 * INSET_MM };
  if (isSign(label)) return sign(inner, type);
  const layout = inner.widthMm >= inner.heightMm * 1.2 ? beside : below;
  const choices = modulesUpTo(Math.min(inner.widthMm, inner.heightMm)).map((moduleMm) => layout(inner, type, moduleMm)).filter((choice) => choice !== null);
  // The largest symbol beside which the code is still large and a pencil has room; else without the field; else whatever gives the largest code.
  const good = choices.filter(({ code }) => code.capHeightMm >= GOOD_CAP_HEIGHT_MM);
  const largest = choices.reduce<LabelLayout | null>((best, each) => (best === null || each.code.capHeightMm > best.code.capHeightMm ? each : best), null);
  return good.find(({ writing }) => writing !== null) ?? good[0] ?? largest;
}

type Arrange = (inner: Size, type: TypeMeasure, moduleMm: number) => LabelLayout | null;

/** The symbol left, letters right of it; the field to write along the lower edge, or below the code where the label is low. */
const beside: Arrange = (inner, type, moduleMm) => {
  const qrMm = moduleMm * QR_SIDE_MODULES;
  if (qrMm > inner.heightMm + 1e-9 || qrMm > inner.widthMm * 0.45) return null;
  const qr = { ...square(INSET_MM, INSET_MM, qrMm), moduleMm };
  const fieldMm = fieldHeightMm(inner.heightMm);
  const isStrip = inner.heightMm - qrMm - GAP_MM >= fieldMm;
  const [xMm, widthMm, endMm] = [INSET_MM + qrMm + GAP_MM, inner.widthMm - qrMm - GAP_MM, INSET_MM + inner.heightMm];
  const stripMm = isStrip ? Math.min(inner.heightMm - qrMm - GAP_MM, fieldMm * 1.4) : fieldMm;
  const writing = isStrip ? { xMm: INSET_MM, yMm: endMm - stripMm, widthMm: inner.widthMm, heightMm: stripMm } : { xMm, yMm: endMm - stripMm, widthMm, heightMm: stripMm };
  const withField = lettersIn({ xMm, yMm: INSET_MM, widthMm, heightMm: inner.heightMm - stripMm - GAP_MM }, inner, type);
  if (withField.code.capHeightMm >= GOOD_CAP_HEIGHT_MM) return { qr, ...withField, writing };
  const alone = lettersIn({ xMm, yMm: INSET_MM, widthMm, heightMm: inner.heightMm }, inner, type);
  return withField.code.capHeightMm >= alone.code.capHeightMm * 0.95 ? { qr, ...withField, writing } : { qr, ...alone, writing: null };
};

/** The caption in one line or, where the code loses nothing that counts, in two; below it the code. */
function lettersIn(box: Box, inner: Size, type: TypeMeasure): Pick<LabelLayout, 'caption' | 'code'> {
  const [one, two] = ([1, 2] as const).map((lines) => {
    const caption = captionOf(inner, box, lines);
    const yMm = box.yMm + caption.heightMm + GAP_MM;
    return { caption, code: codeIn({ ...box, yMm, heightMm: box.yMm + box.heightMm - yMm }, type) };
  }) as [Pick<LabelLayout, 'caption' | 'code'>, Pick<LabelLayout, 'caption' | 'code'>];
  return two.code.capHeightMm >= Math.min(GOOD_CAP_HEIGHT_MM * 1.2, one.code.capHeightMm) ? two : one;
}

/** The caption above the symbol, the code below it, the field to write at the foot. */
const below: Arrange = (inner, type, moduleMm) => {
  const qrMm = moduleMm * QR_SIDE_MODULES;
  if (qrMm > inner.widthMm + 1e-9) return null;
  const caption = captionOf(inner, { xMm: INSET_MM, yMm: INSET_MM, widthMm: inner.widthMm }, 1);
  const qrTopMm = INSET_MM + caption.heightMm + GAP_MM;
  const codeTopMm = qrTopMm + qrMm + GAP_MM;
  const restMm = INSET_MM + inner.heightMm - codeTopMm;
  const writingMm = Math.min(restMm * 0.35, WRITING_MM.most);
  const field = writingMm >= WRITING_MM.least;
  const code = codeIn({ xMm: INSET_MM, yMm: codeTopMm, widthMm: inner.widthMm, heightMm: field ? restMm - writingMm - GAP_MM : restMm }, type);
  if (code.capHeightMm < 2) return null;
  const qr = { ...square(INSET_MM + (inner.widthMm - qrMm) / 2, qrTopMm, qrMm), moduleMm };
  return { qr, caption, code, writing: field ? { xMm: INSET_MM, yMm: INSET_MM + inner.heightMm - writingMm, widthMm: inner.widthMm, heightMm: writingMm } : null };
};

/** A fifth of the height, within what a pencil needs and what is worth its room. */
function fieldHeightMm(innerHeightMm: number): number {
  return clamp(innerHeightMm * 0.2, WRITING_MM.least, WRITING_MM.most);
}

/** From top to bottom: the name or a field for it, the symbol, the code, the caption. Wide ones have the symbol left of the code. */
function sign(inner: Size, type: TypeMeasure): LabelLayout {
  const captionMm = 8;
  const writing = { xMm: INSET_MM, yMm: INSET_MM, widthMm: inner.widthMm, heightMm: inner.heightMm * 0.26 };
  const topMm = INSET_MM + writing.heightMm + 4;
  const restMm = INSET_MM + inner.heightMm - captionMm - 6 - topMm;
  const caption = { xMm: INSET_MM, yMm: INSET_MM + inner.heightMm - captionMm, widthMm: inner.widthMm, heightMm: captionMm, sizeMm: captionMm / CAPTION_LINE_EM, lines: 1 as const };
  const wide = inner.widthMm >= inner.heightMm * 1.2;
  const moduleMm = modulesUpTo(wide ? Math.min(restMm, inner.widthMm * 0.45) : Math.min(restMm * 0.72, inner.widthMm * 0.75))[0] ?? MIN_MODULE_MM;
  const qrMm = moduleMm * QR_SIDE_MODULES;
  const qr = wide ? { ...square(INSET_MM, topMm + (restMm - qrMm) / 2, qrMm), moduleMm } : { ...square(INSET_MM + (inner.widthMm - qrMm) / 2, topMm, qrMm), moduleMm };
  const box = wide ? { xMm: INSET_MM + qrMm + 2, yMm: topMm, widthMm: inner.widthMm - qrMm - 2, heightMm: restMm } : { xMm: INSET_MM, yMm: topMm + qrMm + 2, widthMm: inner.widthMm, heightMm: restMm - qrMm - 2 };
  return { qr, code: codeIn(box, type), caption, writing };
}

function captionOf(inner: Size, at: { xMm: number; yMm: number; widthMm: number }, lines: 1 | 2): LabelLayout['caption'] {
  const sizeMm = clamp(Math.min(inner.heightMm, inner.widthMm) * 0.1, 2.8, 7);
  return { xMm: at.xMm, yMm: at.yMm, widthMm: at.widthMm, heightMm: sizeMm * CAPTION_LINE_EM * lines, sizeMm, lines };
}

function square(xMm: number, yMm: number, sideMm: number): Box {
  return { xMm, yMm, widthMm: sideMm, heightMm: sideMm };
}

/** Sizes of a module with which the symbol fits, the largest first. */
function modulesUpTo(roomMm: number): number[] {
  const most = Math.floor(roomMm / QR_SIDE_MODULES / DOT_MM + 1e-9);
  return Array.from({ length: Math.max(0, most - MIN_MODULE_MM / DOT_MM + 1) }, (_, index) => (most - index) * DOT_MM);
}

/** The largest code that fits the box, broken as it is largest. */
function codeIn(box: Box, type: TypeMeasure): LabelLayout['code'] {
  const sizes = type.code.map(({ lines, widthEm }) => ({ lines, sizeMm: Math.min(box.widthMm / widthEm, box.heightMm / (type.capHeightEm + (lines.length - 1) * LINE_EM)) }));
  const best = sizes.reduce((one, other) => (other.sizeMm > one.sizeMm * WORTH_A_LINE ? other : one));
  return { ...box, lines: best.lines, sizeMm: best.sizeMm, capHeightMm: best.sizeMm * type.capHeightEm };
}

/** Baselines of the lines of a code, from the upper edge of the label: the block stands in the middle of its box. */
export function codeBaselinesMm(code: LabelLayout['code']): number[] {
  const blockMm = code.capHeightMm + (code.lines.length - 1) * LINE_EM * code.sizeMm;
  const firstMm = code.yMm + (code.heightMm - blockMm) / 2 + code.capHeightMm;
  return code.lines.map((_, index) => firstMm + index * LINE_EM * code.sizeMm);
}

function clamp(value: number, least: number, most: number): number {
  return Math.min(Math.max(value, least), most);
}
