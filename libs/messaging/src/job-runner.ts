import type { OutboxMessage, OutboxRelay, OutboxTicket, UnitOfWork } from '#application';
import type { Logger } from '#platform';
import { type ReceivedDoorbell, readDoorbell } from './doorbell.js';
import { summarise } from './error-summary.js';
import { type Handlers, workerContext } from './handlers.js';
import { type Tuning, backOffMs } from './tuning.js';

export interface RunnerParts {
  unitOfWork: UnitOfWork;
  relay: OutboxRelay;
  handlers: Handlers;
  tuning: Tuning;
  logger: Logger;
}

/** Answers a doorbell. Never throws: what went wrong is in the log, what remains to be done is in the outbox. */
export async function runDoorbell(parts: RunnerParts, received: ReceivedDoorbell): Promise<void> {
  const { logger } = parts;
  const ticket = readDoorbell(received);
  if (!ticket) return logger.warn({ jobId: received.jobId.slice(0, 80) }, 'job ignored: no doorbell of ours');
  const where = { networkId: ticket.networkId, outboxId: ticket.outboxId };
  try {
    const context = workerContext(ticket.networkId, received.jobId, '');
    const message = await parts.unitOfWork.read(context, (stores) => stores.outbox.find(ticket.outboxId));
    // A forged pair of ids ends here: below the policy of its network there is no such row.
    if (!message) return logger.warn(where, 'job ignored: this network has no such outbox row');
    if (message.doneAt !== null) return logger.debug(where, 'job ignored: done before');
    if (!(await parts.relay.begin(ticket, parts.tuning.leaseMs))) return logger.debug(where, 'job ignored: another run has begun');
    await runHandler(parts, { ...ticket, tries: ticket.tries + 1 }, message, received.jobId);
  } catch (error) {
    logger.warn({ ...where, error: summarise(error) }, 'job broke off; the outbox row comes again when its lease ends');
  }
}

async function runHandler(parts: RunnerParts, run: OutboxTicket, message: OutboxMessage, requestId: string): Promise<void> {
  const { handlers, relay, tuning, logger } = parts;
  const where = { networkId: run.networkId, outboxId: run.outboxId, kind: message.kind, subjectId: message.subjectId, run: run.tries };
  const keepAlive = setInterval(() => void renew(parts, run), tuning.renewMs);
  const startedMs = Date.now();
  let failure: unknown = null;
  try {
    await handlers[message.kind](message, workerContext(run.networkId, requestId, message.traceparent));
  } catch (error) {
    failure = error ?? new Error('thrown without an error');
  } finally {
    clearInterval(keepAlive);
  }
  const delayMs = backOffMs(tuning, run.tries, Math.random);
  // A row that its handler marked done, or that a later run holds, is not touched by this.
  const open = (await relay.postpone([run], delayMs)) > 0;
  const tookMs = Date.now() - startedMs;
  if (failure !== null) logger.error({ ...where, error: summarise(failure), againInMs: open ? delayMs : null, tookMs }, 'handler failed');
  else if (open) logger.warn({ ...where, againInMs: delayMs, tookMs }, 'handler returned without marking the row done; it comes again');
  else logger.info({ ...where, tookMs }, 'done');
}

async function renew(parts: RunnerParts, run: OutboxTicket): Promise<void> {
  const where = { networkId: run.networkId, outboxId: run.outboxId, run: run.tries };
  try {
    if (!(await parts.relay.renew(run, parts.tuning.leaseMs))) parts.logger.info(where, 'lease not renewed: the row is done or another run has begun');
  } catch (error) {
    parts.logger.warn({ ...where, error: summarise(error) }, 'lease could not be renewed');
  }
}
