import type { CallContext } from '../context.js';
import type { FileObject, FileRecord } from '../ports/file-store.js';
import { keyField, type FileWork } from './append-part.js';
import { openContent } from './sealed-content.js';

/** Fetches and opens what lies under names of a file, in the order given. Null for what cannot be opened any more because the household was erased. @throws when bytes are missing or altered */
export async function contentOf({ unitOfWork, vault }: FileWork, context: CallContext, file: FileRecord, objects: readonly FileObject[]): Promise<(Uint8Array | null)[]> {
  const keys = await unitOfWork.read(context, (stores) => stores.personal.openAll(objects.map(({ name, contentKey }) => ({ householdId: file.householdId, field: keyField(name), sealed: contentKey }))));
  const contents: (Uint8Array | null)[] = [];
  for (const [index, { name }] of objects.entries()) {
    const key = keys[index] ?? null;
    if (key === null) {
      contents.push(null);
      continue;
    }
    const sealed = await vault.get(name);
    if (sealed === null) throw new Error(`an object of file ${file.id} is not where it was put (${vault.place})`);
    contents.push(openContent(key, name, sealed));
  }
  return contents;
}
