/** Small pictures of a thing for the paper that travels with it to a specialist. */
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { FileWork } from '../files/append-part.js';
import { openFile } from '../files/show-file.js';
import type { ItemDossier } from './dossier.js';

/** As many as lie on half a page and still show something. Our own calibration. */
export const PRINTED_PICTURES = 6;

export interface ReferralPicture {
  reference: string;
  takenOn: string | null;
  /** Re-encoded by us; null where it cannot be read now. */
  jpeg: Uint8Array | null;
}

/** Why no picture is printed although some are kept: nobody agreed, nobody knows the owner, or whoever prints may not read files. */
export type PicturesWithheld = 'consent' | 'owner-unknown' | 'caller';

export interface ReferralPictures {
  /** The newest, in the order in which they were taken. */
  pictures: ReferralPicture[];
  /** How many more are kept. */
  more: number;
  withheld: PicturesWithheld | null;
}

export const NO_PICTURES: ReferralPictures = { pictures: [], more: 0, withheld: null };

/**
 * The photographs that the package lists, as far as others may see them: each is asked for as a link for a specialist would be, with the owner's
 * word as it stands now. Those marked sensitive are in no package. A file that cannot be read is named and holds up no paper; `onUnread` is told which.
 */
export async function referralPictures(work: FileWork, call: UseCaseCall, { photographs }: Pick<ItemDossier, 'photographs'>, { mayRead, onUnread }: { mayRead: boolean; onUnread(fileId: string, error: unknown): void }): Promise<ReferralPictures> {
  const kept = photographs.flatMap(({ fileId, takenOn }) => (fileId === undefined ? [] : [{ fileId, takenOn }]));
  if (kept.length === 0) return NO_PICTURES;
  if (!mayRead) return { ...NO_PICTURES, withheld: 'caller' };
  const pictures: ReferralPicture[] = [];
  for (const { fileId, takenOn } of kept.slice(-PRINTED_PICTURES)) {
    try {
      pictures.push({ reference: fileId, takenOn, jpeg: (await openFile(work, call, { fileId, size: 'small', purpose: 'specialist', sensitiveToo: false })).bytes });
    } catch (error) {
      if (error instanceof Problem && error.code === 'consent_missing') return { ...NO_PICTURES, withheld: 'consent' };
      if (error instanceof Problem && error.code === 'owner_unknown') return { ...NO_PICTURES, withheld: 'owner-unknown' };
      onUnread(fileId, error);
      pictures.push({ reference: fileId, takenOn, jpeg: null });
    }
  }
  return { pictures, more: kept.length - pictures.length, withheld: null };
}
