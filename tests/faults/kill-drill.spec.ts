/**
 * The demo day, small, with real processes on a real database, under kill -9: the same command that people run, in a state
 * directory of its own. At the end everything must add up, and Ctrl-C must leave nothing running.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { chmod, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { freePort, projectRoot } from '#platform';

const KILLS = 4;
const SUM = /^received (\d+) = handed back (\d+) \+ released (\d+) \+ referred out (\d+) \+ held frozen (\d+) \+ held wet (\d+) \+ drying (\d+) \+ in work (\d+) \+ waiting (\d+)$/;

let stateDir: string;
let demo: ChildProcess;
let output = '';

beforeAll(async () => {
  stateDir = await mkdtemp(join(tmpdir(), 'wrackline-kill-drill-'));
  // Started by root, the database runs as a user of its own, who must be able to pass through.
  await chmod(stateDir, 0o711);
  const env = { ...process.env, WRACKLINE_STATE_DIR: stateDir, WRACKLINE_PORT: String(await freePort()), DATABASE_URL: '', REDIS_URL: '' };
  demo = spawn(process.execPath, [join(projectRoot(), 'apps', 'ops', 'bootstrap.mjs'), 'demo', '--scale', '0.03', '--kills', String(KILLS), '--apis', '2'], { env, stdio: ['ignore', 'pipe', 'pipe'] });
  demo.stdout?.on('data', (chunk: Buffer) => (output += chunk.toString()));
  demo.stderr?.on('data', (chunk: Buffer) => (output += chunk.toString()));
});

afterAll(async () => {
  if (demo.exitCode === null) demo.kill('SIGKILL');
  await rm(stateDir, { recursive: true, force: true });
});

/** Waits for a line, or tells what came instead. */
async function until(text: string): Promise<string[]> {
  const giveUpAtMs = Date.now() + 1_100_000;
  while (!output.includes(text)) {
    if (demo.exitCode !== null || Date.now() > giveUpAtMs) throw new Error(`"${text}" never came:\n${output.slice(-4_000)}`);
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
  return output.split('\n');
}

test('API and worker processes die by kill -9 in the middle of the day, and nothing is lost or doubled', async () => {
  const lines = await until('Serving until Ctrl-C');
  expect(lines.find((line) => line.startsWith('kill drill:'))).toContain(`${KILLS} kills -9 (${KILLS / 2} of API, ${KILLS / 2} of worker processes)`);
  const sums = lines.flatMap((line) => SUM.exec(line)?.slice(1).map(Number) ?? []);
  expect(sums).toHaveLength(18);
  for (const [received = 0, ...stages] of [sums.slice(0, 9), sums.slice(9)]) {
    expect(received).toBeGreaterThan(10);
    expect(stages.reduce((a, b) => a + b, 0)).toBe(received);
  }
  expect(lines.filter((line) => line === 'items with a number of keepers other than one: 0')).toHaveLength(2);
  expect(lines.filter((line) => line === 'custody chains that fail to verify: 0')).toHaveLength(2);
  expect(lines.filter((line) => line.endsWith("things where the program and the crews' own count differ: 0"))).toHaveLength(2);
  expect(output).not.toContain('DOES NOT RECONCILE');
}, 1_200_000);

test('Ctrl-C ends everything, PostgreSQL included, with exit code 0', async () => {
  await until('Serving until Ctrl-C');
  const ended = new Promise<number | null>((resolve) => demo.once('exit', resolve));
  demo.kill('SIGINT');
  expect(await ended).toBe(0);
  // The server takes its pid file away when it has shut down in order.
  expect(existsSync(join(stateDir, 'demo', 'postgres', 'cluster', 'postmaster.pid'))).toBe(false);
  expect(existsSync(join(stateDir, 'demo', 'postgres'))).toBe(true);
}, 240_000);
