import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { FileObject, FileRecord, ObjectRole } from '../ports/file-store.js';
import type { FileVault } from '../ports/file-vault.js';
import { personalField } from '../ports/personal-store.js';
import type { Stores, UnitOfWork } from '../ports/work.js';
import { contentKey, objectName, sealContent } from './sealed-content.js';

/** What this needs besides a transaction: bytes are put between two of them, so that none is held open over a slow disk. */
export interface FileWork {
  unitOfWork: UnitOfWork;
  vault: FileVault;
}

/** Bounds what one upload can leave behind; at two million bytes a part a hundred are never needed. Our own calibration. */
const MOST_PARTS = 400;

/** Bytes about to be put, registered under a name of their own. */
export interface Prepared {
  object: FileObject;
  sealed: Uint8Array;
}

export const keyField = (name: string): string => personalField('file_object.content_key', name);

/** Writes the name down and seals the bytes for the household. @throws Problem household_erased */
export async function prepare(stores: Stores, file: FileRecord, made: { role: ObjectRole; mediaType: string; atByte: number | null; bytes: Uint8Array }): Promise<Prepared> {
  const [name, key] = [objectName(), contentKey()];
  const object: FileObject = { fileId: file.id, incidentId: file.incidentId, name, role: made.role, atByte: made.atByte, bytes: made.bytes.length, mediaType: made.mediaType, contentKey: await stores.personal.seal(file.householdId, keyField(name), key), state: 'writing' };
  await stores.files.register([object]);
  return { object, sealed: sealContent(key, name, made.bytes) };
}

/** The upload that a key may go on with. @throws Problem not_found, upload_expired */
export async function openUpload(stores: Stores, call: UseCaseCall, fileId: string): Promise<FileRecord> {
  const file = await stores.files.find(fileId);
  if (!file) throw notFound('upload');
  if (file.state === 'expired' || file.state === 'deleted' || (file.state === 'receiving' && file.expiresAtMs <= call.env.nowMs)) throw new Problem('upload_expired', 'The upload was not finished in time or was ended, or its file was deleted. Begin a new one.');
  return file;
}

/**
 * Takes the next part of an upload: first its name, then its bytes, then that the upload has moved on. When this returns, the part outlives a power
 * cut. Of two that send the same part beside each other one moves the upload on. The last part rings for the check.
 * @throws Problem not_found, upload_expired, upload_offset, body_too_large, household_erased
 */
export async function appendPart({ unitOfWork, vault }: FileWork, call: UseCaseCall, input: { fileId: string; atByte: number; bytes: Uint8Array }): Promise<FileRecord> {
  const { atByte, bytes } = input;
  const prepared = await unitOfWork.write(call.context, async (stores) => {
    const file = await openUpload(stores, call, input.fileId);
    if (file.state !== 'receiving' || file.offsetBytes !== atByte) throw elsewhere(file);
    if (atByte + bytes.length > file.declaredBytes) throw new Problem('body_too_large', `The upload was announced with ${file.declaredBytes} bytes; more than that is not taken.`);
    if ((await stores.files.objects(file.id)).length >= MOST_PARTS) throw new Problem('uploads_full', 'The upload came in too many small parts. Begin a new one, and send larger parts.');
    return prepare(stores, file, { role: 'part', mediaType: 'application/octet-stream', atByte, bytes });
  });
  await vault.put(prepared.object.name, prepared.sealed);
  const moved = await unitOfWork.write(call.context, (stores) => moveOn(stores, call, prepared.object, atByte + bytes.length));
  if (moved !== null) return moved;
  await vault.delete(prepared.object.name);
  throw elsewhere(await unitOfWork.read(call.context, (stores) => openUpload(stores, call, input.fileId)));
}

async function moveOn(stores: Stores, call: UseCaseCall, { fileId, name, atByte }: FileObject, toByte: number): Promise<FileRecord | null> {
  const file = await stores.files.lock(fileId);
  if (!file || !(await stores.files.advance(fileId, atByte ?? 0, toByte))) {
    // Somebody else's part stands there: this one is removed with the next look at the file.
    await stores.files.drop([name]);
    return null;
  }
  if ((await stores.files.confirm([name])) !== 1) throw new Error('a part was taken away while it was written');
  if (toByte < file.declaredBytes) return { ...file, offsetBytes: toByte };
  await stores.files.save(fileId, { state: 'received', receivedAtMs: call.env.nowMs });
  if (file.kind !== 'words') await stores.outbox.append({ id: call.env.newId(), incidentId: file.incidentId, kind: 'file.check', subjectId: fileId, traceparent: call.context.traceparent });
  return { ...file, offsetBytes: toByte, state: 'received', receivedAtMs: call.env.nowMs };
}

function elsewhere(file: FileRecord): Problem {
  return new Problem('upload_offset', `The upload stands at byte ${file.offsetBytes} of ${file.declaredBytes}. Ask with HEAD where it stands and go on from there.`, { members: { offset: file.offsetBytes } });
}
