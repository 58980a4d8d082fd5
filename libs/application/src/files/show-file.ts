import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { refuseOwnerUnknown } from '../claims/unknown-owner.js';
import type { FileObject, FileRecord } from '../ports/file-store.js';
import type { Stores } from '../ports/work.js';
import type { FileWork } from './append-part.js';
import { photographsAllowed } from './consent.js';
import { contentOf } from './content.js';

/** Whom a link is for: those who work on it, the family's own page, a specialist outside, or everybody. */
export const LINK_PURPOSES = ['work', 'family', 'specialist', 'publication'] as const;
export type LinkPurpose = (typeof LINK_PURPOSES)[number];
export const PHOTOGRAPH_SIZES = ['full', 'medium', 'small'] as const;
export type PhotographSize = (typeof PHOTOGRAPH_SIZES)[number];

export interface ShowFile {
  fileId: string;
  /** Of a photograph; anything else has one size. */
  size: PhotographSize;
  purpose: LinkPurpose;
  /** That somebody looked and wants a sensitive file on the family's own page all the same. */
  sensitiveToo: boolean;
}

/**
 * The file, when it may be shown for this purpose now. Asked when a link is made and again whenever it is followed, so that a word which the owner
 * takes back ends the links that are out. @throws Problem not_found, file_state, owner_unknown, file_sensitive, consent_missing
 */
export async function showable(stores: Stores, _call: UseCaseCall, input: ShowFile): Promise<FileRecord> {
  const file = await stores.files.find(input.fileId);
  if (!file) throw notFound('file');
  if (file.state !== 'kept') throw new Problem('file_state', `The file is ${file.state}; only what was checked and kept can be shown.`, { members: { state: file.state } });
  // A picture of a found thing would let anybody describe it.
  if (input.purpose !== 'work') await refuseOwnerUnknown(stores, file);
  if (file.sensitive && (input.purpose === 'publication' || (input.purpose === 'family' && !input.sensitiveToo))) throw new Problem('file_sensitive', input.purpose === 'family' ? 'It shows a document or something as private. Look at it, and ask again with sensitiveToo if the family wants it on its page.' : 'It shows a document or something as private and is not published.');
  if (file.kind !== 'words' && (input.purpose === 'specialist' || input.purpose === 'publication') && !(await photographsAllowed(stores, file.householdId, file.itemId))) {
    throw new Problem('consent_missing', 'The owner has not agreed that photographs and recordings are shown to others. Ask, and record the word with the scope photograph.', { members: { scope: 'photograph' } });
  }
  return file;
}

/** The bytes that a link leads to. @throws Problem as `showable` */
export async function openFile(work: FileWork, call: UseCaseCall, input: ShowFile): Promise<{ file: FileRecord; mediaType: string; bytes: Uint8Array }> {
  const [file, objects] = await work.unitOfWork.read(call.context, async (stores) => [await showable(stores, call, input), await stores.files.objects(input.fileId)] as const);
  const object = objects.find((each) => each.state === 'there' && each.role === roleOf(file, input.size));
  const [bytes] = object === undefined ? [] : await contentOf(work, call.context, file, [object]);
  if (object === undefined || bytes === undefined || bytes === null) throw notFound('file');
  return { file, mediaType: object.mediaType, bytes };
}

function roleOf(file: FileRecord, size: PhotographSize): FileObject['role'] {
  return file.kind === 'photograph' ? size : file.kind;
}
