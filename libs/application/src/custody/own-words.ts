import { createHash, randomBytes } from 'node:crypto';
import type { CustodyCommand, CustodyEvent } from '#custody';
import type { Stores } from '../ports/work.js';

/**
 * What somebody says in their own words about a passing may name people. A chain can never forget, so it holds a salted hash of the words; the words and
 * their salts are sealed beside it. With them it can be shown that they are what was said; without them the chain is as whole as before.
 */
export interface SaltedWords {
  /** 16 random bytes in hex: without them a short text could be found by trying. */
  salt: string;
  text: string;
}

export interface OwnWords {
  reason?: SaltedWords;
  correctsReason?: SaltedWords;
}

/** An event as it is told: with the words, and beside it what the chain holds in their place. */
export type ToldEvent = CustodyEvent & { hashedWords?: { reason: string | null; correctsReason: string | null } };

/** `sha256:` and the hex SHA-256 of the UTF-8 bytes of salt, one blank and text. */
export function hashOfWords({ salt, text }: SaltedWords): string {
  return `sha256:${createHash('sha256').update(`${salt} ${text}`, 'utf8').digest('hex')}`;
}

const salted = (text: string): SaltedWords => ({ salt: randomBytes(16).toString('hex'), text });

/** The command as it is decided and hashed, and the words that stay out of it. */
export function withoutWords<T extends CustodyCommand & { why?: string; correctsInWords?: boolean }>({ why, correctsInWords, ...command }: T): { command: CustodyCommand; words: OwnWords } {
  const words: OwnWords = {};
  if (why !== undefined && why !== '') words.reason = salted(why);
  if (correctsInWords === true && command.corrects) words.correctsReason = salted(command.corrects.reason);
  return {
    words,
    command: {
      ...command,
      refs: words.reason ? { ...command.refs, reason: hashOfWords(words.reason) } : command.refs,
      ...(command.corrects && words.correctsReason ? { corrects: { ...command.corrects, reason: hashOfWords(words.correctsReason) } } : {}),
    },
  };
}

/** The event with its words, where there are any (left). */
export function told(event: CustodyEvent, words: OwnWords | undefined): ToldEvent {
  if (words?.reason === undefined && words?.correctsReason === undefined) return event;
  return {
    ...event,
    refs: words.reason ? { ...event.refs, reason: words.reason.text } : event.refs,
    corrects: event.corrects && words.correctsReason ? { ...event.corrects, reason: words.correctsReason.text } : event.corrects,
    hashedWords: { reason: words.reason ? (event.refs['reason'] ?? null) : null, correctsReason: words.correctsReason ? (event.corrects?.reason ?? null) : null },
  };
}

/** Events of one chain with what was said about them. */
export async function tellAll(stores: Stores, events: readonly CustodyEvent[]): Promise<ToldEvent[]> {
  const inWords = events.filter(({ refs, corrects }) => isHash(refs['reason']) || isHash(corrects?.reason));
  const [first] = inWords;
  if (!first) return [...events];
  const words = await stores.custody.wordsOf(first.itemId, inWords.map(({ seq }) => seq));
  return events.map((event) => told(event, words.get(event.seq)));
}

const isHash = (text: string | undefined): boolean => text?.startsWith('sha256:') ?? false;
