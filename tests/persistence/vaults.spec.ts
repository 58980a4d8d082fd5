import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { randomBytes } from 'node:crypto';
import { mkdir, mkdtemp, readdir, rm, stat, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { FileVault } from '#application';
import { createVault, LocalVault, S3Vault } from '#persistence';
import { ConfigError, freePort, loadConfig } from '#platform';

/** The real server of the package, on loopback. */
interface S3Server {
  run(): Promise<unknown>;
  close(): Promise<void>;
}
const S3rver = createRequire(import.meta.url)('s3rver') as new (options: object) => S3Server;

let folder: string;
let server: S3Server;
let s3: S3Vault;
const vaults: Record<string, FileVault> = {};

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'wl-vaults-'));
  const port = await freePort();
  server = new S3rver({ address: '127.0.0.1', port, silent: true, directory: join(folder, 's3'), configureBuckets: [{ name: 'salvage', configs: [] }] });
  await server.run();
  s3 = new S3Vault({ bucket: 'salvage', endpoint: `http://127.0.0.1:${port}`, region: 'us-east-1', accessKeyId: 'S3RVER', secretAccessKey: 'S3RVER', pathStyle: true, prefix: 'wrackline/' });
  vaults['a folder'] = new LocalVault(join(folder, 'local'));
  vaults['a store that speaks S3'] = s3;
});
afterAll(async () => {
  s3?.close();
  await server?.close();
  await rm(folder, { recursive: true, force: true });
});

const name = () => randomBytes(32).toString('hex');

describe.each(['a folder', 'a store that speaks S3'])('in %s', (kind) => {
  const vault = () => vaults[kind] as FileVault;

  test('what is put is got back, byte for byte, until it is deleted', async () => {
    for (const bytes of [Buffer.alloc(1, 7), randomBytes(100_000), randomBytes(3_000_000)]) {
      const own = name();
      expect(await vault().get(own)).toBeNull();
      expect(await vault().stat(own)).toBeNull();
      await vault().put(own, bytes);
      expect(await vault().stat(own)).toEqual({ bytes: bytes.length });
      expect(Buffer.from((await vault().get(own)) ?? []).equals(bytes)).toBe(true);
      await vault().delete(own);
      expect(await vault().get(own)).toBeNull();
    }
  }, 60_000);

  test('deleting what is not there is no trouble, and many at the same time do not mix', async () => {
    await vault().delete(name());
    const all = Array.from({ length: 20 }, () => [name(), randomBytes(5_000)] as const);
    await Promise.all(all.map(([own, bytes]) => vault().put(own, bytes)));
    for (const [own, bytes] of all) expect(Buffer.from((await vault().get(own)) ?? []).equals(bytes)).toBe(true);
  });
});

test('what a killed run has left half written goes with its name, and is in the way of nothing', async () => {
  const vault = new LocalVault(join(folder, 'halves'));
  const [half, again, whole] = [name(), name(), randomBytes(200_000)];
  for (const own of [half, again]) {
    await mkdir(join(folder, 'halves', own.slice(0, 2)), { recursive: true });
    await writeFile(join(folder, 'halves', own.slice(0, 2), `${own}.new`), randomBytes(300_000));
    expect(await vault.get(own)).toBeNull();
  }
  await vault.put(again, whole);
  expect(Buffer.from((await vault.get(again)) ?? []).equals(whole)).toBe(true);
  await vault.delete(half);
  const left = (await readdir(join(folder, 'halves'), { recursive: true, withFileTypes: true })).filter((entry) => entry.isFile()).map((entry) => entry.name);
  expect(left).toEqual([again]);
});

test('a folder can be entered by its user only, and no name leads out of it', async () => {
  const vault = new LocalVault(join(folder, 'modes'));
  const own = name();
  await vault.put(own, Buffer.alloc(4));
  expect((await stat(join(folder, 'modes'))).mode & 0o777).toBe(0o700);
  expect((await stat(join(folder, 'modes', own.slice(0, 2), own))).mode & 0o777).toBe(0o600);
  for (const wrong of ['../escape', `${own}/..`, '', own.toUpperCase(), `${own}0`]) await expect(vault.put(wrong, Buffer.alloc(1))).rejects.toThrow('not the name');
  // No draft is left beside what was put.
  expect(await readdir(join(folder, 'modes', own.slice(0, 2)))).toEqual([own]);
});

test('trouble of the store is trouble, never an empty answer', async () => {
  const away = new S3Vault({ bucket: 'salvage', endpoint: `http://127.0.0.1:${await freePort()}`, region: 'us-east-1', accessKeyId: 'a', secretAccessKey: 'b', pathStyle: true, prefix: '' });
  await expect(away.get(name())).rejects.toThrow();
  away.close();
  await expect(new LocalVault('/dev/null/no-folder').put(name(), Buffer.alloc(1))).rejects.toThrow();
}, 30_000);

describe('by configuration', () => {
  const bucket = { WRACKLINE_S3_BUCKET: 'b', WRACKLINE_S3_ACCESS_KEY_ID: 'id', WRACKLINE_S3_SECRET_ACCESS_KEY: 'secret' };

  test('a folder in the state directory is the default, and a bucket is used where one is named; no secret stands in its place', () => {
    expect(createVault(loadConfig({ WRACKLINE_STATE_DIR: '/srv/wrackline' })).place).toBe('folder /srv/wrackline/files');
    const { place } = createVault(loadConfig({ ...bucket, WRACKLINE_S3_ENDPOINT: 'https://store.example' }));
    expect(place).toBe('bucket b at https://store.example');
    expect(place).not.toContain('secret');
  });

  test.each([[{ WRACKLINE_S3_BUCKET: 'b' }], [{ ...bucket, WRACKLINE_FILE_FOLDER: '/srv/wrackline' }], [{ WRACKLINE_FILE_PHOTOGRAPH_MB: '0' }], [{ ...bucket, WRACKLINE_S3_ENDPOINT: 'store' }]])('%j is refused', (env) => {
    expect(() => loadConfig(env as unknown as NodeJS.ProcessEnv)).toThrow(ConfigError);
  });
});
