import { createHash, randomBytes, randomInt, scrypt, timingSafeEqual } from 'node:crypto';

const NETWORK_BYTES = 16;
const SECRET_BYTES = 32;
const LINK = /^[A-Za-z0-9_-]{64}$/;

/** What the secret part of a status link names, and the hash by which it is known; the text itself is kept by nobody. */
export interface ReadStatusLink {
  networkId: string;
  sha256: Buffer;
}

/**
 * Makes the secret part of a status link: 64 base64url characters, the network and 256 random bits. One round of SHA-256 is enough to know it again,
 * as for API keys; the network in it spares a look-up over all networks.
 */
export function makeStatusLink(networkId: string): { text: string; sha256: Buffer } {
  const text = Buffer.concat([Buffer.from(networkId.replaceAll('-', ''), 'hex'), randomBytes(SECRET_BYTES)]).toString('base64url');
  return { text, sha256: sha256(text) };
}

/** Reads the secret part of an address; null for anything that was never one. */
export function readStatusLink(text: string): ReadStatusLink | null {
  if (!LINK.test(text)) return null;
  const hex = Buffer.from(text, 'base64url').subarray(0, NETWORK_BYTES).toString('hex');
  return { networkId: [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-'), sha256: sha256(text) };
}

function sha256(text: string): Buffer {
  return createHash('sha256').update(text, 'utf8').digest();
}

/** Without letters and digits that are mistaken for each other. */
const CODE_ALPHABET = '23456789ABCDEFGHJKMNPQRSTVWXYZ';
const CODE_LENGTH = 8;
/** Interactive use: OWASP Password Storage Cheat Sheet, scrypt, N = 2^14, r = 8, p = 5 [K]; tries are few as well. */
const COST = { N: 2 ** 14, r: 8, p: 5, maxmem: 64 * 1_048_576 };

export interface KeptPickUpCode {
  salt: Uint8Array;
  hash: Uint8Array;
}

/** Makes a code to be told or written down, `ABCD-2345`, and what is kept of it. */
export async function makePickUpCode(): Promise<{ text: string; kept: KeptPickUpCode }> {
  const letters = Array.from({ length: CODE_LENGTH }, () => CODE_ALPHABET[randomInt(CODE_ALPHABET.length)]).join('');
  const salt = randomBytes(16);
  return { text: `${letters.slice(0, 4)}-${letters.slice(4)}`, kept: { salt, hash: await slowHash(letters, salt) } };
}

/** True when somebody typed the code, in any case and with any separators. */
export async function pickUpCodeMatches(kept: KeptPickUpCode, typed: string): Promise<boolean> {
  const letters = typed.toUpperCase().replaceAll(/[^0-9A-Z]/g, '').slice(0, 40);
  return timingSafeEqual(await slowHash(letters, kept.salt), Buffer.from(kept.hash));
}

function slowHash(text: string, salt: Uint8Array): Promise<Buffer> {
  return new Promise((resolve, reject) => {
    scrypt(text, salt, 32, COST, (error, key) => (error ? reject(error) : resolve(key)));
  });
}
