import { spawn } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { chmod, mkdir, mkdtemp, readdir, readFile, realpath, rm, symlink, writeFile } from 'node:fs/promises';
import { createServer } from 'node:net';
import type { Server } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';

import { transformFile } from '@swc/core';
import pg from 'pg';

import { EmbeddedPostgresError, startEmbeddedPostgres, stopOrphan } from '#platform';
import type { EmbeddedPostgres } from '#platform';

const REPO_DIR = fileURLToPath(new URL('../../', import.meta.url));
const SUPERVISOR_DIR = join(REPO_DIR, 'libs/platform/src/embedded');

/** True when these tests run as root, as in CI: the server then runs as another user. */
export const AS_ROOT = process.getuid?.() === 0;

/** A child process that supervises a database, driven by lines on its standard input. */
export interface Supervisor {
  child: ChildProcess;
  /** The next line the child prints, parsed. */
  next(): Promise<Record<string, unknown>>;
  tell(line: string): void;
  ended: Promise<number | null>;
}

/** One temporary folder per test file; everything started through it is ended by `clean`. */
export class Workbench {
  readonly #handles: EmbeddedPostgres[] = [];
  #compiled: Promise<string> | null = null;
  readonly #dataDirs = new Set<string>();
  readonly #children: ChildProcess[] = [];
  readonly #listeners: Server[] = [];
  readonly messages: string[] = [];

  private constructor(readonly dir: string) {}

  static async open(): Promise<Workbench> {
    const dir = await realpath(await mkdtemp(join(tmpdir(), 'wrackline-pg-')));
    // mkdtemp closes it to everyone else, the server's user included.
    await chmod(dir, 0o711);
    return new Workbench(dir);
  }

  /** Starts (or joins) a database in this process. */
  async start(dataDir: string, port?: number): Promise<EmbeddedPostgres> {
    this.#dataDirs.add(dataDir);
    const handle = await startEmbeddedPostgres({ dataDir, port, log: (message) => this.messages.push(message) });
    this.#handles.push(handle);
    return handle;
  }

  /** The error that starting ends with; fails if it starts. */
  async refusal(dataDir: string, port?: number): Promise<EmbeddedPostgresError> {
    try {
      await this.start(dataDir, port);
    } catch (error) {
      if (error instanceof EmbeddedPostgresError) return error;
      throw error;
    }
    throw new Error(`the database in ${dataDir} started, a refusal was expected`);
  }

  /** Occupies a loopback port as a foreign program would. */
  async occupy(port: number): Promise<{ port: number; release(): Promise<void> }> {
    const server = createServer((socket) => socket.destroy());
    this.#listeners.push(server);
    server.listen({ host: '127.0.0.1', port });
    await once(server, 'listening');
    const address = server.address();
    if (address === null || typeof address === 'string') throw new Error('no TCP port');
    return {
      port: address.port,
      release: async () => {
        server.close();
        await once(server, 'close');
      },
    };
  }

  /** Starts a separate Node process, in a process group of its own, that supervises `dataDir`. */
  async supervise(dataDir: string): Promise<Supervisor> {
    this.#dataDirs.add(dataDir);
    const script = await this.compile();
    const child = spawn(process.execPath, [script, dataDir], {
      stdio: ['pipe', 'pipe', 'inherit'],
      detached: true,
      env: { ...process.env, WRACKLINE_TEST_SECRET: 'must-not-reach-the-server' },
    });
    this.#children.push(child);
    const lines = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
    return {
      child,
      ended: once(child, 'exit').then(([code]) => (typeof code === 'number' ? code : null)),
      tell: (line) => child.stdin.write(`${line}\n`),
      next: async () => {
        const { value, done } = await lines.next();
        if (done) throw new Error('the supervising process ended without a word');
        const parsed: Record<string, unknown> = JSON.parse(value);
        return parsed;
      },
    };
  }

  /** Compiles the supervisor beside a driver script, once, so that plain Node can run it; answers the script. */
  compile(nodeModules: string = join(REPO_DIR, 'node_modules')): Promise<string> {
    // Two that start at the same moment wait for the same files.
    this.#compiled ??= this.compileTo(join(this.dir, 'driver.mjs'), nodeModules);
    return this.#compiled;
  }

  private async compileTo(script: string, nodeModules: string): Promise<string> {
    const libDir = join(this.dir, 'lib');
    await mkdir(libDir, { recursive: true });
    await writeFile(join(this.dir, 'package.json'), '{"type":"module"}');
    await symlink(nodeModules, join(this.dir, 'node_modules'));
    for (const name of await readdir(SUPERVISOR_DIR)) {
      const { code } = await transformFile(join(SUPERVISOR_DIR, name), {
        jsc: { parser: { syntax: 'typescript' }, target: 'es2022' },
        module: { type: 'es6' },
      });
      await writeFile(join(libDir, name.replace(/\.ts$/, '.js')), code);
    }
    await writeFile(script, DRIVER);
    return script;
  }

  /** Ends everything that was started and removes the folder. */
  async clean(): Promise<void> {
    for (const child of this.#children) if (child.exitCode === null) child.kill('SIGKILL');
    for (const handle of this.#handles) await handle.stop();
    for (const dataDir of this.#dataDirs) await stopOrphan(dataDir).catch(() => undefined);
    for (const listener of this.#listeners) listener.close();
    await rm(this.dir, { recursive: true, force: true });
  }
}

/** Runs one query on its own connection. */
export async function query<Row extends pg.QueryResultRow>(url: string, sql: string): Promise<Row[]> {
  const client = new pg.Client({ connectionString: url, connectionTimeoutMillis: 30_000 });
  client.on('error', () => undefined);
  await client.connect();
  try {
    return (await client.query<Row>(sql)).rows;
  } finally {
    await client.end();
  }
}

/** Process number of the server, as the server itself recorded it. */
export async function serverPid(dataDir: string): Promise<number> {
  const text = await readFile(join(dataDir, 'cluster', 'postmaster.pid'), 'utf8');
  return Number.parseInt(text, 10);
}

// Prints one JSON line per event. On SIGINT it does what a real service does: finishes its work with
// the database first, and stops the database last.
const DRIVER = `
import pg from 'pg';
import { startEmbeddedPostgres } from './lib/index.js';
const say = (event) => process.stdout.write(JSON.stringify(event) + '\\n');
process.on('SIGINT', async () => {
  await new Promise((resolve) => setTimeout(resolve, 500));
  const client = new pg.Client({ connectionString: database.adminUrl });
  await client.connect();
  const { rows } = await client.query('select 41 + 1 as answer');
  await client.end();
  await database.stop();
  say({ event: 'finished', answer: rows[0].answer });
  process.exit(0);
});
const database = await startEmbeddedPostgres({ dataDir: process.argv[2], log: () => undefined });
say({ event: 'ready', url: database.adminUrl, port: database.port, adopted: database.adopted });
process.stdin.on('data', async (text) => {
  if (!String(text).includes('stop')) return;
  await database.stop();
  say({ event: 'stopped' });
  process.exit(0);
});
`;
