/**
 * What of a contact a household is found by, and how two spellings count as one. Pure. Whole values only: what is kept of them is blind (see
 * `PersonalStore`), so that a part of a name finds nothing.
 */
export const CONTACT_WORD_KINDS = ['name', 'phone', 'email'] as const;
export type ContactWordKind = (typeof CONTACT_WORD_KINDS)[number];

export interface ContactWord {
  kind: ContactWordKind;
  word: string;
}

/** Fewer digits name nobody; our own calibration. */
const DIGITS_LEAST = 6;

/** Letters and digits of all scripts in the order written, without accents, case and punctuation, one blank between words. Blank where nothing is left. */
export function nameWord(name: string): string {
  return name.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase().replace(/['’`´]/gu, '').replace(/[^\p{L}\p{N}]+/gu, ' ').trim();
}

/** Digits alone: blanks, brackets, dashes and a plus do not count. Blank where they are too few for a number. `00` before a country is a plus. */
export function phoneWord(phone: string): string {
  const digits = phone.normalize('NFKC').replace(/\D/g, '').replace(/^00/, '');
  return digits.length < DIGITS_LEAST ? '' : digits;
}

/** Without case and blanks around it; blank where it is no address. */
export function emailWord(email: string): string {
  const address = email.normalize('NFKC').trim().toLowerCase();
  return /^\S+@\S+$/.test(address) ? address : '';
}

const WORD: Record<ContactWordKind, (text: string) => string> = { name: nameWord, phone: phoneWord, email: emailWord };

/** What of these values can be kept or looked for. */
export function contactWords(values: Partial<Record<ContactWordKind, string>>): ContactWord[] {
  return CONTACT_WORD_KINDS.flatMap((kind) => {
    const word = WORD[kind](values[kind] ?? '');
    return word === '' ? [] : [{ kind, word }];
  });
}
