import type { FileKind, ObjectRole } from './file-store.js';
import type { Refusal, Removed } from '../files/words.js';

/** One file that was made from what was sent. */
export interface KeptObject {
  role: Exclude<ObjectRole, 'part'>;
  mediaType: string;
  bytes: Uint8Array;
}

export interface KeptFile {
  objects: KeptObject[];
  widthPx: number | null;
  heightPx: number | null;
  durationMs: number | null;
  removed: Removed[];
}

export type FileVerdict = { refusal: Refusal } | { kept: KeptFile };

/**
 * Looks into bytes that nobody vouches for, away from everything that could be harmed. Answers for whatever it is given; throws only
 * when the looking itself could not take place, so that it is tried again.
 */
export interface FileChecker {
  check(kind: Exclude<FileKind, 'words'>, bytes: Uint8Array): Promise<FileVerdict>;
}
