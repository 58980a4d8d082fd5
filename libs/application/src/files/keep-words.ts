import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { FileRecord } from '../ports/file-store.js';
import type { Stores } from '../ports/work.js';
import { type FileWork, openUpload, prepare } from './append-part.js';

/** Bytes of a text as they are kept. */
export const wordsBytes = (text: string): Uint8Array => new TextEncoder().encode(text);

/**
 * Keeps a family's written words, for which `beginUpload` made the record. Run again after a break it does what is left; words that are kept stay as
 * they are. @throws Problem not_found, upload_expired, household_erased
 */
export async function keepWords({ unitOfWork, vault }: FileWork, call: UseCaseCall, input: { fileId: string; text: string }): Promise<FileRecord> {
  const bytes = wordsBytes(input.text);
  const prepared = await unitOfWork.write(call.context, async (stores) => {
    const file = await openUpload(stores, call, input.fileId);
    return file.state === 'receiving' ? prepare(stores, file, { role: 'words', mediaType: 'text/plain', atByte: null, bytes }) : null;
  });
  if (prepared !== null) {
    await vault.put(prepared.object.name, prepared.sealed);
    await unitOfWork.write(call.context, (stores) => settle(stores, call, input.fileId, prepared.object.name, bytes.length));
  }
  return unitOfWork.read(call.context, (stores) => found(stores, input.fileId));
}

async function settle(stores: Stores, call: UseCaseCall, fileId: string, name: string, length: number): Promise<void> {
  const file = await stores.files.lock(fileId);
  if (file?.state !== 'receiving' || !(await stores.files.advance(fileId, 0, length))) return stores.files.drop([name]);
  if ((await stores.files.confirm([name])) !== 1) throw new Error('words were taken away while they were written');
  const { nowMs } = call.env;
  await stores.files.save(fileId, { state: 'kept', receivedAtMs: nowMs, settledAtMs: nowMs, mediaType: 'text/plain', keptBytes: length });
}

async function found(stores: Stores, fileId: string): Promise<FileRecord> {
  const file = await stores.files.find(fileId);
  if (!file) throw notFound('file');
  return file;
}
