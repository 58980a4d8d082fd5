/** "Did you mean": codes near to a text that does not read as a tag code. A person confirms; nothing is corrected silently. */
import { checkDigits97 } from './iso7064.js';
import { TAG_ALPHABET, TAG_CODE_LENGTH, TAG_KIND_LETTERS, compact, isTagFault, parseTagCode } from './tag-code.js';

/** Characters that are mistaken for one another in wet handwriting, on a small keyboard, or (second line) by their English or Spanish names over a bad line; our own list. */
const ALIKE = [
  'B83', '06DQO', 'S56', 'Z27', 'CG6', 'HKX', 'MN', 'UVWY', 'FPR', 'EF', 'TY', 'IJLT17', '49',
  'BCDGPTVZ', 'FSX', 'GJK', 'KQ', 'CSZ', '59', '23', '67', '12', '60', '48',
];

/** Order of suggestions; our own calibration: the likelier slip first. */
const COST = { asRead: 0, lookAlike: 1, swap: 2, checkDigits: 2, otherCharacter: 3, missing: 4, extra: 4 } as const;

const CODE_CHARACTERS = `${TAG_ALPHABET}0123456789`;

/**
 * Valid codes one slip away from a typed text: one wrong character, two neighbours swapped, wrong check digits, one character
 * missing or one too many. Look-alikes are read as `parseTagCode` reads them first, so a text with those and one more slip is found too.
 * @param known codes that exist (any spelling); only those are offered. `null` offers every valid code, at most a few dozen:
 *   look those up where the tags are stored rather than listing a whole network's tags here.
 * @returns codes without separators, likeliest first, equally likely ones in alphabetical order; empty when none is near.
 */
export function nearestPlausible(text: string, known: Iterable<string> | null): string[] {
  const typed = compact(text);
  // Far from any code: nothing within one slip, and no work on a long text.
  if (Math.abs(typed.length - TAG_CODE_LENGTH) > 1) return [];
  const costs = new Map<string, number>();
  const offer: Offer = (candidate, cost) => {
    const read = parseTagCode(candidate);
    if (!isTagFault(read)) costs.set(read.code, Math.min(costs.get(read.code) ?? Infinity, cost));
  };
  offer(typed, COST.asRead);
  otherCheck(typed, offer);
  substitutions(typed, offer);
  swaps(typed, offer);
  lengthFixes(typed, offer);
  const existing = known === null ? null : present(costs, known);
  return [...costs]
    .filter(([code]) => existing === null || existing.has(code))
    .sort(([a, costA], [b, costB]) => costA - costB || (a < b ? -1 : 1))
    .map(([code]) => code);
}

/** The candidates that are in the list; one pass, and no copy of a long list. */
function present(candidates: ReadonlyMap<string, number>, known: Iterable<string>): Set<string> {
  const found = new Set<string>();
  for (const each of known) {
    const code = compact(each);
    if (candidates.has(code)) found.add(code);
  }
  return found;
}

type Offer = (candidate: string, cost: number) => void;

function substitutions(typed: string, offer: Offer): void {
  for (let at = 0; at < typed.length; at += 1) {
    const wrong = typed.charAt(at);
    for (const right of at === 0 ? TAG_KIND_LETTERS : CODE_CHARACTERS) {
      const alike = ALIKE.some((group) => group.includes(wrong) && group.includes(right));
      offer(typed.slice(0, at) + right + typed.slice(at + 1), alike ? COST.lookAlike : COST.otherCharacter);
    }
  }
}

/** The letters as they stand with the check digits that belong to them: of two digits one easily hears another number, fifteen for fifty. */
function otherCheck(typed: string, offer: Offer): void {
  const stem = typed.slice(0, TAG_CODE_LENGTH - 2);
  if (typed.length === TAG_CODE_LENGTH && /^[A-Z]+$/.test(stem)) offer(stem + checkDigits97(stem), COST.checkDigits);
}

function swaps(typed: string, offer: Offer): void {
  for (let at = 0; at + 1 < typed.length; at += 1) {
    offer(typed.slice(0, at) + typed.charAt(at + 1) + typed.charAt(at) + typed.slice(at + 2), COST.swap);
  }
}

function lengthFixes(typed: string, offer: Offer): void {
  for (let at = 0; at <= typed.length; at += 1) {
    if (typed.length > TAG_CODE_LENGTH) offer(typed.slice(0, at) + typed.slice(at + 1), COST.extra);
    if (typed.length >= TAG_CODE_LENGTH) continue;
    for (const right of CODE_CHARACTERS) offer(typed.slice(0, at) + right + typed.slice(at), COST.missing);
  }
}
