import { generateKeyPairSync } from 'node:crypto';
import { mkdtemp, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { ConfigError, custodySigningKey, ensureSigningKeyFile, loadConfig, parseSigningKey, verifyEd25519 } from '#platform';

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'wl-key-'));
});
afterAll(() => rm(folder, { recursive: true }));

/** RFC 8032, section 7.1: tests 1 and 2 [written from memory; Node's own Ed25519 must agree, so a slip of memory cannot pass]. */
const VECTORS = [
  { secret: '9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60', publicKey: 'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a', message: '', signature: 'e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b' },
  { secret: '4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb', publicKey: '3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c', message: 'r', signature: '92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00' },
];

describe('a key given as base64 of its 32 secret bytes', () => {
  test.each(VECTORS)('signs as the published vectors: $publicKey', ({ secret, publicKey, message, signature }) => {
    const key = parseSigningKey(Buffer.from(secret, 'hex').toString('base64'), 'X');
    expect(key.publicKey).toBe(publicKey);
    expect(key.sign(message)).toBe(signature);
    expect(verifyEd25519(publicKey, message, signature)).toBe(true);
    expect(verifyEd25519(publicKey, `${message}x`, signature)).toBe(false);
  });
});

describe('what is no key', () => {
  const rsa = generateKeyPairSync('rsa', { modulusLength: 1_024 }).privateKey.export({ type: 'pkcs8', format: 'pem' }).toString();
  // Its first line is that of a key; what follows is none.
  const broken = `${rsa.split('\n')[0]}\nnonsense\n`;
  test.each([['nothing', ''], ['too short', 'c2hvcnQ='], ['another kind', rsa], ['a broken PEM', broken]])('is refused without being repeated: %s', (_name, text) => {
    let message = '';
    try {
      parseSigningKey(text ?? '', 'WRACKLINE_X');
    } catch (error) {
      expect(error).toBeInstanceOf(ConfigError);
      message = (error as Error).message;
    }
    expect(message).toContain('WRACKLINE_X');
    if (text) expect(message).not.toContain(text.split('\n').at(-2) ?? text);
  });

  test('malformed keys and signatures never verify and never throw', () => {
    const [one] = VECTORS;
    for (const [key, signature] of [['', ''], ['zz', one?.signature ?? ''], [one?.publicKey ?? '', 'aa'], ['f'.repeat(64), one?.signature ?? '']]) expect(verifyEd25519(key ?? '', '', signature ?? '')).toBe(false);
  });
});

describe('the key of an installation', () => {
  test('is made once, readable by its owner alone, also when ten processes start together', async () => {
    const file = join(folder, 'custody-signing-key.pem');
    await Promise.all(Array.from({ length: 10 }, () => ensureSigningKeyFile(file).catch((error: NodeJS.ErrnoException) => { if (error.code !== 'EEXIST') throw error; })));
    const text = await readFile(file, 'utf8');
    expect((await stat(file)).mode & 0o777).toBe(0o600);
    await ensureSigningKeyFile(file);
    expect(await readFile(file, 'utf8')).toBe(text);
    const key = custodySigningKey({ custodySigningKey: null, custodySigningKeyFile: file });
    expect(verifyEd25519(key?.publicKey ?? '', 'a root', key?.sign('a root') ?? '')).toBe(true);
  });

  test('an existing file that is no key is left alone, and said so', async () => {
    const file = join(folder, 'other.pem');
    await writeFile(file, 'not a key');
    await ensureSigningKeyFile(file);
    expect(await readFile(file, 'utf8')).toBe('not a key');
    expect(() => custodySigningKey({ custodySigningKey: null, custodySigningKeyFile: file })).toThrow(ConfigError);
    expect(() => custodySigningKey({ custodySigningKey: null, custodySigningKeyFile: join(folder, 'none.pem') })).toThrow('ENOENT');
  });
});

describe('configuration', () => {
  test('an hour unless told otherwise, and no key of its own', () => {
    expect(loadConfig({})).toMatchObject({ custodyRootMs: 3_600_000, custodySigningKey: null, custodySigningKeyFile: null });
    expect(custodySigningKey(loadConfig({}))).toBeNull();
    expect(loadConfig({ WRACKLINE_CUSTODY_ROOT_MS: '60000' }).custodyRootMs).toBe(60_000);
  });

  test('refuses two keys at once and a period that is none', () => {
    expect(() => loadConfig({ WRACKLINE_CUSTODY_SIGNING_KEY: 'a', WRACKLINE_CUSTODY_SIGNING_KEY_FILE: 'b' })).toThrow(ConfigError);
    expect(() => loadConfig({ WRACKLINE_CUSTODY_ROOT_MS: '10' })).toThrow(ConfigError);
  });
});
