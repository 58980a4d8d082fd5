import type { OutboxMessage } from '../ports/outbox-store.js';
import type { Stores } from '../ports/work.js';

/**
 * What came of reviving a row: the work will be done; its subject is over, so that the worker only closes the row; the next one of its
 * kind lies ahead and does its work, so that it is closed; or somebody else had revived it.
 */
export type Revived = 'to-be-done' | 'subject-over' | 'comes-anyway' | 'not-dead';

/**
 * Makes a row that was given up due again, and takes back what its subject was told. A plan run is put back to work
 * unless the incident has a newer plan or one under way. An intake file cannot be: its bytes, which hold contacts, were
 * dropped when it was given up, and its network sends it again. Doing it twice does it once.
 */
export async function reviveRow(stores: Stores, message: OutboxMessage): Promise<Revived> {
  const revived = await stores.outbox.revive(message.id);
  if (revived !== 'revived') return revived ?? 'not-dead';
  return (await isToBeDone(stores, message)) ? 'to-be-done' : 'subject-over';
}

async function isToBeDone(stores: Stores, { kind, subjectId }: OutboxMessage): Promise<boolean> {
  switch (kind) {
    case 'plan.requested': return stores.plans.reopenRun(subjectId);
    case 'plan.what_if': return stores.planWhatIfs.reopen(subjectId);
    case 'retention.run': return reopenRun(stores, subjectId);
    case 'intake_import.submitted': {
      const state = (await stores.imports.find(subjectId))?.state;
      return state === 'queued' || state === 'running';
    }
    // All others work on whatever is there by then: the book in force, what waits for a root, what is to be told, looked at, checked or sealed.
    default: return true;
  }
}

/** A run that was given up goes on where it was. */
async function reopenRun(stores: Stores, runId: string): Promise<boolean> {
  const run = await stores.retention.lockRun(runId);
  if (!run || run.state === 'done') return false;
  if (run.state === 'running') return true;
  await stores.retention.saveRun({ ...run, state: 'running', endedAtMs: null });
  return true;
}
