import { TERMINAL_STAGES } from '#custody';
import type { UseCaseCall } from '../call.js';
import { messagesCalibrationInForce } from '../calibration/in-force.js';
import type { CallContext, Environment } from '../context.js';
import { dueOf } from '../hand-back/uncollected-path.js';
import { NEWS_KINDS, type NewsKind, type NewsRecord } from '../ports/family-news-store.js';
import type { OutboxMessage } from '../ports/outbox-store.js';
import type { Stores, UnitOfWork } from '../ports/work.js';
import { NEWS_SWITCH } from './news.js';
import { queueMessage } from './queue-message.js';
import { reachable } from './reachable.js';

export type FamilyNewsOutcome = 'looked' | 'overtaken';

const AGAIN_MS = 3_600_000;

/** The worker's look at what one family is to be told: one message for each kind of what has gathered, where it is still so and still wished. Run twice, it does it once. */
export function runFamilyNews(unitOfWork: UnitOfWork, message: OutboxMessage, context: CallContext, env: Environment): Promise<FamilyNewsOutcome> {
  const call = { context, env };
  return unitOfWork.write(context, async (stores) => {
    if (!(await stores.outbox.markDone(message.id))) return 'overtaken';
    await remind(stores, call, message);
    const wished = (await stores.familyNews.wishInForce(message.subjectId)) === 'messages' && (await stores.erasures.of(message.subjectId)) === null;
    const switches = await messagesCalibrationInForce(stores);
    const open = await stores.familyNews.open(message.subjectId);
    for (const kind of NEWS_KINDS) {
      const news = open.filter((one) => one.kind === kind);
      if (news.length > 0) await tell(stores, call, kind, news, wished && switches[NEWS_SWITCH[kind]] === 1);
    }
    return 'looked';
  });
}

export async function giveUpFamilyNews(unitOfWork: UnitOfWork, message: OutboxMessage, context: CallContext, env: Environment): Promise<void> {
  await unitOfWork.write(context, (stores) => stores.outbox.appendAhead({ ...message, id: env.newId(), kind: 'family.news' }, AGAIN_MS));
}

async function tell(stores: Stores, call: UseCaseCall, kind: NewsKind, news: readonly NewsRecord[], wanted: boolean): Promise<void> {
  const { nowMs } = call.env;
  const so: NewsRecord[] = [];
  if (wanted) for (const one of news) if (await isStillSo(stores, one)) so.push(one);
  const [first] = so;
  const message = first ? await queueMessage(stores, call, { incidentId: first.incidentId, householdId: first.householdId, template: kind, subjectId: first.id, automatic: true }) : null;
  await stores.familyNews.settle(so.map(({ id }) => id), nowMs, message?.id ?? null);
  await stores.familyNews.settle(news.map(({ id }) => id), nowMs, null);
}

/** A thing that went home meanwhile was not "taken in", and one that went back to work is not "ready". */
async function isStillSo(stores: Stores, { kind, subjectId, householdId }: NewsRecord): Promise<boolean> {
  if (kind === 'handed-back' || kind === 'let-go') return true;
  if (kind === 'uncollected') return (await stores.uncollected.openOf(householdId)) !== null;
  const item = await stores.items.find(subjectId);
  // News about no single thing are about all that is here.
  if (item === null) return (await stores.uncollected.held(householdId)) > 0;
  return item.householdId === householdId && !TERMINAL_STAGES.includes(item.stage) && (kind === 'taken-in' || item.nextStep === 'hand-back');
}

/** Reminds of what nobody fetched on its day, and comes again on the next one. Where the family cannot or will not be written to the path waits for people, who see it as due. */
async function remind(stores: Stores, call: UseCaseCall, message: OutboxMessage): Promise<void> {
  const { nowMs } = call.env;
  const open = await stores.uncollected.openOf(message.subjectId);
  const path = open && (await stores.uncollected.lock(open.id));
  if (path?.state !== 'open') return;
  const due = dueOf(path, nowMs);
  const mayTell = (await messagesCalibrationInForce(stores)).uncollected === 1 && (await stores.familyNews.wishInForce(path.householdId)) === 'messages' && (await reachable(stores, path.householdId));
  let reminders = path.reminders;
  if (mayTell && (due === 'first-reminder' || due === 'second-reminder')) {
    const part = due === 'first-reminder' ? 1 : 2;
    await stores.familyNews.note({ id: call.env.newId(), incidentId: path.incidentId, householdId: path.householdId, kind: 'uncollected', subjectId: path.id, part, notedAtMs: nowMs });
    reminders = part;
    await stores.uncollected.save({ ...path, reminders, remindedAtMs: nowMs });
  }
  const nextAtMs = [path.firstReminderAtMs, path.secondReminderAtMs].slice(reminders).find((atMs) => atMs > nowMs);
  if (nextAtMs !== undefined) await stores.outbox.appendAhead({ ...message, id: call.env.newId(), kind: 'family.news' }, nextAtMs - nowMs);
}
