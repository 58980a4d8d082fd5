import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, expect, test } from '@jest/globals';
import { ThreadPool, type ThreadPoolOptions } from '../../../apps/api/src/threads/thread-pool.js';

type Task = { say: unknown } | { spin: SharedArrayBuffer } | { wait: SharedArrayBuffer } | { crash: true } | { exit: number };

/** Says back, counts up without end, waits to be let go, throws, or ends. */
const PROGRAM = `
import { parentPort } from 'node:worker_threads';
parentPort.on('message', (task) => {
  if ('spin' in task) for (const seen = new Int32Array(task.spin); ; ) Atomics.add(seen, 0, 1);
  if ('wait' in task) {
    const gate = new Int32Array(task.wait);
    Atomics.store(gate, 1, 1);
    Atomics.notify(gate, 1);
    Atomics.wait(gate, 0, 0);
  }
  if ('crash' in task) throw new Error('broken on purpose');
  if ('exit' in task) process.exit(task.exit);
  parentPort.postMessage({ said: task.say ?? null });
});
`;

let folder: string;
let file: string;
let pool: ThreadPool<Task, { said: unknown }>;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'thread-pool-'));
  file = join(folder, 'program.mjs');
  await writeFile(file, PROGRAM);
});
afterEach(() => pool.close());
afterAll(() => rm(folder, { recursive: true }));

const open = (options: Partial<ThreadPoolOptions> = {}) => (pool = new ThreadPool({ file, graceMs: 0, ...options }));
const unavailable = (detail: RegExp) => ({ code: 'unavailable', detail: expect.stringMatching(detail), extras: { retryAfterS: expect.any(Number) } });

/** A question that runs until it is let go. */
function gate(): { task: Task; open(): void; begun(): Promise<void> } {
  const memory = new SharedArrayBuffer(8);
  const cells = new Int32Array(memory);
  return {
    task: { wait: memory },
    open: () => {
      Atomics.store(cells, 0, 1);
      Atomics.notify(cells, 0);
    },
    begun: async () => {
      while (Atomics.load(cells, 1) === 0) await new Promise((resolve) => setTimeout(resolve, 5));
    },
  };
}

async function begunSpin(spin: Int32Array): Promise<void> {
  while (Atomics.load(spin, 0) === 0) await new Promise((resolve) => setTimeout(resolve, 5));
}

test('no thread lives before the first question; one is started, and kept for the next', async () => {
  open();
  expect(pool.load).toEqual({ threads: 0, running: 0, waiting: 0 });
  expect(await pool.ask('a', { say: 1 })).toEqual({ said: 1 });
  expect(await pool.ask('b', { say: { deep: [Number.NaN, undefined, Infinity] } })).toEqual({ said: { deep: [Number.NaN, undefined, Infinity] } });
  expect(pool.load).toEqual({ threads: 1, running: 0, waiting: 0 });
});

test('one question of a network runs at a time, so that another network finds a thread at once', async () => {
  open({ threads: 2 });
  const slow = gate();
  const answered: string[] = [];
  const first = pool.ask('a', slow.task).then(() => answered.push('a slow'));
  const second = pool.ask('a', { say: 2 }).then(() => answered.push('a second'));
  await slow.begun();
  expect(pool.load).toMatchObject({ running: 1, waiting: 1 });
  await pool.ask('b', { say: 3 });
  answered.push('b');
  slow.open();
  await Promise.all([first, second]);
  expect(answered).toEqual(['b', 'a slow', 'a second']);
});

test('one network has half of the places: its next question is refused with a time to ask again, those of others are not, until all places are taken', async () => {
  open({ threads: 1, places: 4 });
  const slow = gate();
  const asked = [pool.ask('a', slow.task), pool.ask('a', { say: 1 })];
  await expect(pool.ask('a', { say: 2 })).rejects.toMatchObject(unavailable(/Too many questions/));
  asked.push(pool.ask('b', { say: 3 }), pool.ask('c', { say: 4 }));
  await expect(pool.ask('d', { say: 5 })).rejects.toMatchObject(unavailable(/Too many questions/));
  await slow.begun();
  slow.open();
  expect(await Promise.all(asked)).toEqual([{ said: null }, { said: 1 }, { said: 3 }, { said: 4 }]);
});

test('a thread that throws or ends takes only its own question with it; the next one is answered', async () => {
  open({ threads: 1 });
  const settled = await Promise.allSettled([pool.ask('a', { crash: true }), pool.ask('b', { say: 1 }), pool.ask('c', { exit: 3 }), pool.ask('d', { say: 2 })]);
  expect(settled.map((one) => (one.status === 'fulfilled' ? one.value : (one.reason as Error).message))).toEqual([
    expect.stringMatching(/broken on purpose$/), { said: 1 }, 'a thread of the API ended with 3 before it answered', { said: 2 },
  ]);
});

test('a program that cannot be started refuses each question instead of leaving it', async () => {
  open({ file: join(folder, 'none.mjs') });
  for (const question of [1, 2]) await expect(pool.ask('a', { say: question })).rejects.toThrow(/none\.mjs/);
  expect(pool.load).toEqual({ threads: 0, running: 0, waiting: 0 });
});

test('what cannot be sent to a thread is refused, and the thread is free for the next question', async () => {
  open({ threads: 1 });
  await expect(pool.ask('a', { say: () => 1 })).rejects.toThrow(/could not be cloned/);
  expect(await pool.ask('a', { say: 1 })).toEqual({ said: 1 });
});

test('a question without an answer in its time is given up and its thread stops; one that waited as long is too', async () => {
  open({ threads: 1, timeoutMs: 400 });
  const spin = new SharedArrayBuffer(4);
  const counted = new Int32Array(spin);
  const late = pool.ask('a', { spin });
  const behind = pool.ask('a', { say: 1 });
  await Promise.all([
    expect(late).rejects.toMatchObject(unavailable(/not reckoned within 0\.4 s/)),
    expect(behind).rejects.toMatchObject(unavailable(/not reckoned within 0\.4 s/)),
  ]);
  await pool.close();
  await new Promise((resolve) => setTimeout(resolve, 50));
  const then = Atomics.load(counted, 0);
  await new Promise((resolve) => setTimeout(resolve, 100));
  expect(Atomics.load(counted, 0)).toBe(then);
});

test('a close refuses what waits at once, lets what runs finish within the grace, and ends every thread', async () => {
  open({ threads: 1, graceMs: 30_000 });
  const slow = gate();
  const running = pool.ask('a', slow.task);
  const waiting = pool.ask('b', { say: 1 });
  await slow.begun();
  const closed = pool.close();
  await expect(waiting).rejects.toMatchObject(unavailable(/restarted/));
  await expect(pool.ask('c', { say: 2 })).rejects.toMatchObject(unavailable(/restarted/));
  slow.open();
  expect(await running).toEqual({ said: null });
  await closed;
  expect(pool.load).toEqual({ threads: 0, running: 0, waiting: 0 });
});

test('what outlives the grace is refused, and its thread is gone when the close is done', async () => {
  open({ threads: 1, graceMs: 50 });
  const spin = new SharedArrayBuffer(4);
  const counted = new Int32Array(spin);
  const running = expect(pool.ask('a', { spin })).rejects.toMatchObject(unavailable(/restarted/));
  await begunSpin(counted);
  await pool.close();
  await running;
  const then = Atomics.load(counted, 0);
  await new Promise((resolve) => setTimeout(resolve, 100));
  expect(Atomics.load(counted, 0)).toBe(then);
});
