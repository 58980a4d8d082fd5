import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, jest, test } from '@jest/globals';
import { projectRoot } from '#platform';
import { startWorker } from '../../apps/worker/src/start-worker.js';
import { Bench, type Tenant, until } from './messaging.harness.js';

// Each wait inside is bounded by itself; this only keeps a busy machine from failing a sound run.
jest.setTimeout(240_000);

let bench: Bench;

beforeAll(async () => {
  bench = await Bench.open('PostgreSQL');
});
afterEach(() => bench.clear());
afterAll(() => bench.close());

const set = (change: string, ids: string[]) => bench.database.admin.query(`update outbox set ${change} where id = any($1)`, [ids]);

describe('the worker', () => {
  const nothing = async () => undefined;
  const idle = () => ({ handlers: { 'plan.requested': nothing, 'plan.what_if': nothing, 'intake_import.submitted': nothing, 'rule_book.chosen': nothing, 'climate.readings': nothing, 'climate.tick': nothing, 'custody.root': nothing, 'hand_over.due': nothing, 'family.look': nothing, 'family.message': nothing, 'sight.look': nothing, 'file.check': nothing, 'file.sweep': nothing, 'personal.seal': nothing, 'retention.run': nothing, 'retention.look': nothing, 'family.news': nothing }, giveUps: { 'plan.requested': nothing, 'plan.what_if': nothing, 'intake_import.submitted': nothing, 'rule_book.chosen': nothing, 'climate.readings': nothing, 'climate.tick': nothing, 'custody.root': nothing, 'hand_over.due': nothing, 'family.look': nothing, 'family.message': nothing, 'sight.look': nothing, 'file.check': nothing, 'file.sweep': nothing, 'personal.seal': nothing, 'retention.run': nothing, 'retention.look': nothing, 'family.news': nothing } });

  test('removes rows that were done longer ago than is kept, batch by batch, and no others', async () => {
    const tenants = [await bench.tenant(), await bench.tenant()];
    const old = (await Promise.all(tenants.map((tenant) => bench.append(tenant, 12)))).flat();
    const kept = (await Promise.all(tenants.map((tenant) => bench.append(tenant, 3)))).flat();
    await bench.database.admin.query("update outbox set created_at = now() - interval '40 days', leased_until = now() + interval '1 hour'");
    await set("done_at = now() - interval '4 days'", old);
    await set("done_at = now() - interval '2 days'", kept.slice(0, 2));
    await set("dead_at = now() - interval '30 days', dead_reason = 'test'", kept.slice(2, 4));
    const worker = await startWorker(bench.config({ outboxKeepDays: 3 }), bench.logger(), idle, { tuning: { upkeepMs: 100, pruneBatch: 5 } });
    await until('the old rows are gone', async () => (await bench.count('id = any($1)', [old])) === 0);
    // A round that finds nothing more to remove.
    await until('a further round is told', async () => bench.log.some((line) => line.includes('"pruned":0')));
    await worker.stop();
    expect(await bench.count('id = any($1)', [kept])).toBe(kept.length);
  });

  test('tells the operator in its log what waits, for how long, and what was given up, and names no network', async () => {
    const tenant = await bench.tenant();
    const [waits = '', dead = ''] = await bench.append(tenant, 2);
    await set("created_at = now() - interval '3 hours', leased_until = now() + interval '1 hour'", [waits]);
    await set("dead_at = now(), dead_reason = 'test'", [dead]);
    const worker = await startWorker(bench.config(), bench.logger(), idle, { tuning: { upkeepMs: 100 } });
    const lines = () => bench.log.filter((line) => line.includes('"oldestOpenAgeS"')).map((line) => JSON.parse(line) as Record<string, unknown>);
    await until('two rounds are told', async () => lines().length >= 2);
    await worker.stop();
    const [first, second] = lines();
    expect(first).toMatchObject({ level: 40, open: 1, dead: 1, pruned: 0, msg: expect.stringContaining('ops -- outbox') });
    // Said once as a warning; a warning every minute would be read by nobody.
    expect(second).toMatchObject({ level: 30, open: 1, dead: 1 });
    expect(Math.floor(Number(first?.['oldestOpenAgeS']) / 3_600)).toBe(3);
    for (const id of [tenant.networkId, tenant.incidentId, waits, dead]) expect(JSON.stringify(lines())).not.toContain(id);
  });
});

/** The command as an operator runs it. */
function ops(args: string[], changed: Record<string, string> = {}): Promise<{ code: number; out: string; err: string }> {
  const env = { PATH: process.env['PATH'] ?? '', ...bench.env, ...changed };
  return new Promise((resolve) => {
    execFile(process.execPath, [join(projectRoot(), 'dist', 'apps', 'ops', 'src', 'main.js'), 'outbox', ...args], { env }, (error, out, err) => {
      resolve({ code: error === null ? 0 : Number(error.code), out, err });
    });
  });
}

describe('the command outbox', () => {
  /** A plan run and a file that were given up, as the relay leaves them. */
  async function givenUp(tenant: Tenant): Promise<{ run: string; file: string }> {
    const [run = ''] = await bench.append(tenant, 1);
    const [file = ''] = await bench.append(tenant, 1, 'intake_import.submitted');
    await set("tries = 8, dead_at = now(), dead_reason = 'Every run of it failed.', leased_until = null", [run, file]);
    await bench.database.admin.query(
      "insert into plan_run (network_id, incident_id, id, state, reason, requested_at, finished_at, failure) values ($1, $2, $3, 'failed', 'test', now(), now(), 'given up')",
      [tenant.networkId, tenant.incidentId, run],
    );
    return { run, file };
  }

  const runState = async (id: string) => (await bench.database.admin.query<{ state: string; failure: string | null }>('select state, failure from plan_run where id = $1', [id])).rows[0];

  test('shows open and dead rows of all networks and how long the oldest waits, and changes nothing', async () => {
    const [a, b] = [await bench.tenant(), await bench.tenant()];
    const open = [...(await bench.append(a, 2)), ...(await bench.append(b, 1))];
    await set("created_at = now() - interval '90 seconds'", [open[0] ?? '']);
    await givenUp(b);
    const { code, out } = await ops([]);
    expect(code).toBe(0);
    const [first, second, ...dead] = out.trim().split('\n');
    expect(first).toMatch(/^open: 3, the oldest for \d+ s$/);
    expect(Number(/(\d+) s$/.exec(first ?? '')?.[1])).toBeGreaterThanOrEqual(90);
    expect(second).toBe('dead: 2');
    expect(dead).toHaveLength(2);
    for (const line of dead) expect(line).toMatch(new RegExp(`(plan\\.requested|intake_import\\.submitted) .*network ${b.networkId}.* after 8 runs: Every run of it failed`));
    expect(await bench.count('dead_at is not null and tries = 8')).toBe(2);
  });

  test('with --revive makes dead rows due again once; a worker then makes the plan and closes the file that cannot be had any more', async () => {
    const tenant = await bench.tenant();
    const { run, file } = await givenUp(tenant);
    const first = await ops(['--revive']);
    expect(first).toMatchObject({ code: 0, err: '' });
    expect(first.out).toMatch(/^made due again: 2\n {2}of these 1 have nothing left to do.*\nopen: 2, .*\ndead: 0\n$/);
    expect(await runState(run)).toEqual({ state: 'queued', failure: null });
    const again = await ops(['--revive']);
    expect(again.out).toMatch(/^made due again: 0\nopen: 2, /);
    await bench.startProgram();
    await until('both rows are done', async () => (await bench.count('done_at is not null and id = any($1)', [[run, file]])) === 2);
    expect(await runState(run)).toEqual({ state: 'done', failure: null });
    expect(await bench.count('dead_at is not null')).toBe(0);
  });

  test('does not plan anew what a newer run has planned or is planning', async () => {
    const [planned, planning] = [await bench.tenant(), await bench.tenant()];
    const old = [await givenUp(planned), await givenUp(planning)];
    for (const [tenant, state] of [[planned, 'done'], [planning, 'queued']] as const) {
      await bench.database.admin.query("insert into plan_run (network_id, incident_id, id, state, reason, requested_at) values ($1, $2, gen_random_uuid(), $3, 'newer', now() + interval '1 second')", [tenant.networkId, tenant.incidentId, state]);
    }
    expect((await ops(['--revive'])).out).toMatch(/^made due again: 4\n {2}of these 4 have nothing left to do/);
    for (const { run } of old) expect(await runState(run)).toMatchObject({ state: 'failed' });
  });

  test('refuses logins on which the outbox would look empty or too much would be in reach', async () => {
    await givenUp(await bench.tenant());
    const wrong = await ops(['--revive'], { DATABASE_RELAY_URL: bench.database.appUrl });
    expect(wrong.code).toBe(1);
    expect(wrong.err).toContain('DATABASE_RELAY_URL');
    expect((await ops([], { DATABASE_URL: bench.database.adminUrl })).err).toContain('can bypass row-level security');
    expect(await ops(['--revieve'])).toMatchObject({ code: 2, out: '' });
    expect(await bench.count('dead_at is not null')).toBe(2);
  });
});
