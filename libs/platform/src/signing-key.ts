import { createPrivateKey, createPublicKey, generateKeyPairSync, type KeyObject, sign, verify } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { chmod, link, readFile, unlink, writeFile } from 'node:fs/promises';
import { type Config, ConfigError } from './config.js';

/** A private key at work; what is in it never leaves it. */
export interface SigningKey {
  /** Ed25519 public key, 32 bytes as lower-case hex. */
  publicKey: string;
  /** Signs the UTF-8 bytes of a text (Ed25519, RFC 8032); 64 bytes as lower-case hex. */
  sign(text: string): string;
}

/** DER of a PKCS #8 Ed25519 key up to its 32 secret bytes (RFC 8410, section 7). */
const PKCS8_ED25519 = Buffer.from('302e020100300506032b657004220420', 'hex');
const RAW_BYTES = 32;

/** @throws ConfigError when the text is neither a PKCS #8 PEM of an Ed25519 key nor base64 of its 32 secret bytes. The text itself is never repeated. */
export function parseSigningKey(text: string, name: string): SigningKey {
  const key = read(text.trim());
  if (key?.asymmetricKeyType !== 'ed25519') throw new ConfigError(`${name} is no Ed25519 private key. Give a PKCS #8 PEM (openssl genpkey -algorithm ed25519) or base64 of the 32 secret bytes.`);
  return { publicKey: publicHex(key), sign: (message) => sign(null, Buffer.from(message, 'utf8'), key).toString('hex') };
}

function read(text: string): KeyObject | null {
  try {
    if (text.includes('-----BEGIN')) return createPrivateKey(text);
    const raw = Buffer.from(text, 'base64');
    return raw.length === RAW_BYTES && /^[A-Za-z0-9+/_-]{43}=?$/.test(text) ? createPrivateKey({ key: Buffer.concat([PKCS8_ED25519, raw]), format: 'der', type: 'pkcs8' }) : null;
  } catch {
    return null;
  }
}

const publicHex = (key: KeyObject): string => Buffer.from(createPublicKey(key).export({ format: 'jwk' }).x ?? '', 'base64url').toString('hex');

/** True when the signature (hex) is that of the key (hex) over the UTF-8 bytes of the text; false for anything malformed. */
export function verifyEd25519(publicKey: string, text: string, signature: string): boolean {
  if (!/^[0-9a-f]{64}$/.test(publicKey) || !/^[0-9a-f]{128}$/.test(signature)) return false;
  try {
    const key = createPublicKey({ key: { kty: 'OKP', crv: 'Ed25519', x: Buffer.from(publicKey, 'hex').toString('base64url') }, format: 'jwk' });
    return verify(null, Buffer.from(text, 'utf8'), key, Buffer.from(signature, 'hex'));
  } catch {
    return false;
  }
}

/** The key that signs custody roots, as configured; null when none is. */
export function custodySigningKey(config: Pick<Config, 'custodySigningKey' | 'custodySigningKeyFile'>): SigningKey | null {
  if (config.custodySigningKey !== null) return parseSigningKey(config.custodySigningKey, 'WRACKLINE_CUSTODY_SIGNING_KEY');
  if (config.custodySigningKeyFile === null) return null;
  try {
    return parseSigningKey(readFileSync(config.custodySigningKeyFile, 'utf8'), 'WRACKLINE_CUSTODY_SIGNING_KEY_FILE');
  } catch (error) {
    if (error instanceof ConfigError) throw error;
    throw new ConfigError(`WRACKLINE_CUSTODY_SIGNING_KEY_FILE cannot be read (${(error as NodeJS.ErrnoException).code ?? 'unknown'}).`);
  }
}

/** Makes the key of an installation, readable by its owner alone, unless it is there. Never overwrites one: the roots that it signed would lose their signer. */
export async function ensureSigningKeyFile(file: string): Promise<void> {
  const there = await readFile(file, 'utf8').catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return null;
    throw error;
  });
  if (there !== null) return;
  const { privateKey } = generateKeyPairSync('ed25519');
  const fresh = `${file}.${process.pid}.new`;
  await writeFile(fresh, privateKey.export({ type: 'pkcs8', format: 'pem' }), { mode: 0o600, flag: 'wx' });
  await chmod(fresh, 0o600);
  try {
    // A link fails where a file is, so that of two that start together one wins and both use its key.
    await link(fresh, file).catch((error: NodeJS.ErrnoException) => {
      if (error.code !== 'EEXIST') throw error;
    });
  } finally {
    await unlink(fresh);
  }
}
