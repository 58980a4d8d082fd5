import { createHash } from 'node:crypto';
import { describe, expect, test } from '@jest/globals';
import { makeApiKey, parseApiKey } from '#platform';

describe('makeApiKey and parseApiKey', () => {
  test('a key that was made is read again, with the hash that is stored', () => {
    const made = makeApiKey();
    expect(made.text).toMatch(/^wk_[0-9a-hjkmnp-tv-z]{8}_[A-Za-z0-9_-]{43}$/);
    expect(parseApiKey(made.text)).toEqual({ prefix: made.prefix, secretSha256Hex: Buffer.from(made.secretSha256).toString('hex') });
    expect(Buffer.from(made.secretSha256)).toEqual(createHash('sha256').update(made.text).digest());
  });

  test('a thousand keys differ in prefix and secret, and use every letter of the alphabet', () => {
    const made = Array.from({ length: 1_000 }, () => makeApiKey());
    expect(new Set(made.map((key) => key.text.slice(12))).size).toBe(1_000);
    expect(new Set(made.map((key) => key.prefix)).size).toBe(1_000);
    expect(new Set(made.flatMap((key) => [...key.prefix])).size).toBe(32);
  });

  test('one changed character gives another hash', () => {
    const { text } = makeApiKey();
    const other = `${text.slice(0, -1)}${text.endsWith('A') ? 'B' : 'A'}`;
    expect(parseApiKey(other)?.secretSha256Hex).not.toBe(parseApiKey(text)?.secretSha256Hex);
  });

  const secret = 'A'.repeat(43);
  test.each(['', 'wk_', `wk_0123456_${secret}`, `wk_0123456i_${secret}`, `wk_ABCDEFGH_${secret}`, `wk_01234567_${secret}A`, `wk_01234567_${secret.slice(1)}`, `wk_01234567_${secret.slice(1)}+`, ` wk_01234567_${secret}`, `wk_01234567_${secret}\n`, `xk_01234567_${secret}`])('%j was never a key', (text) => {
    expect(parseApiKey(text)).toBeNull();
  });
});
