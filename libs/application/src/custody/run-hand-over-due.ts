import type { CallContext, Environment } from '../context.js';
import type { OutboxMessage } from '../ports/outbox-store.js';
import type { UnitOfWork } from '../ports/work.js';
import { endHandOver } from './end-hand-over.js';

export type HandOverDueOutcome = 'expired' | 'answered' | 'not-yet' | 'overtaken';

/** When a row that failed for good is looked at again: its hand-over is refused by its time meanwhile, and can be withdrawn. */
const AGAIN_MS = 3_600_000;

/** The worker's part of a hand-over: it ends what nobody answered in time. Run twice, it does it once. */
export function runHandOverDue(unitOfWork: UnitOfWork, message: OutboxMessage, context: CallContext, env: Environment): Promise<HandOverDueOutcome> {
  return unitOfWork.write(context, async (stores) => {
    const handOver = await stores.handOvers.lock(message.subjectId);
    if (!(await stores.outbox.markDone(message.id))) return 'overtaken';
    if (handOver?.state !== 'open') return 'answered';
    if (env.nowMs < handOver.expiresAtMs) {
      await stores.outbox.appendAhead({ ...message, id: env.newId(), kind: 'hand_over.due' }, handOver.expiresAtMs - env.nowMs);
      return 'not-yet';
    }
    await endHandOver(stores, { context, env }, handOver, { outcome: 'expired', personId: null, note: '' });
    return 'expired';
  });
}

export async function giveUpHandOverDue(unitOfWork: UnitOfWork, message: OutboxMessage, context: CallContext, env: Environment): Promise<void> {
  await unitOfWork.write(context, async (stores) => {
    const handOver = await stores.handOvers.find(message.subjectId);
    if (handOver?.state === 'open') await stores.outbox.appendAhead({ ...message, id: env.newId(), kind: 'hand_over.due' }, AGAIN_MS);
  });
}
