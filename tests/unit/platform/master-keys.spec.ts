import { mkdtemp, readFile, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { addMasterKey, ConfigError, dropOldMasterKeys, ensureMasterKeyFile, loadConfig, masterKeysOf, parseMasterKeys, requireMasterKeys } from '#platform';

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'wl-master-'));
});
afterAll(() => rm(folder, { recursive: true }));

const key = (byte: number) => Buffer.alloc(32, byte).toString('base64');

describe('master keys as given', () => {
  test('the highest version wraps, and earlier ones still open', () => {
    const keys = parseMasterKeys(`1:${key(1)}, 3:${key(3)}\n2:${key(2)}`, 'X');
    expect(keys.newest).toBe(3);
    expect(keys.keyOf(1)).toEqual(Buffer.alloc(32, 1));
    expect(keys.keyOf(4)).toBeNull();
  });

  test('a lone key without a number is version 1', () => expect(parseMasterKeys(key(5), 'X').newest).toBe(1));

  test.each([['nothing', ' \n'], ['too short', '1:c2hvcnQ='], ['one version twice', `1:${key(1)},1:${key(2)}`], ['version 0', `0:${key(1)}`], ['more behind it', `1:${key(1)}x`]])('is refused without being repeated: %s', (_name, text) => {
    const refused = () => parseMasterKeys(text, 'WRACKLINE_X');
    expect(refused).toThrow(ConfigError);
    expect(refused).toThrow('WRACKLINE_X');
    expect(refused).not.toThrow(key(1).slice(0, 20));
  });

  test('nothing starts without one, and both ways at once are refused', () => {
    expect(masterKeysOf(loadConfig({}))).toBeNull();
    expect(() => requireMasterKeys(loadConfig({}))).toThrow(/Set WRACKLINE_MASTER_KEY/);
    expect(() => loadConfig({ WRACKLINE_MASTER_KEY: key(1), WRACKLINE_MASTER_KEY_FILE: 'x' })).toThrow(ConfigError);
    expect(() => requireMasterKeys(loadConfig({ WRACKLINE_MASTER_KEY_FILE: join(folder, 'none') }))).toThrow('ENOENT');
  });
});

describe('the master key of an installation', () => {
  test('is made once, readable by its owner alone, also when ten processes start together', async () => {
    const file = join(folder, 'once');
    await Promise.all(Array.from({ length: 10 }, () => ensureMasterKeyFile(file)));
    const text = await readFile(file, 'utf8');
    await ensureMasterKeyFile(file);
    expect(await readFile(file, 'utf8')).toBe(text);
    expect((await stat(file)).mode & 0o777).toBe(0o600);
    expect(masterKeysOf({ masterKey: null, masterKeyFile: file })?.newest).toBe(1);
  });

  test('a new version is put above the earlier ones, which leave only when they are told to', async () => {
    const file = join(folder, 'rotated');
    await ensureMasterKeyFile(file);
    const first = masterKeysOf({ masterKey: null, masterKeyFile: file });
    const both = await addMasterKey(file);
    expect(both.newest).toBe(2);
    expect(both.keyOf(1)).toEqual(first?.keyOf(1));
    expect((await stat(file)).mode & 0o777).toBe(0o600);
    await dropOldMasterKeys(file);
    const alone = masterKeysOf({ masterKey: null, masterKeyFile: file });
    expect(alone?.keyOf(1)).toBeNull();
    expect(alone?.keyOf(2)).toEqual(both.keyOf(2));
  });
});
