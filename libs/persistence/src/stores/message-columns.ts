import type { Message } from '#care';

/** A message in two columns: its English text, and its values as JSON; rows of earlier versions have no values, and their text is the sentence. */
export function toMessage(text: string, values: unknown): Message {
  return values === null || values === undefined ? { text } : { text, values: values as NonNullable<Message['values']> };
}

/** As `toMessage`, where there may be none. */
export function toMessageOrNull(text: string | null, values: unknown): Message | null {
  return text === null ? null : toMessage(text, values);
}

/** The values of a message as a parameter of SQL. */
export function valuesOf(message: Message | null | undefined): string | null {
  return message?.values === undefined ? null : JSON.stringify(message.values);
}
