import { randomBytes } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { chmod, link, readFile, rename, unlink, writeFile } from 'node:fs/promises';
import { type Config, ConfigError } from './config.js';

/** The keys above all keys of personal data. They come from configuration and are never in the database. */
export interface MasterKeys {
  /** The version that wraps from now on: the highest given. */
  readonly newest: number;
  /** 32 bytes; null when this version is not given (any more). */
  keyOf(version: number): Buffer | null;
}

const KEY_BYTES = 32;
const ENTRY = /^(?:([1-9][0-9]{0,8}):)?([A-Za-z0-9+/_-]{43}=?)$/;

/**
 * `1:<base64 of 32 random bytes>`, several of them divided by commas or white space; a lone key without a number is version 1.
 * @throws ConfigError when that is not what it is; the text itself is never repeated.
 */
export function parseMasterKeys(text: string, name: string): MasterKeys {
  const entries = text.split(/[\s,]+/).filter((entry) => entry !== '');
  const keys = new Map<number, Buffer>();
  for (const entry of entries) {
    const [, version = '1', base64 = ''] = ENTRY.exec(entry) ?? [];
    const key = Buffer.from(base64, 'base64');
    if (key.length !== KEY_BYTES || keys.has(Number(version))) throw new ConfigError(`${name}: ${SHAPE}`);
    keys.set(Number(version), key);
  }
  if (keys.size === 0) throw new ConfigError(`${name}: ${SHAPE}`);
  return { newest: Math.max(...keys.keys()), keyOf: (version) => keys.get(version) ?? null };
}

const SHAPE = 'give each master key as version:base64 of 32 random bytes (1:$(openssl rand -base64 32)), each version once, divided by commas or new lines.';

/** The master keys as configured; null when none is. */
export function masterKeysOf(config: Pick<Config, 'masterKey' | 'masterKeyFile'>): MasterKeys | null {
  if (config.masterKey !== null) return parseMasterKeys(config.masterKey, 'WRACKLINE_MASTER_KEY');
  if (config.masterKeyFile === null) return null;
  return parseMasterKeys(textOf(config.masterKeyFile), 'WRACKLINE_MASTER_KEY_FILE');
}

/** @throws ConfigError that says what to set; without a master key nothing of a household can be read or written. */
export function requireMasterKeys(config: Pick<Config, 'masterKey' | 'masterKeyFile'>): MasterKeys {
  const keys = masterKeysOf(config);
  if (keys === null) {
    throw new ConfigError('Set WRACKLINE_MASTER_KEY or WRACKLINE_MASTER_KEY_FILE (1:$(openssl rand -base64 32)), the same for every process: personal data is sealed with it. Keep a copy apart from the database; without it the data is lost.');
  }
  return keys;
}

function textOf(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch (error) {
    throw new ConfigError(`WRACKLINE_MASTER_KEY_FILE cannot be read (${(error as NodeJS.ErrnoException).code ?? 'unknown'}).`);
  }
}

/** Makes the master key of an installation, readable by its owner alone, unless it is there. Never overwrites one: everything sealed under it would be lost. */
export async function ensureMasterKeyFile(file: string): Promise<void> {
  const there = await readFile(file, 'utf8').catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return null;
    throw error;
  });
  if (there !== null) return;
  const fresh = await writeAside(file, `${freshEntry(1)}\n`);
  try {
    // A link fails where a file is, so that of two that start together one wins and both use its key.
    await link(fresh, file).catch((error: NodeJS.ErrnoException) => {
      if (error.code !== 'EEXIST') throw error;
    });
  } finally {
    await unlink(fresh);
  }
}

/** Puts one more version into the file, above the newest one; the earlier ones stay. */
export async function addMasterKey(file: string): Promise<MasterKeys> {
  const text = await readFile(file, 'utf8');
  const { newest } = parseMasterKeys(text, file);
  const all = `${text.trim().replace(/^(?![1-9][0-9]*:)/, '1:')}\n${freshEntry(newest + 1)}\n`;
  await rename(await writeAside(file, all), file);
  return parseMasterKeys(all, file);
}

/** Takes all versions but the newest out of the file; only after every network key was wrapped by it. */
export async function dropOldMasterKeys(file: string): Promise<void> {
  const keys = parseMasterKeys(await readFile(file, 'utf8'), file);
  const newest = keys.keyOf(keys.newest);
  if (newest !== null) await rename(await writeAside(file, `${keys.newest}:${newest.toString('base64')}\n`), file);
}

const freshEntry = (version: number): string => `${version}:${randomBytes(KEY_BYTES).toString('base64')}`;

async function writeAside(file: string, text: string): Promise<string> {
  const fresh = `${file}.${process.pid}.${randomBytes(4).toString('hex')}.new`;
  await writeFile(fresh, text, { mode: 0o600, flag: 'wx', flush: true });
  await chmod(fresh, 0o600);
  return fresh;
}
