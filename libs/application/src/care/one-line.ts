/** Breaks, control and format characters (reordering marks among them), but not the joiners that scripts and emoji are written with. */
const NOT_FOR_A_LINE = /(?![\u200C\u200D])[\s\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu;

/** What somebody typed, in one line of text: it can neither look like a line of ours nor change how one is read. */
export function oneLine(text: string): string {
  return text.replace(NOT_FOR_A_LINE, ' ').trim();
}
