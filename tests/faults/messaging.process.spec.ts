import { afterAll, afterEach, beforeAll, describe, expect, jest, test } from '@jest/globals';
import type { ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { Bench, QUEUES, until } from './messaging.harness.js';

/** Real processes of the built program; `npm run build` comes first (the test command does it). */
const TUNING = { pollMs: 100 };
/** For a process that dies: its leases and locks have to lapse. Long enough that a living one on a busy machine comes round to prolonging them. */
const LAPSING = { ...TUNING, leaseMs: 6_000, renewMs: 500, queueLockMs: 6_000 };
// Each wait inside is bounded by itself; this only keeps a busy machine from failing a sound run.
jest.setTimeout(240_000);

describe.each(QUEUES)('worker processes over %s', (queueName) => {
  let bench: Bench;

  beforeAll(async () => {
    bench = await Bench.open(queueName);
  });
  afterEach(() => bench.clear());
  afterAll(() => bench.close());

  async function kill(child: ChildProcess, signal: NodeJS.Signals): Promise<{ code: number | null; signal: string | null }> {
    const ended = once(child, 'exit') as Promise<[number | null, string | null]>;
    child.kill(signal);
    const [code, by] = await ended;
    return { code, signal: by };
  }

  test('kill -9 in mid-work, twice: after a restart everything is done, nothing twice', async () => {
    const ids = [...(await bench.append(await bench.tenant(), 40)), ...(await bench.append(await bench.tenant(), 20))];
    for (const [share, more] of [[0.2, 13], [0.6, 24]] as const) {
      // After so many it ends none that it begins: it stands in mid-work until it is killed, however late that is.
      const child = await bench.startChild({ handlerMs: 120, holdAfter: more, tuning: LAPSING });
      await until('work is under way', async () => (await bench.count('done_at is not null')) > ids.length * share && (await bench.count('tries > 0 and done_at is null')) > 0);
      expect(await kill(child, 'SIGKILL')).toEqual({ code: null, signal: 'SIGKILL' });
      expect(await bench.count('done_at is null')).toBeGreaterThan(0);
    }
    await bench.startChild({ handlerMs: 20, tuning: LAPSING });
    await until('everything is done', async () => (await bench.count('done_at is null')) === 0);
    const effects = await bench.effects();
    expect(ids.filter((id) => effects.get(id) !== 1)).toEqual([]);
    expect(effects.size).toBe(ids.length);
    // The runs that were cut down did count as tries.
    expect(await bench.count('tries > 1')).toBeGreaterThan(0);
  });

  test('the program as it is shipped carries out a requested plan and ends an import that is not there', async () => {
    const tenant = await bench.tenant();
    const [planRunId] = await bench.append(tenant, 1);
    await bench.database.admin.query("insert into plan_run (network_id, incident_id, id, state, reason, requested_at) values ($1, $2, $3, 'queued', 'test', now())", [tenant.networkId, tenant.incidentId, planRunId]);
    await bench.append(tenant, 1, 'intake_import.submitted');
    const child = await bench.startProgram();
    await until('both rows are done', async () => (await bench.count('done_at is null')) === 0);
    const { rows } = await bench.database.admin.query('select r.state, v.number from plan_run r left join plan_revision v on v.network_id = r.network_id and v.id = r.revision_id where r.id = $1', [planRunId]);
    expect(rows).toEqual([{ state: 'done', number: 1 }]);
    expect(await kill(child, 'SIGTERM')).toEqual({ code: 0, signal: null });
  });

  test('SIGTERM during a job of two seconds: it completes once and the process exits with 0', async () => {
    const [id = ''] = await bench.append(await bench.tenant(), 1);
    const child = await bench.startChild({ handlerMs: 2_000, tuning: TUNING });
    await until('the job has begun', async () => (await bench.count('tries = 1')) === 1);
    expect(await kill(child, 'SIGTERM')).toEqual({ code: 0, signal: null });
    expect(await bench.count('tries = 1 and done_at is not null')).toBe(1);
    expect((await bench.effects()).get(id)).toBe(1);
  });

  test('a handler that outlives the cap does not hold the process; the row is done by the next one', async () => {
    const [id = ''] = await bench.append(await bench.tenant(), 1);
    const child = await bench.startChild({ handlerMs: 120_000, tuning: { ...LAPSING, closeCapMs: 300 } });
    await until('the job has begun', async () => (await bench.count('tries = 1')) === 1);
    expect(await kill(child, 'SIGTERM')).toEqual({ code: 0, signal: null });
    expect(await bench.count('done_at is not null')).toBe(0);
    await bench.startChild({ handlerMs: 1, tuning: TUNING });
    await until('it is done', async () => (await bench.count('tries = 2 and done_at is not null')) === 1);
    expect((await bench.effects()).get(id)).toBe(1);
  });
});
