/** What is said to people: the English sentence stands in the code and is the key of every translation. */

/** Languages we speak. The first one is what everything is written in, and what is answered when a caller asks for none of them. */
export const LANGUAGES = ['en', 'es'] as const;
export type Language = (typeof LANGUAGES)[number];

/**
 * A sentence in English. With `values` the text is an ICU MessageFormat pattern; without, it is the sentence itself. A value may
 * be a message of its own (the name of a step), which is then said in the same language.
 */
export interface Message {
  text: string;
  values?: { readonly [name: string]: string | number | Message };
}

/** Marks a sentence for the catalogues. The text must be written out in the call, because a test gathers the sentences from the source. */
export function say(text: string, values?: Message['values']): Message {
  return values === undefined ? { text } : { text, values };
}
