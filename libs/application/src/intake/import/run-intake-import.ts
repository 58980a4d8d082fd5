/** The worker's part of an intake file. */
import { createHash } from 'node:crypto';
import { setImmediate as nextTurn } from 'node:timers/promises';
import { say, type Message as Said } from '#care';
import type { UseCaseCall } from '../../call.js';
import type { CallContext, Environment } from '../../context.js';
import { PLAN_REASONS } from '../../planning/plan-reasons.js';
import { requestPlan } from '../../planning/request-plan.js';
import type { ImportRecord } from '../../ports/import-store.js';
import type { OutboxMessage } from '../../ports/outbox-store.js';
import type { Stores, UnitOfWork } from '../../ports/work.js';
import { applyRows, RowUndone, type ImportJob } from './apply-rows.js';
import { householdsOf } from './households-of-file.js';
import { isTimeZone } from './local-time.js';
import { readRow } from './read-row.js';
import { readTable, type TableMediaType } from './read-table.js';
import type { RowReading } from './row-values.js';

/** Rows of one transaction: small enough to be done in a second, large enough not to pay for a commit each. Our own calibration. */
export const ROWS_PER_CHUNK = 100;

type Message = Pick<OutboxMessage, 'id' | 'subjectId'>;

/**
 * Carries out a submitted file, a chunk of rows to a transaction. It may be killed and started again at any moment, or
 * run twice at once: each chunk locks the import and goes on where the last committed one stopped. The outbox row is
 * marked done with the last chunk. Acts in the name of the key that sent the file.
 */
export async function runIntakeImport(unitOfWork: UnitOfWork, message: Message, context: CallContext, env: Environment): Promise<void> {
  const opened = await unitOfWork.read(context, (stores) => open(stores, message.subjectId));
  if (opened === null) return unitOfWork.write(context, (stores) => closeRow(stores, message));
  const actor = { ...context, principalId: opened.record.submittedBy };
  const job = await toJob(opened);
  if ('failure' in job) return unitOfWork.write(actor, (stores) => fail(stores, message, env, job.failure));
  while (await nextChunk(unitOfWork, message, actor, env, job));
}

/** Ends an import whose work was given up after all tries; what went in stays in, and sending the file again goes on from there. */
export async function giveUpIntakeImport(unitOfWork: UnitOfWork, message: Message, context: CallContext, env: Environment): Promise<void> {
  await unitOfWork.write(context, async (stores) => {
    const record = await stores.imports.lock(message.subjectId);
    if (record === null || isOver(record)) return;
    await stores.imports.finish(record.id, { state: 'failed', failure: say('The rest of the file could not be worked through. Send the same file again to go on from here; if it stops again, tell who runs the service.'), atMs: env.nowMs });
    await planWhatCame(stores, { context, env }, record.id);
  });
}

interface Opened {
  record: ImportRecord;
  content: Uint8Array;
  timeZone: string;
  floodAtMs: number;
}

/** Null when there is nothing left to do. */
async function open(stores: Stores, importId: string): Promise<Opened | null> {
  // The bytes first: another worker may end the import and drop them between the two looks.
  const content = await stores.imports.content(importId);
  const record = await stores.imports.find(importId);
  if (record === null || isOver(record)) return null;
  const incident = await stores.places.incident(record.incidentId);
  if (content === null || incident === null) throw new Error('an open import without its file or incident');
  return { record, content, timeZone: await stores.imports.timeZone(), floodAtMs: incident.floodAtMs };
}

/** The whole file read anew, the same way each time; a sentence when it cannot be. */
async function toJob({ record, content, timeZone, floodAtMs }: Opened): Promise<ImportJob | { failure: Said }> {
  if (createHash('sha256').update(content).digest('hex') !== record.sha256) return { failure: say('The stored file is not the one that was sent. Send it again.') };
  if (!isTimeZone(timeZone)) return { failure: say('The time zone of the network, {timeZone}, is not known here, so no time of the file can be read. Have it put right, then send the same file again.', { timeZone }) };
  const table = readTable(content, record.mediaType as TableMediaType);
  if (Array.isArray(table)) return { failure: table.map(({ said }) => said).reduce((all, one) => say('{all} {one}', { all, one })) };
  const readings: RowReading[] = [];
  for (const row of table.rows) {
    // Twenty thousand rows are seconds of work, and the leases of other jobs are prolonged meanwhile.
    if (readings.length % ROWS_PER_CHUNK === 0) await nextTurn();
    readings.push(readRow(row, { floodAtMs, submittedAtMs: record.submittedAtMs, timeZone }));
  }
  return { record, readings, households: householdsOf(readings), undone: new Map() };
}

/** One transaction; false when it was the last. */
async function nextChunk(unitOfWork: UnitOfWork, message: Message, actor: CallContext, env: Environment, job: ImportJob): Promise<boolean> {
  try {
    return await unitOfWork.write(actor, async (stores) => {
      const record = await stores.imports.lock(message.subjectId);
      if (record === null || isOver(record)) {
        await closeRow(stores, message);
        return false;
      }
      const readings = job.readings.slice(record.rowsDone, record.rowsDone + ROWS_PER_CHUNK);
      await stores.imports.saveRows(record.id, await applyRows(stores, { context: actor, env: notBefore(env, record.submittedAtMs) }, job, readings));
      if (record.rowsDone + readings.length < job.readings.length) return true;
      await stores.imports.finish(record.id, { state: 'done', failure: null, atMs: env.nowMs });
      if (!(await stores.outbox.markDone(message.id))) throw new Error('the outbox row was closed while its import was open');
      await planWhatCame(stores, { context: actor, env }, record.id);
      return false;
    });
  } catch (error) {
    if (!(error instanceof RowUndone)) throw error;
    job.undone.set(error.rowNumber, error.problem);
    return true;
  }
}

/** A worker's clock may run behind that of the API; nothing of a file happens before it was sent. */
function notBefore(env: Environment, submittedAtMs: number): Environment {
  return { nowMs: Math.max(env.nowMs, submittedAtMs), newId: () => env.newId() };
}

async function fail(stores: Stores, message: Message, env: Environment, failure: Said): Promise<void> {
  const record = await stores.imports.lock(message.subjectId);
  if (record !== null && !isOver(record)) await stores.imports.finish(record.id, { state: 'failed', failure, atMs: env.nowMs });
  await closeRow(stores, message);
}

/** Asks for a plan of the things that a file brought; a file that brought nothing changes none. */
async function planWhatCame(stores: Stores, call: UseCaseCall, importId: string): Promise<void> {
  const over = await stores.imports.find(importId);
  if (over !== null && over.accepted + over.repaired > 0) await requestPlan(stores, call, over.incidentId, PLAN_REASONS.file);
}

async function closeRow(stores: Stores, message: Message): Promise<void> {
  await stores.outbox.markDone(message.id);
}

function isOver(record: ImportRecord): boolean {
  return record.state === 'done' || record.state === 'failed';
}
