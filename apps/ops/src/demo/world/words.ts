import type { Dice } from '../dice.js';

/** Syllables of invented family names; with the accents and umlauts that an intake file must carry. No family is meant. */
const NAME_STARTS = ['Quell', 'Brüm', 'Tharv', 'Ösk', 'Fénn', 'Grälv', 'Zwint', 'Mórv', 'Lürk', 'Vèst', 'Harñ', 'Jöld', 'Pôrth', 'Çerv', 'Skåv', 'Wendl'] as const;
const NAME_ENDS = ['aquist', 'unwold', 'éring', 'ibrook', 'ömarsh', 'aveld', 'iñolm', 'uxley', 'orrask', 'edunn'] as const;
const STREETS = ['Weir Lane', 'Tenter Row', 'Lower Ferry Street', 'Mill Leat', 'Osier Bank', 'Old Lock Road', 'Reed Walk'] as const;

/** A contact that belongs to nobody: an invented name, a number that is none, an address under .invalid (RFC 2606, section 2). */
export function inventContact(dice: Dice, number: number): { name: string; phone: string; email: string; address: string } {
  const name = `${dice.pick(NAME_STARTS)}${dice.pick(NAME_ENDS)}`;
  return { name: `${name} household`, phone: `000 000 ${String(number).padStart(4, '0')}`, email: `household-${number}@selm.invalid`, address: `${dice.pick(STREETS)} ${dice.int(1, 90)}` };
}

const RELATIVES = ['grandmother', 'grandfather', 'mother', 'father', 'great-aunt', 'sister', 'uncle', 'abuela'] as const;
const WORDS = [
  (relative: string) => `It was my ${relative}’s; there is no other.`,
  (relative: string) => `My ${relative} made it in the winter of the long frost.`,
  (relative: string) => `It hung in my ${relative}'s room above the mill.`,
  (relative: string) => `Please be gentle with it – my ${relative} asks every day.`,
  (relative: string) => `Only my ${relative} knows who is in it, and she is ninety.`,
  (relative: string) => `Es war immer bei uns in der Stube; my ${relative} brought it over the hills.`,
  (relative: string) => `Era de mi ${relative}, lo único que queda de la casa.`,
] as const;

/** What the family says of a thing; nothing for most everyday ones. */
export function familyWords(dice: Dice, dear: boolean): string {
  if (!dice.chance(dear ? 0.8 : 0.25)) return '';
  return dice.pick(WORDS)(dice.pick(RELATIVES));
}

const COLOURS = ['red', 'indigo blue', 'madder', 'black', 'bottle green', 'mustard', 'violet', 'white ground'] as const;

/** Colours that a tester finds on a textile, repair thread included. */
export function coloursOf(dice: Dice): string[] {
  return [...dice.shuffled(COLOURS).slice(0, dice.int(1, 3)), 'repair thread'];
}
