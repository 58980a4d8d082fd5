import { expect, test } from '@jest/globals';
import { handBackCodeFits, makeHandBackCode } from '#platform';

test('a code fits what is kept of it in any spelling, and nothing else does', async () => {
  const { code, kept } = makeHandBackCode();
  const stored = await kept();
  expect(code).toMatch(/^[BCDFGHKMNPQRTVWX2-9]{4}-[BCDFGHKMNPQRTVWX2-9]{4}$/);
  for (const spelt of [code, code.toLowerCase(), code.replace('-', ' '), ` ${code.replace('-', '')} `]) expect(await handBackCodeFits(spelt, stored)).toBe(true);
  for (const wrong of ['', code.slice(0, -1), `${code}2`, makeHandBackCode().code]) expect(await handBackCodeFits(wrong, stored)).toBe(false);
  expect(stored.hash.toString('latin1') + stored.salt.toString('latin1')).not.toContain(code.replace('-', ''));
  expect((await kept()).hash.equals(stored.hash)).toBe(false);
});
