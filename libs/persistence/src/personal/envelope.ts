import { createCipheriv, createDecipheriv, createHmac, hkdfSync, randomBytes } from 'node:crypto';

/*
 * AES-256 in Galois/Counter Mode with a fresh random nonce of 96 bits and a tag of 128 bits (NIST SP 800-38D, "Recommendation for Block Cipher
 * Modes of Operation: Galois/Counter Mode (GCM) and GMAC", sections 5.2.1 and 8.2.2; section 8.3 bounds one key at 2^32 sealings, which no
 * household reaches). Additional authenticated data says where a sealed text belongs; elsewhere it does not open.
 */
const FORM = 1;
const NONCE_BYTES = 12;
const TAG_BYTES = 16;
const KEY_BYTES = 32;
const HEAD_BYTES = 1 + NONCE_BYTES;

/** What was sealed was altered, or was moved from where it belongs, or the key is another one. */
export class SealBroken extends Error {
  constructor() {
    super('A sealed value does not open where it stands.');
  }
}

/** Form (1 byte), nonce (12), tag (16), ciphertext. */
export function sealBytes(key: Uint8Array, place: readonly string[], plain: Uint8Array): Buffer {
  const nonce = randomBytes(NONCE_BYTES);
  const cipher = createCipheriv('aes-256-gcm', key, nonce, { authTagLength: TAG_BYTES }).setAAD(placeBytes(place));
  const sealed = Buffer.concat([cipher.update(plain), cipher.final()]);
  return Buffer.concat([Buffer.from([FORM]), nonce, cipher.getAuthTag(), sealed]);
}

/** @throws SealBroken */
export function openBytes(key: Uint8Array, place: readonly string[], sealed: Uint8Array): Buffer {
  if (sealed.length < HEAD_BYTES + TAG_BYTES || sealed[0] !== FORM) throw new SealBroken();
  const part = (from: number, to?: number) => Buffer.from(sealed.subarray(from, to));
  const decipher = createDecipheriv('aes-256-gcm', key, part(1, HEAD_BYTES), { authTagLength: TAG_BYTES }).setAAD(placeBytes(place)).setAuthTag(part(HEAD_BYTES, HEAD_BYTES + TAG_BYTES));
  try {
    return Buffer.concat([decipher.update(part(HEAD_BYTES + TAG_BYTES)), decipher.final()]);
  } catch {
    throw new SealBroken();
  }
}

/** Each part with its length before it, so that no two places have the same bytes. */
function placeBytes(place: readonly string[]): Buffer {
  return Buffer.concat(['wrackline', ...place].flatMap((part) => {
    const bytes = Buffer.from(part, 'utf8');
    const length = Buffer.alloc(4);
    length.writeUInt32BE(bytes.length);
    return [length, bytes];
  }));
}

export const freshKey = (): Buffer => randomBytes(KEY_BYTES);

/** The key of a network for words that are found without being readable (HKDF-SHA-256, RFC 5869), apart from what wraps. */
export function blindKeyOf(networkKey: Uint8Array): Buffer {
  return Buffer.from(hkdfSync('sha256', networkKey, new Uint8Array(0), 'wrackline blind words', KEY_BYTES));
}

/** The key of a network for texts that belong to no single household, derived likewise. */
export function commonKeyOf(networkKey: Uint8Array): Buffer {
  return Buffer.from(hkdfSync('sha256', networkKey, new Uint8Array(0), 'wrackline common texts', KEY_BYTES));
}

/** HMAC-SHA-256 (RFC 2104) of a word for a purpose: the same word gives the same 32 bytes within a network and purpose, and nowhere else. */
export function blindWord(blindKey: Uint8Array, purpose: string, word: string): Buffer {
  return createHmac('sha256', blindKey).update(placeBytes([purpose, word])).digest();
}
