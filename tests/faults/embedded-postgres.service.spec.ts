/**
 * The service as people start it, with its database killed under it: it serves again by itself; and when the database
 * cannot run any more, the service ends with a failure instead of answering 503 for ever.
 */
import { type ChildProcess, execFile, spawn } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { once } from 'node:events';
import { chmod, mkdtemp, rename, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { promisify } from 'node:util';
import { afterAll, beforeAll, expect, jest, test } from '@jest/globals';
import { freePort, projectRoot, stopOrphan } from '#platform';
import { incidentDocument } from '#testing';
import { serverPid } from './embedded-postgres.harness.js';

const run = promisify(execFile);
const BOOTSTRAP = join(projectRoot(), 'apps', 'ops', 'bootstrap.mjs');

jest.setTimeout(240_000);

let stateDir: string;
let env: NodeJS.ProcessEnv;
let service: ChildProcess;
let output = '';
let url: string;
let key: string;
let incidentId: string;

beforeAll(async () => {
  stateDir = await mkdtemp(join(tmpdir(), 'wrackline-service-'));
  // Started by root, the database runs as a user of its own, who must be able to pass through.
  await chmod(stateDir, 0o711);
  const port = await freePort();
  env = { ...process.env, WRACKLINE_STATE_DIR: stateDir, WRACKLINE_PORT: String(port), WRACKLINE_LOG: 'error', DATABASE_URL: '', REDIS_URL: '' };
  service = spawn(process.execPath, [BOOTSTRAP, 'start'], { env, stdio: ['ignore', 'pipe', 'pipe'] });
  for (const stream of [service.stdout, service.stderr]) stream?.on('data', (chunk: Buffer) => (output += chunk.toString()));
  url = `http://127.0.0.1:${port}`;
  await until('the service is up', async () => output.includes(`API: ${url}`));
  const { stdout } = await run(process.execPath, [BOOTSTRAP, 'create-network', 'Service'], { env });
  key = /^key (\S+)$/m.exec(stdout)?.[1] ?? '';
  const created = await call('POST', '/v1/incidents', incidentDocument());
  expect(created.status).toBe(201);
  incidentId = String(created.body['id']);
});

afterAll(async () => {
  if (service.exitCode === null) service.kill('SIGKILL');
  await stopOrphan(join(stateDir, 'postgres')).catch(() => undefined);
  await rm(stateDir, { recursive: true, force: true });
});

async function until(what: string, holds: () => Promise<boolean>): Promise<void> {
  const deadline = Date.now() + 90_000;
  while (!(await holds())) {
    if (service.exitCode !== null || Date.now() > deadline) throw new Error(`waited in vain until ${what}:\n${output.slice(-4_000)}`);
    await sleep(100);
  }
}

interface Answer {
  status: number;
  body: Record<string, unknown>;
}

async function call(method: string, path: string, body?: unknown, idempotencyKey = randomUUID()): Promise<Answer> {
  const headers: Record<string, string> = { authorization: `Bearer ${key}`, 'idempotency-key': idempotencyKey, ...(body === undefined ? {} : { 'content-type': 'application/json' }) };
  const answer = await fetch(url + path, { method, headers, ...(body === undefined ? {} : { body: JSON.stringify(body) }) });
  return { status: answer.status, body: (await answer.json()) as Record<string, unknown> };
}

const databaseDir = () => join(stateDir, 'postgres');

test('after kill -9 of the database the incident is still there, a new command is carried out once, and the worker plans again', async () => {
  process.kill(await serverPid(databaseDir()), 'SIGKILL');
  const command = randomUUID();
  const answers: Answer[] = [];
  await until('the command is accepted', async () => {
    answers.push(await call('POST', `/v1/incidents/${incidentId}/plan-runs`, { reason: 'after the fall' }, command));
    return answers.at(-1)?.status === 202;
  });
  // Whoever asks while it is down is told to ask again, and nothing else.
  expect(answers.slice(0, -1).filter(({ status, body }) => status !== 503 || body['code'] !== 'unavailable')).toEqual([]);
  const again = await call('POST', `/v1/incidents/${incidentId}/plan-runs`, { reason: 'after the fall' }, command);
  expect(again.body['id']).toBe(answers.at(-1)?.body['id']);
  const incident = await call('GET', `/v1/incidents/${incidentId}`);
  expect(incident).toMatchObject({ status: 200, body: { id: incidentId } });
  let planRun: Answer | null = null;
  await until('the worker has made the plan', async () => {
    planRun = await call('GET', `/v1/plan-runs/${String(again.body['id'])}`);
    return planRun.body['state'] === 'done' || planRun.body['state'] === 'failed';
  });
  expect(planRun).toMatchObject({ status: 200, body: { state: 'done', failure: null } });
  expect(output).toContain('PostgreSQL ended by itself (SIGKILL); it is started again.');
  const { stdout } = await run(process.execPath, [BOOTSTRAP, 'outbox'], { env });
  expect(stdout).toMatch(/^open: \d+.*\ndead: 0\n$/);
});

test('a database that cannot run any more ends the service with exit code 1 and a sentence that says why', async () => {
  const ended = once(service, 'exit');
  const control = join(databaseDir(), 'cluster', 'global', 'pg_control');
  await rename(control, `${control}.away`);
  process.kill(await serverPid(databaseDir()), 'SIGKILL');
  expect((await ended)[0]).toBe(1);
  expect(output).toMatch(/could not be kept running in 4 tries.*pg_control/s);
});
