import { TAG_ALPHABET } from '#custody';
import { MESS_RATES } from '../calibration.js';
import type { Dice } from '../dice.js';
import type { Cells } from './cells.js';

/** What went wrong with a row; `none` and `harmless` must go in, the others must be refused. */
export type Mess = 'none' | 'harmless' | 'wrong-date' | 'formula' | 'wrong-tag-character' | 'missing-household';

/** Spoils a row, or not. The cells given stay as they are. */
export function spoil(cells: Cells, dice: Dice): { cells: Cells; mess: Mess } {
  const at = dice.int(1, 1_000) / 1_000;
  let upTo = 0;
  const falls = (rate: number) => at <= (upTo += rate);
  if (falls(MESS_RATES.wrongDate)) return { mess: 'wrong-date', cells: { ...cells, [dice.pick(['wettedAt', 'arrivedAt'])]: dice.pick(['05/09/2026 08:10', '2062-05-09 08:10', '31.04.2026 07:55', 'last night']) } };
  if (falls(MESS_RATES.formula)) return { mess: 'formula', cells: { ...cells, [dice.pick(['count', 'wettedAt'])]: dice.pick(['=SUM(K2:K9)', '=NOW()', '=A1&"x"']) } };
  if (falls(MESS_RATES.wrongTagCharacter)) return { mess: 'wrong-tag-character', cells: { ...cells, tag: withWrongCharacter(cells.tag, dice) } };
  if (falls(MESS_RATES.missingHousehold)) return { mess: 'missing-household', cells: { ...cells, household: dice.pick(['', '-', '?']) } };
  if (falls(MESS_RATES.harmless)) return { mess: 'harmless', cells: { ...cells, ...harmless(cells, dice) } };
  return { mess: 'none', cells };
}

/** One letter of the body misread as another. */
function withWrongCharacter(tag: string, dice: Dice): string {
  const places = [...tag].flatMap((character, at) => (at > 0 && TAG_ALPHABET.includes(character) ? [at] : []));
  const at = dice.pick(places);
  const other = dice.pick([...TAG_ALPHABET].filter((letter) => letter !== tag[at]));
  return tag.slice(0, at) + other + tag.slice(at + 1);
}

/** Habits that a reader of the table would not stumble over. */
function harmless(cells: Cells, dice: Dice): Partial<Cells> {
  const pieces = cells.count === '' ? '1' : cells.count;
  return dice.pick<() => Partial<Cells>>([
    () => ({ tag: ` ${cells.tag.toLowerCase()} ` }),
    () => ({ tag: cells.tag.replaceAll('-', ' ') }),
    () => ({ count: `${pieces},0` }),
    () => ({ count: `${pieces} pcs` }),
    () => ({ contactPhone: `'${cells.contactPhone}` }),
    () => ({ object: `  ${cells.object} ` }),
    () => ({ consentTreat: cells.consentTreat === 'yes' ? 'ja' : cells.consentTreat, consentFreeze: cells.consentFreeze === 'yes' ? 'x' : cells.consentFreeze }),
    () => ({ familyWords: '=HYPERLINK("see photo")' }),
    () => ({ size: '' }),
    () => ({ water: 'brown stuff' }),
  ])();
}
