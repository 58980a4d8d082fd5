import { afterAll, afterEach, beforeAll, describe, expect, jest, test } from '@jest/globals';
import { setTimeout as sleep } from 'node:timers/promises';
import { type Handler, type Tuning, createQueueBackend } from '#messaging';
import { newId } from '#platform';
import { type RunningWorker, type Work, type WorkParts, startWorker } from '../../apps/worker/src/start-worker.js';
import { effect } from './messaging.effect.mjs';
import { Bench, QUEUES, TestRedis, until } from './messaging.harness.js';

/** Short times, so that what takes a minute in earnest takes a second here. Leases and locks are the product's: one that lapses on a busy machine has its row run again. */
const QUICK: Partial<Tuning> = { pollMs: 100, backOffBaseMs: 50, backOffCapMs: 200 };
/** Where something dies, and its leases and locks have to lapse. */
const LAPSING: Partial<Tuning> = { leaseMs: 2_000, renewMs: 500, queueLockMs: 2_000 };
/** Nobody listens on this port of the system's own, and no test is given it. */
const CLOSED_PORT = 1;
// Each wait inside is bounded by itself; this only keeps a busy machine from failing a sound run.
jest.setTimeout(240_000);

const CANARY = 'Aunt Example of 1 Invented Lane';

describe.each(QUEUES)('the outbox over %s', (queueName) => {
  let bench: Bench;
  const workers: RunningWorker[] = [];

  beforeAll(async () => {
    bench = await Bench.open(queueName);
  });
  afterEach(async () => {
    await Promise.all(workers.splice(0).map((worker) => worker.stop()));
    await bench.clear();
  });
  afterAll(() => bench.close());

  /** Both kinds get the same handler; `before` runs ahead of its effect. */
  function workWith(before: Handler, gaveUp: string[] = []) {
    return ({ unitOfWork }: WorkParts): Work => {
      const handler: Handler = async (message, context) => {
        await before(message, context);
        await effect(unitOfWork, message, context);
      };
      const giveUp = async ({ id }: { id: string }) => void gaveUp.push(id);
      return { handlers: { 'plan.requested': handler, 'plan.what_if': handler, 'intake_import.submitted': handler, 'rule_book.chosen': handler, 'climate.readings': handler, 'climate.tick': handler, 'custody.root': handler, 'hand_over.due': handler, 'family.look': handler, 'family.message': handler, 'sight.look': handler, 'file.check': handler, 'file.sweep': handler, 'personal.seal': handler, 'retention.run': handler, 'retention.look': handler, 'family.news': handler }, giveUps: { 'plan.requested': giveUp, 'plan.what_if': giveUp, 'intake_import.submitted': giveUp, 'rule_book.chosen': giveUp, 'climate.readings': giveUp, 'climate.tick': giveUp, 'custody.root': giveUp, 'hand_over.due': giveUp, 'family.look': giveUp, 'family.message': giveUp, 'sight.look': giveUp, 'file.check': giveUp, 'file.sweep': giveUp, 'personal.seal': giveUp, 'retention.run': giveUp, 'retention.look': giveUp, 'family.news': giveUp } };
    };
  }

  async function start(before: Handler = async () => undefined, tuning: Partial<Tuning> = {}, gaveUp: string[] = []): Promise<RunningWorker> {
    const worker = await startWorker(bench.config(), bench.logger(), workWith(before, gaveUp), { tuning: { ...QUICK, ...tuning } });
    workers.push(worker);
    await worker.ready;
    return worker;
  }

  const doneOf = (networkId: string) => bench.count('network_id = $1 and done_at is not null', [networkId]);

  async function expectEachOnce(ids: string[]): Promise<void> {
    const effects = await bench.effects();
    expect(ids.filter((id) => effects.get(id) !== 1)).toEqual([]);
    expect(effects.size).toBe(ids.length);
  }

  test('300 rows of two networks: every effect takes place once, in its own network, at the first run', async () => {
    const [a, b] = [await bench.tenant(), await bench.tenant()];
    const ids = [...(await bench.append(a, 150)), ...(await bench.append(b, 150, 'intake_import.submitted'))];
    await start();
    await until('all rows are done', async () => (await bench.count('done_at is null')) === 0);
    await expectEachOnce(ids);
    expect(await bench.count('tries <> 1')).toBe(0);
    const { rows } = await bench.database.admin.query("select from household h join outbox o on o.id = split_part(h.code, '/', 1)::uuid where o.network_id <> h.network_id");
    expect(rows).toEqual([]);
  });

  test('two workers share the work without doing any of it twice', async () => {
    const ids = await bench.append(await bench.tenant(), 150);
    await Promise.all([start(), start()]);
    await until('all rows are done', async () => (await bench.count('done_at is null')) === 0);
    await expectEachOnce(ids);
  });

  test("a network with 3 000 rows waiting does not hold up another network's 20, and has no more than its share out", async () => {
    const [large, small] = [await bench.tenant(), await bench.tenant()];
    await bench.append(large, 3_000);
    await start();
    await until('the large network is being served', async () => (await doneOf(large.networkId)) > 0);
    const ids = await bench.append(small, 20);
    const out: number[] = [];
    await until('the small network is done', async () => {
      out.push(await bench.count('network_id = $1 and done_at is null and leased_until >= clock_timestamp()', [large.networkId]));
      return (await doneOf(small.networkId)) === ids.length;
    });
    expect(Math.max(...out)).toBeLessThanOrEqual(60);
    // Served in the order of the rows, the small network would have come last.
    expect(await doneOf(large.networkId)).toBeLessThan(1_500);
  });

  test('a forged job with the ids of two networks does nothing and is logged', async () => {
    const [a, b] = [await bench.tenant(), await bench.tenant()];
    const [foreign = ''] = await bench.append(b, 1);
    // Out of the relay's sight, so that nothing but the forged job could start it.
    await bench.database.admin.query("update outbox set leased_until = clock_timestamp() + interval '1 hour'");
    await start();
    const forger = createQueueBackend(bench.queue.config, () => undefined);
    await forger.prepare();
    const bell = forger.bell();
    await bell.ring([
      { networkId: a.networkId, outboxId: foreign, tries: 0 },
      { networkId: a.networkId, outboxId: newId(), tries: 0 },
      { networkId: "'; drop table outbox; --", outboxId: foreign, tries: 1 },
    ]);
    await bell.close();
    await until('the forged jobs are logged', async () => bench.log.filter((line) => line.includes('job ignored')).length >= 3);
    const own = await bench.append(a, 1);
    await until('honest work goes on', async () => (await doneOf(a.networkId)) === 1);
    await expectEachOnce(own);
    expect(await bench.count('id = $1 and done_at is null and tries = 0', [foreign])).toBe(1);
  });

  test('everything in the queue is thrown away in mid-work: all is done, nothing twice', async () => {
    const ids = await bench.append(await bench.tenant(), 200);
    await start(() => sleep(20), LAPSING);
    await until('work is under way', async () => (await bench.count('done_at is not null')) > 20);
    await bench.queue.empty();
    await until('all rows are done', async () => (await bench.count('done_at is null')) === 0);
    await expectEachOnce(ids);
  });

  test('every database connection is cut in mid-work: all is done, nothing twice', async () => {
    const ids = await bench.append(await bench.tenant(), 150);
    await start(() => sleep(20), LAPSING);
    const queue = new URL(bench.queue.config.queueDatabaseUrl ?? 'none:').pathname.slice(1);
    for (const share of [0.2, 0.5]) {
      await until('work is under way', async () => (await bench.count('done_at is not null')) > ids.length * share);
      // Of this bench alone: the server is shared with tests that run beside this one.
      await bench.database.admin.query("select pg_terminate_backend(pid) from pg_stat_activity where (datname = current_database() and application_name like 'wrackline%') or datname = $1", [queue]);
    }
    await until('all rows are done', async () => (await bench.count('done_at is null')) === 0);
    await expectEachOnce(ids);
  });

  test('a handler that fails is run again after a while; its words reach neither the log nor the table', async () => {
    const [id = ''] = await bench.append(await bench.tenant(), 1);
    let runs = 0;
    await start(async () => {
      runs += 1;
      if (runs < 3) throw Object.assign(new Error(CANARY), { code: 'XX001' });
    });
    await until('it is done', async () => (await bench.count('done_at is not null')) === 1);
    await expectEachOnce([id]);
    expect(await bench.count('tries = 3')).toBe(1);
    const log = bench.log.join('');
    expect(log).toContain('handler failed');
    expect(log).toContain('XX001');
    expect(log).not.toContain(CANARY);
  });

  test('a row that always fails is given up after its tries, told to its subject, visible with a reason, and holds up nobody', async () => {
    const tenant = await bench.tenant();
    const [bad = '', ...good] = await bench.append(tenant, 11);
    const gaveUp: string[] = [];
    await start(
      async ({ id }) => {
        if (id === bad) throw new Error(CANARY);
      },
      { maxTries: 3 },
      gaveUp,
    );
    await until('the others are done', async () => (await doneOf(tenant.networkId)) === good.length);
    await until('the row is dead', async () => (await bench.count('dead_at is not null')) === 1);
    expect(await bench.count("id = $1 and tries = 3 and done_at is null and dead_reason like 'Every run of it failed%'", [bad])).toBe(1);
    expect(gaveUp).toContain(bad);
    await expectEachOnce(good);
  });

  test('a handler that forgets to mark its row done is not taken for done', async () => {
    await bench.append(await bench.tenant(), 1);
    const forgetful = (): Work => {
      const nothing = async () => undefined;
      return { handlers: { 'plan.requested': nothing, 'plan.what_if': nothing, 'intake_import.submitted': nothing, 'rule_book.chosen': nothing, 'climate.readings': nothing, 'climate.tick': nothing, 'custody.root': nothing, 'hand_over.due': nothing, 'family.look': nothing, 'family.message': nothing, 'sight.look': nothing, 'file.check': nothing, 'file.sweep': nothing, 'personal.seal': nothing, 'retention.run': nothing, 'retention.look': nothing, 'family.news': nothing }, giveUps: { 'plan.requested': nothing, 'plan.what_if': nothing, 'intake_import.submitted': nothing, 'rule_book.chosen': nothing, 'climate.readings': nothing, 'climate.tick': nothing, 'custody.root': nothing, 'hand_over.due': nothing, 'family.look': nothing, 'family.message': nothing, 'sight.look': nothing, 'file.check': nothing, 'file.sweep': nothing, 'personal.seal': nothing, 'retention.run': nothing, 'retention.look': nothing, 'family.news': nothing } };
    };
    const worker = await startWorker(bench.config(), bench.logger(), forgetful, { tuning: { ...QUICK, maxTries: 2 } });
    workers.push(worker);
    await until('the row is dead', async () => (await bench.count('dead_at is not null and tries = 2')) === 1);
    expect(bench.log.join('')).toContain('without marking the row done');
  });

  test('work that takes longer than a lease and a queue lock keeps both and runs once', async () => {
    const ids = await bench.append(await bench.tenant(), 1);
    let runs = 0;
    const slow: Handler = async () => {
      runs += 1;
      await sleep(8_000);
    };
    // Long enough that a busy machine comes round to prolonging them.
    const short = { leaseMs: 6_000, renewMs: 500, queueLockMs: 6_000 };
    await Promise.all([start(slow, short), start(slow, short)]);
    await until('it is done', async () => (await bench.count('done_at is not null')) === 1);
    expect(runs).toBe(1);
    expect(await bench.count('tries = 1')).toBe(1);
    await expectEachOnce(ids);
  });

  test('jobs that wait in the queue longer than a lease use up no tries', async () => {
    const ids = await bench.append(await bench.tenant(), 24);
    let open = (): void => undefined;
    const opened = new Promise<void>((resolve) => (open = resolve));
    await start(() => opened, { pollMs: 50 });
    const { workerConcurrency: atWork } = bench.config();
    await until('as many are at work as may be', async () => (await bench.count('tries > 0')) === atWork);
    // The leases of those that wait behind them end three times, and each time they are rung for again.
    for (let times = 0; times < 3; times += 1) {
      const { rowCount } = await bench.database.admin.query("update outbox set leased_until = clock_timestamp() - interval '1 second' where tries = 0");
      expect(rowCount).toBe(ids.length - atWork);
      await until('they are rung for again', async () => (await bench.count('tries = 0 and leased_until > clock_timestamp()')) === ids.length - atWork);
    }
    open();
    await until('all rows are done', async () => (await bench.count('done_at is null')) === 0);
    await expectEachOnce(ids);
    expect(await bench.count('tries <> 1')).toBe(0);
  });

  test('stopping waits for the handlers at work and leaves the rest in the outbox', async () => {
    // Far more than are begun before the stop, also where the look that sees the first is late.
    await bench.append(await bench.tenant(), 400);
    const worker = await start(() => sleep(300));
    await until('work is under way', async () => (await bench.count('tries > 0')) > 0);
    await worker.stop();
    const begun = await bench.count('tries > 0');
    expect(await bench.count('done_at is not null')).toBe(begun);
    expect(begun).toBeLessThan(400);
    await sleep(400);
    expect(await bench.count('tries > 0')).toBe(begun);
  });

  test('what outlives the cap is broken off, and the next worker does it once', async () => {
    const ids = await bench.append(await bench.tenant(), 1);
    const stopping = new AbortController();
    const compose = (parts: WorkParts): Work => ({ ...workWith(() => sleep(60_000, undefined, { signal: stopping.signal }))(parts), cancel: () => stopping.abort() });
    const worker = await startWorker(bench.config(), bench.logger(), compose, { tuning: { ...QUICK, ...LAPSING, closeCapMs: 300 } });
    await worker.ready;
    await until('work is under way', async () => (await bench.count('tries > 0')) > 0);
    expect(stopping.signal.aborted).toBe(false);
    await worker.stop();
    expect(stopping.signal.aborted).toBe(true);
    expect(await bench.count('done_at is not null')).toBe(0);
    await start();
    await until('it is done', async () => (await bench.count('done_at is not null')) === 1);
    await expectEachOnce(ids);
  });

  if (queueName === 'Redis') {
    test('Redis dies with all it held and comes back empty: work appended meanwhile and before is done once', async () => {
      const redis = bench.queue as TestRedis;
      const tenant = await bench.tenant();
      const ids = await bench.append(tenant, 100);
      await start(() => sleep(20), LAPSING);
      await until('work is under way', async () => (await bench.count('done_at is not null')) > 10);
      await redis.kill();
      ids.push(...(await bench.append(tenant, 20)));
      await until('the relay says so', async () => bench.log.some((line) => line.includes('the queue took no jobs')));
      expect(await bench.count('done_at is null')).toBeGreaterThanOrEqual(20);
      await redis.up();
      await until('all rows are done', async () => (await bench.count('done_at is null')) === 0);
      await expectEachOnce(ids);
      expect(await bench.count('dead_at is not null')).toBe(0);
    });
  }

  test('an unreachable queue or a login that could see other networks refuses the start with a sentence', async () => {
    const nobody = workWith(async () => undefined);
    await expect(startWorker(bench.config({ databaseUrl: bench.database.adminUrl }), bench.logger(), nobody)).rejects.toThrow(/Refusing to start: The login .* can bypass row-level security/);
    await expect(startWorker(bench.config({ relayDatabaseUrl: bench.database.appUrl }), bench.logger(), nobody)).rejects.toThrow(/DATABASE_RELAY_URL/);
    await expect(startWorker(bench.config({ relayDatabaseUrl: null }), bench.logger(), nobody)).rejects.toThrow(/DATABASE_RELAY_URL/);
    await expect(startWorker(bench.config({ redisUrl: null, queueDatabaseUrl: null }), bench.logger(), nobody)).rejects.toThrow(/REDIS_URL, or QUEUE_DATABASE_URL/);
    const unreachable = queueName === 'Redis' ? { redisUrl: `redis://127.0.0.1:${CLOSED_PORT}` } : { queueDatabaseUrl: `postgres://nobody@127.0.0.1:${CLOSED_PORT}/none` };
    await expect(startWorker(bench.config(unreachable), bench.logger(), nobody)).rejects.toThrow(/ECONNREFUSED.*correct (REDIS_URL|QUEUE_DATABASE_URL)/);
  });
});
