/** The worker's part of a change of the rule book: everything that is still here is triaged by the book now in force. */
import { TERMINAL_STAGES } from '#custody';
import type { UseCaseCall } from '../call.js';
import type { CallContext, Environment } from '../context.js';
import { consentsNow } from '../care/owner-word.js';
import { triageAnew } from '../care/retriage.js';
import { chosenBy, latestTriageOf, standingOf, workSoFar } from '../care/standing.js';
import { wayBegun } from '../care/way-begun.js';
import { PLAN_REASONS } from '../planning/plan-reasons.js';
import { requestPlan } from '../planning/request-plan.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { OutboxMessage } from '../ports/outbox-store.js';
import type { Stores, UnitOfWork } from '../ports/work.js';
import { bookInForce } from './books.js';

/** Things of one transaction: done in less than a second, so that nobody at a table waits for it long. Our own calibration. */
export const THINGS_PER_CHUNK = 50;

type Message = Pick<OutboxMessage, 'id' | 'incidentId'>;

/**
 * Triages the things of one incident anew, a chunk to a transaction, then asks for a new plan. It may be killed and started again
 * at any moment, or run twice at once: a thing whose latest triage is of the version in force is left alone. A later change
 * while it runs only makes it go by the later book.
 */
export async function runRuleBookChange(unitOfWork: UnitOfWork, message: Message, context: CallContext, env: Environment): Promise<void> {
  const call = { context, env };
  do {
    for (let afterId: string | null = null; ; ) {
      const last: string | null = await unitOfWork.write(context, (stores) => nextChunk(stores, call, message.incidentId, afterId));
      if (last === null) break;
      afterId = last;
    }
  } while (!(await unitOfWork.write(context, (stores) => nothingBehind(stores, message.incidentId))));
  await unitOfWork.write(context, async (stores) => {
    if (await stores.outbox.markDone(message.id)) await requestPlan(stores, call, message.incidentId, PLAN_REASONS.ruleBook);
  });
}

/** Triages one chunk; answers the last of its things, or null when there was none. */
async function nextChunk(stores: Stores, call: UseCaseCall, incidentId: string, afterId: string | null): Promise<string | null> {
  const { version } = await bookInForce(stores);
  const itemIds = await stores.ruleBook.itemsBehind(incidentId, version, THINGS_PER_CHUNK, afterId);
  // In the order of their ids, as everybody locks them.
  for (const item of await stores.items.lockMany(itemIds)) await catchUp(stores, call, item, version);
  return itemIds.at(-1) ?? null;
}

/** What was done to it while we waited for its lock may have triaged it, or have taken it away. */
async function catchUp(stores: Stores, call: UseCaseCall, item: ItemRecord, version: string): Promise<void> {
  if (TERMINAL_STAGES.includes(item.stage)) return;
  const latest = await latestTriageOf(stores, item);
  if (latest.result.ruleBookVersion === version) return;
  const standing = await standingOf(stores, item);
  const chosen = chosenBy(standing) ?? wayBegun(item, standing.done, await consentsNow(stores, item, standing));
  await triageAnew(stores, notBefore(call, latest.createdAtMs), item, standing.assessment, { ...workSoFar(standing), chosen });
}

/** A worker's clock may run behind that of the API; a triage that is dated before the one it follows would not be the latest. */
function notBefore({ context, env }: UseCaseCall, atMs: number): UseCaseCall {
  return { context, env: { nowMs: Math.max(env.nowMs, atMs), newId: () => env.newId() } };
}

/** Who was taking something in by the book of before is waited for; who begins after that reads the book in force. */
async function nothingBehind(stores: Stores, incidentId: string): Promise<boolean> {
  await stores.ruleBook.awaitIntakes(incidentId);
  const { version } = await bookInForce(stores);
  return (await stores.ruleBook.itemsBehind(incidentId, version, 1, null)).length === 0;
}
