/**
 * Tag codes: the short code on a waterproof tag, made to be read wet, said aloud and typed with gloves on.
 *
 *   K BCDFGH 42      printed KBCD-FGH-42
 *   | |      +-- two check digits, ISO/IEC 7064 MOD 97-10 over the seven letters before them
 *   | +--------- six letters, the serial number in base 20
 *   +----------- what the tag is tied to: K item ("keepsake"), C container, P place, V person ("volunteer")
 *
 * Body alphabet: the 20 letters BCDFGHJKMNPQRSTVWXYZ. I, L, O and U are left out because they read as 1, 0 and V; A and E
 * with them, so that no code spells a word to a grieving family. Letters only in the body and digits only in the check
 * for two reasons of our own:
 * 1. MOD 97-10 counts a letter as two digits. Where letters and digits may stand side by side, a swap such as B1 / 1B
 *    leaves the number unchanged. With one class in each position every single substitution (difference 1 to 25 times a
 *    power of ten) and every adjacent swap (99 or 9 times the difference) leaves a remainder, because 97 is prime: all
 *    are caught, not nearly all.
 *    A swap of the last letter and the first check digit breaks the pattern instead.
 * 2. A hand-typed look-alike then has one reading only: a digit among the letters, or a letter among the check digits.
 *
 * 20^6 = 64,000,000 codes of each kind. Upper case, digits and hyphen are QR alphanumeric mode (ISO/IEC 18004 [memory]).
 */
import { checkDigits97, isValid97 } from './iso7064.js';

/** What a tag is tied to. */
export type TagKind = 'item' | 'container' | 'place' | 'person';

/** Kinds of tag. */
export const TAG_KINDS: readonly TagKind[] = ['item', 'container', 'place', 'person'];

/** The letters of a body, in the order of their value 0 to 19. */
export const TAG_ALPHABET = 'BCDFGHJKMNPQRSTVWXYZ';

/** Length of a code without separators. */
export const TAG_CODE_LENGTH = 9;

/** Serial numbers run from 0 to one less than this, for each kind by itself. */
export const TAG_SERIAL_COUNT = 64_000_000;

/** A tag code that was read. */
export interface TagCode {
  /** Nine characters, upper case, no separators: the form to store and to put in the QR symbol. */
  code: string;
  kind: TagKind;
  /** 0 to `TAG_SERIAL_COUNT` - 1. */
  serial: number;
}

/** Why a text is not a tag code, and what to do. */
export interface TagFault {
  fault: 'empty' | 'character' | 'length' | 'kind' | 'check';
  text: string;
}

const KIND_LETTER: Record<TagKind, string> = { item: 'K', container: 'C', place: 'P', person: 'V' };
const BODY_LENGTH = 6;
const BASE = TAG_ALPHABET.length;

/** The letters that may start a code, by kind order. */
export const TAG_KIND_LETTERS: readonly string[] = TAG_KINDS.map((kind) => KIND_LETTER[kind]);

const SHAPE = new RegExp(`^[${TAG_KIND_LETTERS.join('')}][${TAG_ALPHABET}]{${BODY_LENGTH}}[0-9]{2}$`);
const AS_LETTER: Record<string, string> = { '5': 'S', '2': 'Z', '8': 'B' };
const AS_DIGIT: Record<string, string> = { O: '0', Q: '0', D: '0', I: '1', L: '1', Z: '2', S: '5', B: '8' };

/**
 * Serial numbers are spread by a multiplication modulo 20^6 (a bijection, as the factor shares no divisor with 20), so that
 * neighbours on a roll look nothing alike. Our own calibration: of the odd factors near the golden section of 20^6 this one
 * keeps any two bodies that are one letter or one adjacent swap apart at least 1,806,400 serials apart (tested).
 */
const SPREAD = 39_735_093;
const UNSPREAD = inverseModulo(SPREAD, TAG_SERIAL_COUNT);

/**
 * The tag code of a serial number, nine characters without separators; the same number and kind always give the same code.
 * @throws RangeError when the serial is not a whole number from 0 to `TAG_SERIAL_COUNT` - 1.
 */
export function makeTagCode(serial: number, kind: TagKind): string {
  if (!Number.isInteger(serial) || serial < 0 || serial >= TAG_SERIAL_COUNT) throw new RangeError(`a tag serial runs from 0 to ${TAG_SERIAL_COUNT - 1}`);
  let rest = (serial * SPREAD) % TAG_SERIAL_COUNT;
  let body = '';
  for (let i = 0; i < BODY_LENGTH; i += 1) {
    body = TAG_ALPHABET.charAt(rest % BASE) + body;
    rest = Math.floor(rest / BASE);
  }
  const stem = KIND_LETTER[kind] + body;
  return stem + checkDigits97(stem);
}

/** A code as printed, `KBCD-FGH-42`: three short groups, the check digits by themselves. */
export function formatTagCode(code: string): string {
  return `${code.slice(0, 4)}-${code.slice(4, 7)}-${code.slice(7)}`;
}

/**
 * Reads a scanned or hand-typed tag code. Case, spaces, hyphens, dots and underscores do not matter. A look-alike is read
 * as what must stand there: among the letters 5 is S, 2 is Z and 8 is B; among the check digits O, Q and D are 0, I and L
 * are 1, Z is 2, S is 5 and B is 8. Nothing is read for 0 or 1 among the letters, because more than one letter is near, nor
 * for 6 and G: with them, G2 swapped to 2G would read as Z6 and pass the check.
 * @returns the code, or a fault with a sentence for the person who typed it.
 */
export function parseTagCode(text: string): TagCode | TagFault {
  const typed = compact(text);
  if (typed === '') return { fault: 'empty', text: 'Scan the tag, or type its nine characters.' };
  if (!/^[0-9A-Z]+$/.test(typed)) return { fault: 'character', text: 'A tag code holds only letters and digits. Read the tag again.' };
  if (typed.length !== TAG_CODE_LENGTH) return { fault: 'length', text: `A tag code has ${TAG_CODE_LENGTH} characters, seven letters and two digits; this has ${typed.length}. Read the tag again.` };
  const code = readLookAlikes(typed);
  const kind = TAG_KINDS.find((each) => KIND_LETTER[each] === code.charAt(0));
  if (kind === undefined) return { fault: 'kind', text: 'A tag code starts with K (item), C (container), P (place) or V (person). Read the first letter again.' };
  if (!SHAPE.test(code)) return { fault: 'character', text: 'After the first letter come six of the letters B C D F G H J K M N P Q R S T V W X Y Z, then two digits. Read the tag again.' };
  if (!isValid97(code)) return { fault: 'check', text: 'The check digits do not fit: a character was misread or two were swapped. Read the tag again; do not guess.' };
  return { code, kind, serial: serialOf(code) };
}

/** Tells a code that was read from a fault. */
export function isTagFault(result: TagCode | TagFault): result is TagFault {
  return 'fault' in result;
}

/** True for a stored code: nine characters exactly as `makeTagCode` writes them. */
export function isTagCode(code: string): boolean {
  return SHAPE.test(code) && isValid97(code);
}

/** Upper case, without separators. Unicode dashes and spaces count: tablets put them in by themselves. */
export function compact(text: string): string {
  // Plain ASCII folding only: full case mapping would turn other scripts' letters into ours.
  return text.replace(/[\s\p{Pd}._\u2212]/gu, '').replace(/[a-z]/g, (letter) => letter.toUpperCase());
}

function readLookAlikes(typed: string): string {
  return [...typed].map((character, at) => (at <= BODY_LENGTH ? AS_LETTER[character] : AS_DIGIT[character]) ?? character).join('');
}

function serialOf(code: string): number {
  let value = 0;
  for (const letter of code.slice(1, 1 + BODY_LENGTH)) value = value * BASE + TAG_ALPHABET.indexOf(letter);
  return (value * UNSPREAD) % TAG_SERIAL_COUNT;
}

/** The inverse of `a` modulo `m` (extended Euclid); both products above stay below 2^53. */
function inverseModulo(a: number, m: number): number {
  let [r0, r1, s0, s1] = [a, m, 1, 0];
  while (r1 !== 0) {
    const quotient = Math.floor(r0 / r1);
    [r0, r1, s0, s1] = [r1, r0 - quotient * r1, s1, s0 - quotient * s1];
  }
  return ((s0 % m) + m) % m;
}
