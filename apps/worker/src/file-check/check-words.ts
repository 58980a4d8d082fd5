import type { FileKind, FileVerdict } from '#application';

/** What the child of a check says when it has started. */
export const READY = 'ready';

/** What it is given then, and what it says at last; bytes cross as they are. */
export interface CheckTask {
  kind: Exclude<FileKind, 'words'>;
  bytes: Uint8Array;
  memoryMb: number;
}
export interface CheckAnswer {
  /** Null when something of ours went wrong; then it is tried again. */
  verdict: FileVerdict | null;
  /** Most memory that it had at a time. */
  peakMb: number;
}
