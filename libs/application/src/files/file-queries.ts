import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { FileRecord } from '../ports/file-store.js';
import type { Stores } from '../ports/work.js';
import { openUpload } from './append-part.js';
import { deletedReasonField } from './delete-files.js';

export interface FileView {
  file: FileRecord;
  deletedReason: string | null;
}

/** Opens what is sealed of them. */
export async function asViews(stores: Stores, files: readonly FileRecord[]): Promise<FileView[]> {
  const reasons = await stores.personal.openAll(files.map(({ id, householdId, deletedReason }) => ({ householdId, field: deletedReasonField(id), sealed: deletedReason })));
  return files.map((file, index) => ({ file, deletedReason: reasons[index] ?? null }));
}

export async function getFile(stores: Stores, _call: UseCaseCall, input: { fileId: string }): Promise<FileView> {
  const file = await stores.files.find(input.fileId);
  if (!file) throw notFound('file');
  const [view] = await asViews(stores, [file]);
  return view ?? { file, deletedReason: null };
}

/** An upload that is or was one. @throws Problem not_found, upload_expired */
export function getUpload(stores: Stores, call: UseCaseCall, input: { fileId: string }): Promise<FileRecord> {
  return openUpload(stores, call, input.fileId);
}

export interface FileListInput {
  everyState: boolean;
  limit: number;
  after: string | null;
}

export async function listItemFiles(stores: Stores, _call: UseCaseCall, input: FileListInput & { itemId: string }): Promise<FileView[]> {
  const item = await stores.items.find(input.itemId);
  if (!item) throw notFound('item');
  return asViews(stores, await stores.files.page({ itemId: item.id }, input.everyState, input.limit, input.after));
}

export async function listHouseholdFiles(stores: Stores, _call: UseCaseCall, input: FileListInput & { householdId: string }): Promise<FileView[]> {
  const household = await stores.households.find(input.householdId);
  if (!household) throw notFound('household');
  return asViews(stores, await stores.files.page({ householdId: household.id }, input.everyState, input.limit, input.after));
}
