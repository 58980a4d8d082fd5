import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { FileRecord } from '../ports/file-store.js';
import { openUpload } from './append-part.js';
import { personalField } from '../ports/personal-store.js';
import type { Stores } from '../ports/work.js';

export const deletedReasonField = (fileId: string): string => personalField('file.deleted_reason', fileId);

/** Deletes one file, whatever its state, with who wanted it and why. Its record stays, so that it is known that something was there. @throws Problem not_found, file_state, reference_unknown */
export async function deleteFile(stores: Stores, call: UseCaseCall, input: { fileId: string; personId: string; reason: string }): Promise<FileRecord> {
  const file = await stores.files.lock(input.fileId);
  if (!file) throw notFound('file');
  if (file.state === 'deleted') throw new Problem('file_state', 'The file was deleted before.', { members: { state: file.state } });
  if ((await stores.places.person(input.personId))?.incidentId !== file.incidentId) throw new Problem('reference_unknown', 'There is no person with this id in the incident.', { errors: [{ detail: 'names nobody of this incident', code: 'reference_unknown', pointer: '#/personId' }] });
  const deletedReason = await stores.personal.seal(file.householdId, deletedReasonField(file.id), input.reason);
  await strike(stores, call, file, { deletedBy: input.personId, deletedReason });
  return { ...file, state: 'deleted', deletedAtMs: call.env.nowMs, deletedBy: input.personId, deletedReason, version: file.version + 1 };
}

/**
 * Ends an upload that is not finished, for whoever sends it: what had arrived is struck, and the worker frees its bytes. A finished one is the file of an
 * event, and is deleted by who answers for that. @throws Problem not_found, upload_expired, file_state
 */
export async function endUpload(stores: Stores, call: UseCaseCall, input: { fileId: string }): Promise<void> {
  const file = await stores.files.lock(input.fileId);
  await openUpload(stores, call, input.fileId);
  if (file?.state !== 'receiving') throw new Problem('file_state', 'The upload is finished, and its file belongs to an event. Delete the file with POST /v1/files/{fileId}/deletions, if it is to go.', { members: { state: file?.state } });
  await strike(stores, call, file, { deletedBy: null, deletedReason: null });
}

/** Every file of a household that is not deleted, for an export or an erasure. */
export function filesOfHousehold(stores: Stores, householdId: string): Promise<FileRecord[]> {
  return stores.files.ofHousehold(householdId);
}

/**
 * For an erasure: every file of the household, or every one of a kind, is struck in this transaction, and the worker removes the bytes from outside after it. Who destroys the
 * household's key with it has made them unreadable at once. Answers how many there were.
 */
export async function deleteFilesOf(stores: Stores, call: UseCaseCall, householdId: string, kind: FileRecord['kind'] | null = null): Promise<number> {
  const files = (await stores.files.ofHousehold(householdId)).filter((file) => kind === null || file.kind === kind);
  // In id order, so that a check that settles one of them and this wait for each other and never block each other.
  for (const { id } of files) {
    const file = await stores.files.lock(id);
    if (file && file.state !== 'deleted') await strike(stores, call, file, { deletedBy: null, deletedReason: null });
  }
  return files.length;
}

async function strike(stores: Stores, call: UseCaseCall, file: FileRecord, why: Pick<FileRecord, 'deletedBy' | 'deletedReason'>): Promise<void> {
  await stores.files.save(file.id, { state: 'deleted', deletedAtMs: call.env.nowMs, ...why });
  await stores.files.dropOf([file.id], false);
  await stores.outbox.append({ id: call.env.newId(), incidentId: file.incidentId, kind: 'file.sweep', subjectId: file.id, traceparent: call.context.traceparent });
}
