import type { Environment } from '../context.js';
import type { FileKind } from '../ports/file-store.js';

/** Sizes and times of files. All are our own calibration and can be configured. */
export interface FileLimits {
  photographBytes: number;
  voiceBytes: number;
  /** After this an upload that is not complete is given up. */
  uploadHours: number;
  /** Uploads not yet checked, of one household and of the whole network. */
  unfinishedOfHousehold: number;
  unfinishedOfNetwork: number;
}

export const UPLOAD_LIMITS: FileLimits = { photographBytes: 15_000_000, voiceBytes: 25_000_000, uploadHours: 24, unfinishedOfHousehold: 50, unfinishedOfNetwork: 2_000 };

/** What is taken from the sender and made durable at a time: bounds the memory of one upload, and what a cut line can cost. */
export const PART_BYTES = 2_097_152;
/** Written words, in characters: a dozen pages. */
export const WORDS_CHARACTERS = 30_000;

export const fileLimits = (env: Environment): FileLimits => ({ ...UPLOAD_LIMITS, ...env.files });

/** @returns bytes that a file of the kind may have; words have a length of their own. */
export function mostBytes(limits: FileLimits, kind: FileKind): number {
  if (kind === 'photograph') return limits.photographBytes;
  return kind === 'voice' ? limits.voiceBytes : WORDS_CHARACTERS * 4;
}
