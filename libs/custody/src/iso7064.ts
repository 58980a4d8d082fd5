/**
 * ISO/IEC 7064, check character system MOD 97-10 (pure system, two check digits, designation "10").
 * Letters count as two digits, A = 10 ... Z = 35, as IBAN (ISO 13616-1) and LEI (ISO 17442-1) use it.
 * Stated from memory of the standard [K] (guidance, api-conventions B.17); the published examples are recomputed in
 * tests/reference/custody.
 */

const DIGIT_0 = 48;
const LETTER_A = 65;

/**
 * Remainder modulo 97 of an upper-case alphanumeric string read as a decimal number.
 * @throws RangeError when the text is empty or holds anything but 0-9 and A-Z.
 */
export function mod97(text: string): number {
  if (!/^[0-9A-Z]+$/.test(text)) throw new RangeError('mod97 takes digits and upper-case letters only');
  let remainder = 0;
  for (let i = 0; i < text.length; i += 1) {
    const unit = text.charCodeAt(i);
    // Digit by digit, so that no intermediate number leaves the exact integers.
    remainder = unit < LETTER_A ? (remainder * 10 + unit - DIGIT_0) % 97 : (remainder * 100 + unit - LETTER_A + 10) % 97;
  }
  return remainder;
}

/** The two check digits to append: 98 minus the remainder of the text followed by `00`; always 02 to 98. */
export function checkDigits97(text: string): string {
  return String(98 - mod97(`${text}00`)).padStart(2, '0');
}

/**
 * True when the text ends in its own check digits. A pair outside 02-98 leaves the same remainder as a proper pair but is
 * never issued, so it is refused: otherwise one number would have two spellings.
 */
export function isValid97(text: string): boolean {
  if (!/^[0-9A-Z]+[0-9]{2}$/.test(text)) return false;
  const check = Number(text.slice(-2));
  return check >= 2 && check <= 98 && mod97(text) === 1;
}
