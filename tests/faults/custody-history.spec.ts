/**
 * Custody under faults on real processes, small: the same command that people run for longer (`npm run soak -- custody`), with the service as
 * it is and then with each seeded bug, which a checker that is worth anything has to name.
 */
import { spawn } from 'node:child_process';
import { chmod, mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { projectRoot } from '#platform';

/** The bugs long enough that several faults of each kind fall in, as one alone may find nothing to lose. */
const SECONDS = { sound: 8, bug: 12 };
const SEED = 20261129;
/** What must be named for each bug, one of these at least. */
const NAMED: Record<string, RegExp> = {
  'no-idempotency-record': /\b(DUPLICATE|REJECTED_BUT_APPLIED) \d/,
  'no-compare-and-set': /\b(SEQ_GAP|TWO_KEEPERS|HASH_BREAK) \d/,
  'answer-before-commit': /\bLOST_ACKED \d/,
  'commit-not-durable': /\bLOST_ACKED \d/,
};
/** Five runs, each with its processes started and at rest again; a busy machine takes most of it. */
const BOUND_MS = 1_500_000;

let lines: string[];
let exitCode: number | null;
/** Where the run makes its folders: nobody else's are among them. */
let folder: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'wl-soak-'));
  // Started by root, the database runs as a user of its own, who must be able to pass through.
  await chmod(folder, 0o711);
  let output = '';
  const soak = spawn(process.execPath, [join(projectRoot(), 'apps', 'ops', 'bootstrap.mjs'), 'soak', 'custody', '--seed', String(SEED), '--seconds', String(SECONDS.sound), '--bug', 'all', '--bug-seconds', String(SECONDS.bug)], { env: { ...process.env, TMPDIR: folder }, stdio: ['ignore', 'pipe', 'pipe'] });
  for (const stream of [soak.stdout, soak.stderr]) stream.on('data', (chunk: Buffer) => (output += chunk.toString()));
  const bound = setTimeout(() => soak.kill('SIGTERM'), BOUND_MS - 30_000);
  exitCode = await new Promise((resolve) => soak.once('exit', resolve));
  clearTimeout(bound);
  lines = output.split('\n');
}, BOUND_MS);
afterAll(() => rm(folder, { recursive: true, force: true }));

function reportOf(name: string): string {
  const line = lines.find((one) => one.startsWith(`${name}:`));
  if (line === undefined) throw new Error(`no report of "${name}":\n${lines.join('\n')}`);
  return line;
}

describe('the service as it is', () => {
  test('every kind of fault struck while commands were sent', () => {
    const numbers = /(\d+) commands, (\d+) ok, \d+ undecided, (\d+) events; faults: (\d+) kill -9 of API processes, (\d+) immediate stops of PostgreSQL, (\d+) times of cutting \((\d+) connections\)/.exec(reportOf('as it is'))?.slice(1).map(Number) ?? [];
    expect(numbers).toHaveLength(7);
    expect(Math.min(...numbers)).toBeGreaterThan(0);
    // Every acknowledged command is one event, and no other one is there.
    expect(numbers[2]).toBe(numbers[1]);
  });

  test('nothing acknowledged is lost, nothing happens twice, and every item has one keeper throughout', () => {
    expect(reportOf('as it is')).toMatch(/violations: none$/);
  });

  test('every command has a definite answer in the end', () => {
    expect(reportOf('as it is')).toContain(' 0 undecided,');
  });
});

test.each(Object.keys(NAMED))('the bug %s is found and named', (bug) => {
  expect(reportOf(`bug ${bug}`)).toMatch(NAMED[bug] ?? /^$/);
});

test('the run succeeds when the service is sound and every bug is found, and leaves nothing behind', async () => {
  expect(lines.filter((line) => line.includes('not found'))).toEqual([]);
  expect(exitCode).toBe(0);
  expect((await readdir(folder)).filter((name) => name.startsWith('wrackline-soak-'))).toEqual([]);
});
