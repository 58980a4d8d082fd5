import type { CallContext, Environment } from '../context.js';
import type { OutboxMessage } from '../ports/outbox-store.js';
import type { Stores, UnitOfWork } from '../ports/work.js';
import type { FileWork } from './append-part.js';

export type FileSweepOutcome = 'swept' | 'again' | 'overtaken';

/** A name that has been 'writing' for so long in real time belongs to a run that is dead. Well above what a part or a check may take. */
const WRITING_MS = 3_600_000;
/** When a row that failed for good is looked at again. */
const AGAIN_MS = 3_600_000;

/**
 * Ends an upload that was not finished in time, and removes from outside what is let go of. The name goes only after its bytes are gone, so a run
 * that is killed between leaves nothing that nobody knows of.
 */
export async function runFileSweep({ unitOfWork, vault }: FileWork, message: OutboxMessage, context: CallContext, env: Environment): Promise<FileSweepOutcome> {
  const names = await unitOfWork.write(context, async (stores) => {
    await endInTime(stores, env, message.subjectId);
    return stores.files.removable(message.subjectId, WRITING_MS);
  });
  for (const name of names) await vault.delete(name);
  return unitOfWork.write(context, async (stores) => {
    await stores.files.forget(names);
    if (!(await stores.outbox.markDone(message.id))) return 'overtaken';
    const waitMs = await againIn(stores, env, message.subjectId);
    if (waitMs === null) return 'swept';
    await lookAgain(stores, message, env, waitMs);
    return 'again';
  });
}

export async function giveUpFileSweep(unitOfWork: UnitOfWork, message: OutboxMessage, context: CallContext, env: Environment): Promise<void> {
  await unitOfWork.write(context, (stores) => lookAgain(stores, message, env, AGAIN_MS));
}

async function endInTime(stores: Stores, env: Environment, fileId: string): Promise<void> {
  const file = await stores.files.lock(fileId);
  if (file?.state !== 'receiving' || file.expiresAtMs > env.nowMs) return;
  await stores.files.save(fileId, { state: 'expired' });
  await stores.files.dropOf([fileId], false);
}

/** Milliseconds until there may be more to do; null when there will be nothing. */
async function againIn(stores: Stores, env: Environment, fileId: string): Promise<number | null> {
  const file = await stores.files.find(fileId);
  if (file?.state === 'receiving') return Math.max(1_000, file.expiresAtMs - env.nowMs);
  return (await stores.files.objects(fileId)).some(({ state }) => state !== 'there') ? WRITING_MS : null;
}

function lookAgain(stores: Stores, message: OutboxMessage, env: Environment, aheadMs: number): Promise<void> {
  return stores.outbox.appendAhead({ ...message, id: env.newId(), kind: 'file.sweep' }, aheadMs);
}
