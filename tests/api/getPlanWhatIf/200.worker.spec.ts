/** The whole way: request, outbox, queue, the worker program with its planner threads, answer. */
import { type ChildProcess, fork } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { projectRoot } from '#platform';
import { createEmptyDatabase, startTestServer, TEST_MASTER_KEY, type TestServer } from '#testing';
import { ask, livePlan, shortOfFreezer } from '../support/what-ifs.js';

let server: TestServer;
let queue: Awaited<ReturnType<typeof createEmptyDatabase>>;
let folder: string;
const workers: ChildProcess[] = [];

beforeAll(async () => {
  server = await startTestServer();
  queue = await createEmptyDatabase();
  folder = await mkdtemp(join(tmpdir(), 'wl-what-if-'));
  await writeFile(join(folder, 'clock.json'), JSON.stringify({ nowMs: server.clock.nowMs() }));
});
afterAll(async () => {
  for (const worker of workers) await ended(worker, 'SIGTERM');
  await queue.drop();
  await rm(folder, { recursive: true, force: true });
  await server.close();
});

async function ended(worker: ChildProcess, signal: NodeJS.Signals): Promise<void> {
  if (worker.exitCode !== null || worker.signalCode !== null) return;
  const gone = once(worker, 'exit');
  worker.kill(signal);
  await gone;
}

async function startWorkerProgram(): Promise<ChildProcess> {
  const env = { PATH: process.env['PATH'] ?? '', WRACKLINE_LOG: 'warn', WRACKLINE_MASTER_KEY: TEST_MASTER_KEY, WRACKLINE_PLAN_ITERATIONS: '200', DATABASE_URL: server.database.appUrl, DATABASE_RELAY_URL: server.database.relayUrl, QUEUE_DATABASE_URL: queue.url };
  const worker = fork(join(projectRoot(), 'dist/apps/worker/src/main.js'), [], { env, execArgv: [], stdio: ['ignore', 'inherit', 'inherit', 'ipc'] });
  workers.push(worker);
  await Promise.race([once(worker, 'message'), once(worker, 'exit').then(() => Promise.reject(new Error('the worker ended before it was ready')))]);
  return worker;
}

/** Reads until it is so, or until the test's own time is up: how long other processes take says nothing here. */
async function until(read: () => Promise<{ state: string }>, isSo: (state: string) => boolean): Promise<void> {
  while (!isSo((await read()).state)) await sleep(50);
}

test('a real worker answers with numbers, also after one was killed in the middle, and the live plan is what it was', async () => {
  const { network, incident } = await shortOfFreezer(server);
  await server.admin.query("update outbox set done_at = clock_timestamp() where kind <> 'plan.what_if' and done_at is null");
  const before = await livePlan(server, incident.id);
  // By the clock of the worker: what is asked for must lie ahead of it.
  const id = await ask(network, incident, { changes: [{ kind: 'freezer', siteId: incident.site(), volumeL: 500 }, { kind: 'freezer', siteId: incident.site(), volumeL: 40 }] });
  const read = async () => (await network.get(`/v1/plan-what-ifs/${id}`).expect(200)).body;
  const first = await startWorkerProgram();
  await until(read, (state) => state !== 'queued');
  await ended(first, 'SIGKILL');
  const broken = await read();
  expect(['running', 'done']).toContain(broken.state);
  await server.admin.query("update outbox set leased_until = clock_timestamp() where kind = 'plan.what_if' and done_at is null");
  await startWorkerProgram();
  await until(read, (state) => state === 'done' || state === 'failed');
  const done = await read();
  expect(done).toMatchObject({ state: 'done', plansDone: 9, plansInAll: 9 });
  const [large, small] = done.result.values;
  expect(done.result.weightNotInTime.least).toBeGreaterThanOrEqual(large.weightSaved.greatest);
  expect(large.weightSaved.least).toBeGreaterThanOrEqual(small.weightSaved.greatest);
  expect(await livePlan(server, incident.id)).toEqual(before);
}, 300_000);
