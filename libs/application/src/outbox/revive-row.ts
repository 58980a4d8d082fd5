import type { OutboxMessage } from '../ports/outbox-store.js';
import type { Stores } from '../ports/work.js';

/**
 * What came of reviving a row: the work will be done; its subject is over, so that the worker only closes the row; or
 * somebody else had revived it.
 */
export type Revived = 'to-be-done' | 'subject-over' | 'not-dead';

/**
 * Makes a row that was given up due again, and takes back what its subject was told. A plan run is put back to work
 * unless the incident has a newer plan or one under way. An intake file cannot be: its bytes, which hold contacts, were
 * dropped when it was given up, and its network sends it again. Doing it twice does it once.
 */
export async function reviveRow(stores: Stores, message: OutboxMessage): Promise<Revived> {
  if (!(await stores.outbox.revive(message.id))) return 'not-dead';
  return (await isToBeDone(stores, message)) ? 'to-be-done' : 'subject-over';
}

async function isToBeDone(stores: Stores, { kind, subjectId }: OutboxMessage): Promise<boolean> {
  if (kind === 'plan.requested') return stores.plans.reopenRun(subjectId);
  if (kind === 'plan.what_if') return stores.planWhatIfs.reopen(subjectId);
  // A change of the rule book is carried out by whatever book is in force then.
  if (kind === 'rule_book.chosen') return true;
  // Whatever waits for a root by then is put under one.
  if (kind === 'custody.root') return true;
  // The worker looks at whatever is there by then.
  if (kind === 'sight.look' || kind === 'retention.look') return true;
  // What is sealed by then stays sealed.
  if (kind === 'personal.seal') return true;
  // It looks at whatever is to be told by then.
  if (kind === 'family.news') return true;
  if (kind === 'retention.run') return reopenRun(stores, subjectId);
  const state = (await stores.imports.find(subjectId))?.state;
  return state === 'queued' || state === 'running';
}

/** A run that was given up goes on where it was. */
async function reopenRun(stores: Stores, runId: string): Promise<boolean> {
  const run = await stores.retention.lockRun(runId);
  if (!run || run.state === 'done') return false;
  if (run.state === 'running') return true;
  await stores.retention.saveRun({ ...run, state: 'running', endedAtMs: null });
  return true;
}
