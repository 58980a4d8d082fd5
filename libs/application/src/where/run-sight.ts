/** The worker's part: things that nobody has met for too long raise one alarm of their incident, and being met clears it. */
import { alarmCalibrationInForce } from '../calibration/in-force.js';
import { applySigns } from '../climate/apply-signs.js';
import { CLIMATE_TICK_MS } from '../climate/pace.js';
import type { CallContext, Environment } from '../context.js';
import type { OutboxMessage } from '../ports/outbox-store.js';
import type { Stores, UnitOfWork } from '../ports/work.js';
import { unseenBefore } from './unseen.js';

export type SightOutcome = 'looked' | 'incident-closed' | 'overtaken';

/**
 * Looks once, and writes the next look. It may be killed and run again: what it writes, and that its row is done, are one
 * transaction, and of two runs of one row one goes on. In a closed incident nothing is held, so nobody looks any more.
 */
export async function runSight(unitOfWork: UnitOfWork, message: OutboxMessage, context: CallContext, env: Environment): Promise<SightOutcome> {
  return unitOfWork.write(context, async (stores) => {
    if (!(await stores.outbox.markDone(message.id))) return 'overtaken';
    if ((await stores.places.incident(message.incidentId))?.state !== 'open') return 'incident-closed';
    await look(stores, env, message.incidentId);
    await lookAgain(stores, message, env);
    return 'looked';
  });
}

/** When the tries of a row are used up: the next look comes all the same. */
export async function giveUpSight(unitOfWork: UnitOfWork, message: OutboxMessage, context: CallContext, env: Environment): Promise<void> {
  await unitOfWork.write(context, async (stores) => {
    if ((await stores.places.incident(message.incidentId))?.state === 'open') await lookAgain(stores, message, env);
  });
}

async function look(stores: Stores, env: Environment, incidentId: string): Promise<void> {
  const before = await unseenBefore(stores, env.nowMs);
  const { items, households } = await stores.where.countUnseen(incidentId, before);
  const first = items === 0 ? [] : await stores.where.unseen(incidentId, before, (await alarmCalibrationInForce(stores)).itemsNamed, null);
  await applySigns(stores, env, incidentId, [{
    kind: 'things-unseen', subject: { kind: 'incident', id: incidentId }, severity: 'warning', verdict: items > 0 ? 'on' : 'off',
    evidence: { items, households, oldestSeenMs: first[0]?.lastSeenAtMs ?? null, first: first.map(({ itemId, tagCode }) => ({ itemId, tagCode })) },
  }]);
}

function lookAgain(stores: Stores, message: OutboxMessage, env: Environment): Promise<void> {
  return stores.outbox.appendAhead({ ...message, id: env.newId(), kind: 'sight.look' }, env.climateTickMs ?? CLIMATE_TICK_MS);
}
