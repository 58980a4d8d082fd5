import { createHash } from 'node:crypto';
import type { CallContext, Environment } from '../context.js';
import type { FileChecker, FileVerdict, KeptFile } from '../ports/file-checker.js';
import type { FileObject, FileRecord } from '../ports/file-store.js';
import type { OutboxMessage } from '../ports/outbox-store.js';
import type { Stores } from '../ports/work.js';
import { type FileWork, prepare, type Prepared } from './append-part.js';
import { contentOf } from './content.js';
import type { Refusal } from './words.js';

export type FileCheckOutcome = 'kept' | 'refused' | 'overtaken' | 'erased';

/**
 * The worker's part of an upload: looks into what came, keeps what it made of it and lets go of what came. It may be killed at any byte and run
 * again, or run beside itself: one run settles the file, in one transaction with its row of the outbox, and what another put outside is removed.
 */
export async function runFileCheck(parts: FileWork & { checker: FileChecker }, message: OutboxMessage, context: CallContext, env: Environment): Promise<FileCheckOutcome> {
  const { unitOfWork, vault, checker } = parts;
  const [file, objects] = await unitOfWork.read(context, async (stores) => [await stores.files.find(message.subjectId), await stores.files.objects(message.subjectId)] as const);
  if (file?.state !== 'received' || file.kind === 'words') return end(parts, message, context);
  const bytes = await sent(parts, context, file, objects);
  // The key is gone: nobody can look into it any more, and the erasure has struck the file.
  if (bytes === null) return end(parts, message, context).then(() => 'erased');
  const fault = differs(file, bytes);
  const verdict: FileVerdict = fault === null ? await checker.check(file.kind, bytes) : { refusal: fault };
  if ('refusal' in verdict) return settle(parts, message, context, env, (stores) => refuse(stores, env, file.id, verdict.refusal));
  const made = await unitOfWork.write(context, (stores) => prepareAll(stores, file, verdict.kept));
  for (const { object, sealed } of made) await vault.put(object.name, sealed);
  const names = made.map(({ object }) => object.name);
  return settle(parts, message, context, env, (stores) => keep(stores, env, file.id, verdict.kept, names), names);
}

/** All parts as one; null when the household was erased. */
async function sent(parts: FileWork, context: CallContext, file: FileRecord, objects: readonly FileObject[]): Promise<Uint8Array | null> {
  const contents = await contentOf(parts, context, file, objects.filter(({ role, state }) => role === 'part' && state === 'there'));
  return contents.includes(null) ? null : Buffer.concat(contents as Uint8Array[]);
}

function differs(file: FileRecord, bytes: Uint8Array): Refusal | null {
  if (bytes.length !== file.declaredBytes) return 'length-differs';
  if (file.declaredSha256 !== null && createHash('sha256').update(bytes).digest('hex') !== file.declaredSha256) return 'checksum-differs';
  return null;
}

async function prepareAll(stores: Stores, file: FileRecord, { objects }: KeptFile): Promise<Prepared[]> {
  const prepared: Prepared[] = [];
  for (const object of objects) prepared.push(await prepare(stores, file, { ...object, atByte: null }));
  return prepared;
}

/** Says how it ended, once. `names` were put for it, and are removed when another run was first. */
function settle({ unitOfWork }: FileWork, message: OutboxMessage, context: CallContext, env: Environment, conclude: (stores: Stores) => Promise<'kept' | 'refused'>, names: readonly string[] = []): Promise<FileCheckOutcome> {
  return unitOfWork.write(context, async (stores) => {
    const file = await stores.files.lock(message.subjectId);
    const first = await stores.outbox.markDone(message.id);
    // What came is let go in either case, and what this run put when it was not the first.
    await stores.outbox.append({ ...message, id: env.newId(), kind: 'file.sweep' });
    if (first && file?.state === 'received') return conclude(stores);
    await stores.files.drop(names);
    return 'overtaken';
  });
}

async function refuse(stores: Stores, env: Environment, fileId: string, refusal: Refusal): Promise<'refused'> {
  await stores.files.dropOf([fileId], false);
  await stores.files.save(fileId, { state: 'refused', refusal, settledAtMs: env.nowMs });
  return 'refused';
}

async function keep(stores: Stores, env: Environment, fileId: string, kept: KeptFile, names: readonly string[]): Promise<'kept'> {
  if ((await stores.files.confirm(names)) !== names.length) throw new Error('what was kept was taken away while it was written');
  await stores.files.dropOf([fileId], true);
  const first = kept.objects[0];
  await stores.files.save(fileId, { state: 'kept', settledAtMs: env.nowMs, mediaType: first?.mediaType ?? null, keptBytes: first?.bytes.length ?? null, widthPx: kept.widthPx, heightPx: kept.heightPx, durationMs: kept.durationMs, removed: kept.removed });
  return 'kept';
}

async function end({ unitOfWork }: FileWork, message: OutboxMessage, context: CallContext): Promise<FileCheckOutcome> {
  await unitOfWork.write(context, (stores) => stores.outbox.markDone(message.id));
  return 'overtaken';
}
