import type { UseCaseCall } from '../call.js';
import type { CallContext, Environment } from '../context.js';
import { offsetMs } from '../intake/import/local-time.js';
import type { FamilyMessageRecord, MessageFailure } from '../ports/family-message-store.js';
import type { MessageSenders, OutgoingMessage, SendOutcome } from '../ports/message-sender.js';
import type { OutboxMessage } from '../ports/outbox-store.js';
import type { Stores, UnitOfWork } from '../ports/work.js';
import { composeMessage, recipientOf, type LinkMaker } from './compose-message.js';
import { MATTER_ADVICE, openMatter } from './matters.js';
import { unreachedField, unreachedWays, wayOf } from './reachable.js';
import { afterQuiet, DAY_MS, pauseMs, type SendingRules } from './message-schedule.js';

export interface MessageParts {
  senders: MessageSenders;
  rules: SendingRules;
  links: LinkMaker;
  /** 0 to 1; spreads what is tried again. */
  chance(): number;
}

export type FamilyMessageOutcome = 'over' | 'later' | SendOutcome['outcome'];

/** Where there is no sender or too much was sent today, it is looked at again after this; our own calibration. */
const LATER_MS = 2 * 3_600_000;
const AGAIN_MS = 3_600_000;

/**
 * The worker's part of a message to a family. An attempt is on record before it begins: where a process dies or a connection breaks in the middle
 * nobody knows whether it arrived, and that is what is written down, with a matter for a person, instead of a second message.
 */
export async function runFamilyMessage(unitOfWork: UnitOfWork, row: OutboxMessage, context: CallContext, env: Environment, parts: MessageParts): Promise<FamilyMessageOutcome> {
  const begun = await unitOfWork.write(context, (stores) => begin(stores, { context, env }, row, parts));
  if (typeof begun === 'string') return begun;
  const sent = await begun.sender(begun.outgoing);
  await unitOfWork.write(context, (stores) => end(stores, { context, env }, row, sent, parts));
  return sent.outcome;
}

export async function giveUpFamilyMessage(unitOfWork: UnitOfWork, row: OutboxMessage, context: CallContext, env: Environment): Promise<void> {
  await unitOfWork.write(context, async (stores) => {
    const message = await stores.familyMessages.find(row.subjectId);
    if (message !== null && message.endedAtMs === null) await stores.outbox.appendAhead({ ...row, id: env.newId(), kind: 'family.message' }, AGAIN_MS);
  });
}

interface Begun {
  outgoing: OutgoingMessage;
  sender(message: OutgoingMessage): Promise<SendOutcome>;
}

async function begin(stores: Stores, call: UseCaseCall, row: OutboxMessage, parts: MessageParts): Promise<Begun | 'over' | 'later'> {
  const message = await stores.familyMessages.lock(row.subjectId);
  if (message === null || message.endedAtMs !== null) return over(stores, row);
  if (message.state === 'sending') return cutOff(stores, call, row, message);
  const { nowMs } = call.env;
  if (nowMs < message.nextAtMs) return later(stores, call, row, message, message.nextAtMs, message.failure);
  if (!(await isWished(stores, message))) return dropped(stores, call, row, message, 'not-wished');
  const to = await recipientOf(stores, message, parts.senders);
  if (to.outcome === 'none') return dropped(stores, call, row, message, to.why);
  if (nowMs - message.queuedAtMs > parts.rules.giveUpMs) return givenUp(stores, call, row, message, 'too-old');
  if (to.outcome === 'no-sender') return later(stores, call, row, message, nowMs + LATER_MS, 'no-sender');
  const quietUntilMs = afterQuiet(nowMs, offsetMs(nowMs, await stores.imports.timeZone()), parts.rules);
  if (quietUntilMs > nowMs) return later(stores, call, row, message, quietUntilMs, 'quiet-hours');
  // Of two at once the second waits here and then counts the first.
  if ((await stores.familyMessages.attemptsSince(message.householdId, nowMs - DAY_MS)) >= parts.rules.perDay) return later(stores, call, row, message, nowMs + LATER_MS, 'day-full');
  const composed = await composeMessage(stores, call, message, to, parts.links);
  if (composed === null) return dropped(stores, call, row, message, 'no-longer-true');
  const recipient = message.recipient ?? (await stores.personal.seal(message.householdId, `family_message.recipient:${message.id}`, to.address));
  await stores.familyMessages.save({ ...message, state: 'sending', tries: message.tries + 1, attemptAtMs: nowMs, channel: to.channel, language: composed.outgoing.language, recipient, linkId: composed.linkId, failure: null });
  return { outgoing: composed.outgoing, sender: (outgoing) => to.sender.send(outgoing) };
}

/** Nobody is written to against their word, whoever asks for it; by itself only who has said that they wish it. */
async function isWished(stores: Stores, { householdId, automatic }: FamilyMessageRecord): Promise<boolean> {
  const wish = await stores.familyNews.wishInForce(householdId);
  return automatic ? wish === 'messages' : wish !== 'no-messages';
}

async function over(stores: Stores, row: OutboxMessage): Promise<'over'> {
  await stores.outbox.markDone(row.id);
  return 'over';
}

/** An attempt began and never ended: whoever made it is gone, or still waits for a server that does not answer. */
async function cutOff(stores: Stores, call: UseCaseCall, row: OutboxMessage, message: FamilyMessageRecord): Promise<'over'> {
  await unclear(stores, call, message);
  return over(stores, row);
}

async function unclear(stores: Stores, call: UseCaseCall, message: FamilyMessageRecord): Promise<void> {
  await stores.familyMessages.save({ ...message, state: 'unclear', endedAtMs: call.env.nowMs, failure: 'cut-off' });
  await openMatter(stores, call, { ...about(message), kind: 'message-unclear', advice: MATTER_ADVICE['message-unclear'] });
}

async function later(stores: Stores, call: UseCaseCall, row: OutboxMessage, message: FamilyMessageRecord, atMs: number, why: MessageFailure | null): Promise<'later'> {
  await stores.familyMessages.save({ ...message, state: 'waiting', nextAtMs: atMs, failure: why });
  await stores.outbox.markDone(row.id);
  await stores.outbox.appendAhead({ ...row, id: call.env.newId(), kind: 'family.message' }, Math.max(atMs - call.env.nowMs, 1));
  return 'later';
}

/** Ends without a person: there is nobody to tell, or nothing to tell any more. */
async function dropped(stores: Stores, call: UseCaseCall, row: OutboxMessage, message: FamilyMessageRecord, why: MessageFailure): Promise<'over'> {
  await stores.familyMessages.save({ ...message, state: 'given-up', endedAtMs: call.env.nowMs, failure: why });
  return over(stores, row);
}

async function givenUp(stores: Stores, call: UseCaseCall, row: OutboxMessage, message: FamilyMessageRecord, why: MessageFailure): Promise<'over'> {
  await openMatter(stores, call, { ...about(message), kind: 'message-given-up', advice: MATTER_ADVICE['message-given-up'] });
  return dropped(stores, call, row, message, why);
}

function about({ incidentId, householdId, id }: FamilyMessageRecord): { incidentId: string; householdId: string; messageId: string } {
  return { incidentId, householdId, messageId: id };
}

async function end(stores: Stores, call: UseCaseCall, row: OutboxMessage, sent: SendOutcome, parts: MessageParts): Promise<void> {
  const message = await stores.familyMessages.lock(row.subjectId);
  if (message === null || (message.state !== 'sending' && message.state !== 'unclear')) return;
  const { nowMs } = call.env;
  switch (sent.outcome) {
    case 'sent':
      // Also where another run has taken this one for dead: that it was sent is known now.
      await stores.familyMessages.save({ ...message, state: 'sent', endedAtMs: nowMs, failure: null });
      await reachedNow(stores, call, message);
      break;
    case 'unclear':
      if (message.state === 'sending') await unclear(stores, call, message);
      break;
    case 'refused':
      if (sent.recipient === true) await notReached(stores, call, row, message);
      else await givenUp(stores, call, row, message, 'refused');
      break;
    case 'not-sent':
      await later(stores, call, row, message, nowMs + pauseMs(message.tries, parts.chance()), sent.why);
  }
  await stores.outbox.markDone(row.id);
}

/** The address takes nothing: that is remembered, so that no message goes there by itself, and a person sees to it. */
async function notReached(stores: Stores, call: UseCaseCall, row: OutboxMessage, message: FamilyMessageRecord): Promise<void> {
  const { incidentId, householdId, channel } = message;
  const address = await addressOf(stores, message);
  if (channel !== null && address !== null && !(await unreachedWays(stores, householdId)).has(wayOf(channel, address))) {
    const id = call.env.newId();
    await stores.familyNews.markUnreached({ id, incidentId, householdId, channel, address: await stores.personal.seal(householdId, unreachedField(id), address), messageId: message.id, refusedAtMs: call.env.nowMs, reachedAtMs: null });
  }
  await openMatter(stores, call, { ...about(message), kind: 'address-not-reached', advice: MATTER_ADVICE['address-not-reached'] });
  await dropped(stores, call, row, message, 'refused');
}

/** What was taken there after all shows that it is reached again. */
async function reachedNow(stores: Stores, call: UseCaseCall, message: FamilyMessageRecord): Promise<void> {
  const records = await stores.familyNews.unreached(message.householdId);
  const address = records.length === 0 ? null : await addressOf(stores, message);
  if (address === null || message.channel === null) return;
  for (const { id, channel, address: sealed } of records) {
    const marked = await stores.personal.open(message.householdId, unreachedField(id), sealed);
    if (marked !== null && wayOf(channel, marked) === wayOf(message.channel, address)) await stores.familyNews.markReached(id, call.env.nowMs);
  }
}

/** Where it went; null where that was erased meanwhile. */
async function addressOf(stores: Stores, { id, householdId, recipient }: FamilyMessageRecord): Promise<string | null> {
  return recipient === null ? null : stores.personal.open(householdId, `family_message.recipient:${id}`, recipient);
}
