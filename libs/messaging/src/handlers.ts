import type { CallContext, OutboxKind, OutboxMessage } from '#application';

/**
 * Does the work of one outbox row. It runs at least once and may run beside an overtaken run of itself, so it marks
 * the row done with `stores.outbox.markDone` in the very transaction of its effect and gives the effect up when
 * `markDone` answers false. Throwing, or returning without having marked the row, makes it come again later.
 */
export type Handler = (message: OutboxMessage, context: CallContext) => Promise<void>;

/** The work of every kind of row. */
export type Handlers = Record<OutboxKind, Handler>;

/**
 * Tells the thing a row was about that nothing more will come of it, before the row is marked dead; otherwise, say,
 * a plan run would wait for ever and block its successors. It may be called more than once.
 */
export type GiveUp = (message: OutboxMessage, context: CallContext, reason: string) => Promise<void>;

/** What to do for every kind when its tries are used up. */
export type GiveUps = Record<OutboxKind, GiveUp>;

/** The nil UUID (RFC 9562, section 5.9): the worker acts for a network but is no person and no key. */
export const WORKER_PRINCIPAL_ID = '00000000-0000-0000-0000-000000000000';

/** The context of work for one row: bound to the network that the row belongs to. */
export function workerContext(networkId: string, requestId: string, traceparent: string): CallContext {
  return { networkId, incidentLimit: null, principalId: WORKER_PRINCIPAL_ID, requestId, traceparent };
}
