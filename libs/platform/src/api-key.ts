import { createHash, randomBytes } from 'node:crypto';

// Lower-case letters and digits without i, l, o and u, which are misread when a prefix is read out over the phone.
const LOOKUP_ALPHABET = '0123456789abcdefghjkmnpqrstvwxyz';
const LOOKUP_LENGTH = 8;
const SECRET_BYTES = 32;
const KEY = /^wk_([0-9a-hjkmnp-tv-z]{8})_[A-Za-z0-9_-]{43}$/;

/** A new API key. `text` goes to its owner once; the rest is stored. */
export interface MadeApiKey {
  text: string;
  /** Eight public characters by which the key is found. */
  prefix: string;
  secretSha256: Uint8Array;
}

/**
 * Makes a key `wk_<8 lookup characters>_<43 base64url characters>` with 256 random bits. One round of SHA-256 is enough
 * to store it (common practice): stretching protects guessable secrets, and these bits cannot be guessed.
 */
export function makeApiKey(): MadeApiKey {
  // 32 letters divide 256, so every letter is equally likely.
  const prefix = [...randomBytes(LOOKUP_LENGTH)].map((byte) => LOOKUP_ALPHABET[byte % LOOKUP_ALPHABET.length]).join('');
  const text = `wk_${prefix}_${randomBytes(SECRET_BYTES).toString('base64url')}`;
  return { text, prefix, secretSha256: sha256(text) };
}

/** Reads a key as a caller sent it; null for anything that was never one. The hash is over the whole text. */
export function parseApiKey(text: string): { prefix: string; secretSha256Hex: string } | null {
  const prefix = KEY.exec(text)?.[1];
  return prefix === undefined ? null : { prefix, secretSha256Hex: sha256(text).toString('hex') };
}

function sha256(text: string): Buffer {
  return createHash('sha256').update(text, 'utf8').digest();
}
