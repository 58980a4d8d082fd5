/** A message as it goes out. Exists in memory only. */
export interface OutgoingMessage {
  to: string;
  subject: string;
  text: string;
  language: 'en' | 'es';
  /** The same for every attempt: Message-ID of a mail, Idempotency-Key of a gateway. */
  id: string;
}

/**
 * How an attempt ended. `not-sent` is said only where it is certain that nothing was taken: then it may be tried again.
 * `unclear`: it may have been taken, and trying again could tell a family the same twice.
 */
export type SendOutcome =
  | { outcome: 'sent' }
  | { outcome: 'not-sent'; why: 'unreachable' | 'refused-for-now' }
  /** For good; `recipient` where it is the address that is not taken, not this text. */
  | { outcome: 'refused'; recipient?: boolean }
  | { outcome: 'unclear' };

export interface MessageSender {
  /** Never throws; bounded in time. */
  send(message: OutgoingMessage): Promise<SendOutcome>;
}

export interface MessageSenders {
  email: MessageSender | null;
  sms: MessageSender | null;
}
