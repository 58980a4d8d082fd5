import { LANGUAGES, render, type Language } from '#care';
import { TERMINAL_STAGES } from '#custody';
import type { UseCaseCall } from '../call.js';
import { offsetMs } from '../intake/import/local-time.js';
import type { FamilyMessageRecord, MessageChannel, MessageFailure } from '../ports/family-message-store.js';
import type { MessageSender, MessageSenders, OutgoingMessage } from '../ports/message-sender.js';
import type { Stores } from '../ports/work.js';
import { messageWords, WITH_LINK } from './message-words.js';
import { unreachedWays, wayOf } from './reachable.js';

/** Makes the links that messages bring; the secret goes out with the message and is kept nowhere. */
export interface LinkMaker {
  /** Public address of the service without a slash at its end; null when none is configured, and messages then bring no link. */
  publicUrl: string | null;
  /** How long a link opens the page, at most 30 days. */
  standsMs: number;
  make(networkId: string): { text: string; sha256: Uint8Array };
}

export type Recipient =
  | { outcome: 'to'; channel: MessageChannel; address: string; sender: MessageSender }
  | { outcome: 'none'; why: Extract<MessageFailure, 'no-contact' | 'erased' | 'not-reached'> }
  | { outcome: 'no-sender' };

/** Where it goes: what the first attempt said, else the contact of the household, mail before short message. */
export async function recipientOf(stores: Stores, message: FamilyMessageRecord, senders: MessageSenders): Promise<Recipient> {
  const pinned = message.recipient === null ? null : await stores.personal.open(message.householdId, `family_message.recipient:${message.id}`, message.recipient);
  if (message.recipient !== null && pinned === null) return { outcome: 'none', why: 'erased' };
  if (pinned !== null && message.channel !== null) return through(senders, [[message.channel, pinned]]);
  const contact = await stores.households.contact(message.householdId);
  if (contact === null) return { outcome: 'none', why: 'erased' };
  const ways: [MessageChannel, string][] = [['email', contact.email.trim()], ['sms', contact.phone.trim()]];
  const named = ways.filter(([, address]) => address !== '');
  if (named.length === 0) return { outcome: 'none', why: 'no-contact' };
  if (!message.automatic) return through(senders, named);
  const dead = await unreachedWays(stores, message.householdId);
  const open = named.filter(([channel, address]) => !dead.has(wayOf(channel, address)));
  return open.length === 0 ? { outcome: 'none', why: 'not-reached' } : through(senders, open);
}

function through(senders: MessageSenders, ways: readonly [MessageChannel, string][]): Recipient {
  for (const [channel, address] of ways) {
    const sender = senders[channel];
    if (sender !== null) return { outcome: 'to', channel, address, sender };
  }
  return { outcome: 'no-sender' };
}

/** The message in the family's language, with a link of its own where it brings one; null when there is nothing to tell any more. */
export async function composeMessage(stores: Stores, call: UseCaseCall, message: FamilyMessageRecord, to: { address: string; channel: MessageChannel }, links: LinkMaker): Promise<{ outgoing: OutgoingMessage; linkId: string | null } | null> {
  const household = await stores.households.find(message.householdId);
  if (household === null) return null;
  const language = LANGUAGES.find((known) => known === household.language) ?? 'en';
  const facts = await factsOf(stores, message, language);
  if (facts === null) return null;
  const link = WITH_LINK.has(message.template) && links.publicUrl !== null ? await linkFor(stores, call, message, links) : null;
  const words = messageWords(message.template, facts, link?.url ?? null);
  const spoken = (line: (typeof words.lines)[number]): string => (typeof line === 'string' ? line : render(line, language));
  return { outgoing: { to: to.address, subject: render(words.subject, language), text: words.lines.map(spoken).join('\n\n'), language, id: message.id }, linkId: link?.id ?? message.linkId };
}

/** Null when a message about questions has none to ask any more. */
async function factsOf(stores: Stores, message: FamilyMessageRecord, language: Language): Promise<{ things: number; questions: number; until: string } | null> {
  if (message.template === 'question' || message.template === 'reminder') {
    const open = (await stores.ownerQuestions.ofHousehold(message.householdId)).filter(({ state }) => state === 'open');
    if (open.length === 0) return null;
    return { things: 0, questions: open.length, until: familyMoment(Math.min(...open.map(({ deadlineAtMs }) => deadlineAtMs)), await stores.imports.timeZone(), language) };
  }
  return { things: message.template === 'taken-in' ? await thingsOf(stores, message) : 0, questions: 0, until: '' };
}

async function thingsOf(stores: Stores, { incidentId, householdId }: FamilyMessageRecord): Promise<number> {
  let things = 0;
  for (let afterId: string | null = null; ; ) {
    const chunk = await stores.items.page(incidentId, { householdId }, 500, afterId);
    things += chunk.filter(({ stage }) => !TERMINAL_STAGES.includes(stage)).reduce((sum, { count }) => sum + count, 0);
    afterId = chunk.at(-1)?.id ?? null;
    if (chunk.length < 500) return Math.max(things, 1);
  }
}

/** A link that never reached anybody gets another secret instead of standing beside a second one. */
async function linkFor(stores: Stores, call: UseCaseCall, message: FamilyMessageRecord, links: LinkMaker): Promise<{ id: string; url: string }> {
  const made = links.make(call.context.networkId);
  const id = message.linkId ?? call.env.newId();
  if (message.linkId === null) {
    const { nowMs } = call.env;
    await stores.statusLinks.insert({
      id, incidentId: message.incidentId, householdId: message.householdId, forWhom: null, hasCode: false, codeMisses: 0, createdBy: call.context.principalId, createdAtMs: nowMs, expiresAtMs: nowMs + links.standsMs, revokedAtMs: null,
    }, made.sha256, null);
  } else await stores.statusLinks.renew(id, made.sha256);
  return { id, url: `${links.publicUrl}/s/${made.text}` };
}

const DAYS_AS_IN: Readonly<Record<Language, string>> = { en: 'en-GB', es: 'es' };

/** `Saturday 9 May, 14:06` by the clock on the family's wall. */
export function familyMoment(atMs: number, timeZone: string, language: Language): string {
  const wall = new Date(atMs + offsetMs(atMs, timeZone));
  const day = new Intl.DateTimeFormat(DAYS_AS_IN[language], { timeZone: 'UTC', weekday: 'long', day: 'numeric', month: 'long' }).format(wall);
  return `${day}, ${wall.toISOString().slice(11, 16)}`;
}
