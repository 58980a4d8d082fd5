import { createCipheriv, createDecipheriv, randomBytes } from 'node:crypto';

const KEY_BYTES = 32;
const NONCE_BYTES = 12;
const MARK_BYTES = 16;

/** A name that says nothing and cannot be guessed. */
export const objectName = (): string => randomBytes(32).toString('hex');
/** A key for one object, base64; sealed with the household's before it is stored. */
export const contentKey = (): string => randomBytes(KEY_BYTES).toString('base64');

/**
 * Seals bytes under a key of their own (AES-256-GCM, NIST SP 800-38D); bound to their name, so that objects exchanged in the store open as nothing.
 * The layout is nonce, ciphertext, mark.
 */
export function sealContent(key: string, name: string, bytes: Uint8Array): Uint8Array {
  const nonce = randomBytes(NONCE_BYTES);
  const cipher = createCipheriv('aes-256-gcm', Buffer.from(key, 'base64'), nonce).setAAD(Buffer.from(name, 'utf8'));
  return Buffer.concat([nonce, cipher.update(bytes), cipher.final(), cipher.getAuthTag()]);
}

/** @throws when the bytes were altered, lie under another name, or the key is another. */
export function openContent(key: string, name: string, sealed: Uint8Array): Uint8Array {
  const end = sealed.length - MARK_BYTES;
  const decipher = createDecipheriv('aes-256-gcm', Buffer.from(key, 'base64'), sealed.subarray(0, NONCE_BYTES)).setAAD(Buffer.from(name, 'utf8')).setAuthTag(sealed.subarray(end));
  return Buffer.concat([decipher.update(sealed.subarray(NONCE_BYTES, end)), decipher.final()]);
}
