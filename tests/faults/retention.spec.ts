import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { type ChildProcess, fork } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import { createEmptyDatabase, TEST_MASTER_KEY } from '#testing';
import { preview, start } from '../api/startRetention/retention.support.js';
import { setNumber } from '../api/setCalibration/calibration.support.js';
import { OWNER_SAYS_YES, Workbench } from '../api/support/workbench.js';
import { until } from './messaging.harness.js';

/** Real worker processes, killed with kill -9 in the middle of the transaction of a household: before it began to take, and after it took nearly all. */
const NAME = 'Quirbelzast';
const HOUSEHOLDS = 8;

let bench: Workbench;
let queue: Awaited<ReturnType<typeof createEmptyDatabase>>;
const children: ChildProcess[] = [];
const homes: string[] = [];

beforeAll(async () => {
  bench = await Workbench.open();
  queue = await createEmptyDatabase();
});
afterAll(async () => {
  for (const child of children) await killed(child);
  await queue?.drop();
  await bench?.close();
});

async function worker(): Promise<ChildProcess> {
  const { appUrl, relayUrl } = bench.server.database;
  const child = fork(fileURLToPath(new URL('./custody-history.worker.mjs', import.meta.url)), [], {
    env: { PATH: process.env['PATH'] ?? '', WRACKLINE_LOG: 'error', WRACKLINE_MASTER_KEY: TEST_MASTER_KEY, WRACKLINE_FILE_FOLDER: bench.server.filesFolder, DATABASE_URL: appUrl, DATABASE_RELAY_URL: relayUrl, QUEUE_DATABASE_URL: queue.url },
    execArgv: [], stdio: ['ignore', 'inherit', 'inherit', 'ipc'],
  });
  children.push(child);
  const ready = await Promise.race([once(child, 'message').then(() => true), once(child, 'exit').then(() => false)]);
  if (!ready) throw new Error('the worker ended before it was ready');
  return child;
}

async function killed(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  const gone = once(child, 'exit');
  child.kill('SIGKILL');
  await gone;
}

/** What is there of a household, and how far the run is. */
const standsOf = async (id: string) => (await bench.server.admin.query(
  `select (select code from household where id = $1) as code, (select sealed is not null from household_contact where household_id = $1) as contact, (select wrapped is not null from household_key where household_id = $1) as key,
     (select count(*)::int from household_erasure where household_id = $1) as erasures, (select array_agg(description order by id) from item where household_id = $1) as things`, [id])).rows[0] as { code: string; contact: boolean; key: boolean; erasures: number; things: string[] };
const runOf = async (id: string) => (await bench.network.get(`/v1/retention-runs/${id}`).expect(200)).body as { state: string; lookedAt: number; touched: number; erased: number; gone: object };

/** Holds a row, so that the worker stops in the middle of the household's transaction; kills it there; then lets the row go. */
async function killedAt(table: 'household' | 'household_key', householdId: string): Promise<void> {
  const holder = await bench.server.admin.connect();
  try {
    await holder.query('begin');
    await holder.query(`select from ${table} where ${table === 'household' ? 'id' : 'household_id'} = $1 for update`, [householdId]);
    const pid = (await holder.query<{ pid: number }>('select pg_backend_pid() as pid')).rows[0]?.pid;
    const child = await worker();
    await until(`the worker waits for the row of ${table}`, async () => Number((await bench.server.admin.query<{ n: string }>('select count(*) as n from pg_stat_activity where $1 = any(pg_blocking_pids(pid))', [pid])).rows[0]?.n) > 0);
    await killed(child);
  } finally {
    await holder.query('rollback');
    holder.release();
  }
}

test('a worker that is killed in the middle of a run leaves no household half done, and another one ends the run, each household erased once', async () => {
  for (let number = 0; number < HOUSEHOLDS; number += 1) {
    const contact = { name: `${NAME} ${number}`, phone: '', email: '', address: `${NAME} Lane` };
    const { body: household } = await bench.network.post(`/v1/incidents/${bench.incident.id}/households`, { code: `RET-${number}`, contact, consents: OWNER_SAYS_YES }).expect(201);
    const item = await bench.takeIn(household, { description: `Quilt ${number}` });
    await bench.handBack(household, [item.id]).expect(201);
    homes.push(household.id as string);
  }
  expect((await setNumber(bench, 'retention/countFromClosing', 0)).status).toBe(200);
  bench.server.clock.set(bench.server.clock.nowMs() + 800 * 24 * 3_600_000);
  const before = await preview(bench);
  expect(before.totals.erased).toBe(HOUSEHOLDS);
  const id = await start(bench, before.policyRevision);
  const untouched = await Promise.all(homes.map(standsOf));

  for (const [table, at] of [['household', 2], ['household_key', 5]] as const) {
    await killedAt(table, homes[at] ?? '');
    const run = await runOf(id);
    expect([table, run.state, run.erased, run.lookedAt]).toEqual([table, 'running', at, at]);
    for (const [index, home] of homes.entries()) {
      const stands = await standsOf(home);
      // Either all of it has gone and is counted, or it stands as it stood.
      if (index < at) expect(stands).toEqual({ code: `erased-${home}`, contact: false, key: false, erasures: 1, things: ['(erased)'] });
      else expect(stands).toEqual(untouched[index]);
    }
    // As if the time had passed after which a dead run is believed dead.
    await bench.server.admin.query("update outbox set leased_until = null, not_before = null where done_at is null and kind = 'retention.run'");
  }

  await worker();
  await until('the run is done', async () => (await runOf(id)).state === 'done');
  expect(await runOf(id)).toMatchObject({ lookedAt: HOUSEHOLDS, touched: HOUSEHOLDS, erased: HOUSEHOLDS, gone: before.totals.going });
  const { rows } = await bench.server.admin.query<{ household_id: string; n: number }>('select household_id, count(*)::int as n from household_erasure group by 1 order by 1');
  expect(rows).toEqual(homes.toSorted().map((household_id) => ({ household_id, n: 1 })));
  expect((await bench.server.admin.query("select tries > 2 as again, done_at is not null as done from outbox where subject_id = $1 and kind = 'retention.run'", [id])).rows).toEqual([{ again: true, done: true }]);
}, 400_000);
