/** QR symbols as squares to be drawn (ISO/IEC 18004; levels, modes and quiet zone from memory, see guidance api-conventions B.17). */
import newSymbol from 'qrcode-generator';

/** White modules that must surround a symbol. */
export const QUIET_MODULES = 4;

/** Modules on a side of version 2, which holds a tag code at level Q with room to spare (29 characters). */
export const TAG_QR_MODULES = 25;

export interface Square {
  xMm: number;
  yMm: number;
  widthMm: number;
  heightMm: number;
}

export interface QrSymbol {
  /** Modules on a side, without the quiet zone. */
  modules: number;
  isDark(row: number, column: number): boolean;
}

/** The symbol of a tag code or another short text of `0-9 A-Z space $%*+-./:` (alphanumeric mode): version 2, level Q. @throws when the text is longer than 29 characters or holds others. */
export function tagQr(code: string): QrSymbol {
  return qrOf(code, { version: 2, level: 'Q', mode: 'Alphanumeric' });
}

/** Any symbol; version 0 takes the smallest that holds the text. Bytes are those of UTF-8. */
export function qrOf(text: string, { version = 0, level = 'M', mode = 'Byte' }: { version?: 0 | 2; level?: 'M' | 'Q'; mode?: 'Alphanumeric' | 'Byte' } = {}): QrSymbol {
  const symbol = newSymbol(version, level);
  symbol.addData(mode === 'Byte' ? String.fromCharCode(...Buffer.from(text, 'utf8')) : text, mode);
  symbol.make();
  return { modules: symbol.getModuleCount(), isDark: (row, column) => symbol.isDark(row, column) };
}

/** Millimetres on a side with the quiet zone. */
export function qrSideMm(symbol: Pick<QrSymbol, 'modules'>, moduleMm: number): number {
  return (symbol.modules + 2 * QUIET_MODULES) * moduleMm;
}

/** The dark modules as boxes, neighbours in a row as one. `xMm`, `yMm` is the upper left corner of the quiet zone. */
export function qrSquares(symbol: QrSymbol, xMm: number, yMm: number, moduleMm: number): Square[] {
  const boxes: Square[] = [];
  for (let row = 0; row < symbol.modules; row += 1) {
    for (let column = 0; column < symbol.modules; column += 1) {
      if (!symbol.isDark(row, column)) continue;
      const first = column;
      while (column + 1 < symbol.modules && symbol.isDark(row, column + 1)) column += 1;
      boxes.push({ xMm: xMm + (QUIET_MODULES + first) * moduleMm, yMm: yMm + (QUIET_MODULES + row) * moduleMm, widthMm: (column - first + 1) * moduleMm, heightMm: moduleMm });
    }
  }
  return boxes;
}
