import { mkdir, rm } from 'node:fs/promises';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { type Config, freePort } from '#platform';
import { untilStopped } from '../commands/start.js';
import type { RunningProcesses } from '../processes.js';
import { startProcesses } from '../processes.js';
import type { Services } from '../services.js';
import { startServices } from '../services.js';
import type { Traffic } from './api-client.js';
import { DAY, PLAY } from './calibration.js';
import type { Book } from './driver/book.js';
import { Day, type DayReport } from './driver/day.js';
import { problemKeeper } from './driver/problem-keeper.js';
import { setUp } from './driver/set-up.js';
import { SimClock } from './driver/sim-clock.js';
import { DemoRunning, removeEarlierDemo } from './fresh-state.js';
import { KillDrill } from './kill-drill.js';
import type { DemoOptions } from './options.js';
import { problemFolder } from './plans/kept-problem.js';
import { createProgress, type Progress } from './progress.js';
import { climateAccount } from './report/climate.js';
import { afterTheDay, whereToLook } from './report/closing.js';
import { writePlots } from './report/plots.js';
import { accountOf } from './report/reconciliation.js';
import { generateWorld } from './world/generator.js';
import { incidentDocument } from './world/incident-document.js';
import type { DemoWorld } from './world/types.js';
import { handHours, workHours } from './world/workload.js';

const DEFAULT_PORT = 8420;

/** One client plays sixty people; the quota is meant for one tablet. */
const RATE_PER_MINUTE = 1_000_000;
/** As a shell reports Ctrl-C. */
const INTERRUPTED = 130;
/** The database is down for good. */
const LOST = 3;

/** What every part of a run needs. */
interface Run {
  options: DemoOptions;
  stateDir: string;
  clock: SimClock;
  startedMs: number;
  drill: KillDrill;
  say(line: string): void;
}

/** Plays the demo day on a real database from empty. Answers the exit code: 0 when everything reconciles. */
export async function runDemo(options: DemoOptions, base: Config): Promise<number> {
  const stopped = untilStopped();
  const stateDir = join(base.stateDir, 'demo');
  const run: Run = { options, stateDir, clock: new SimClock(join(stateDir, 'clock')), startedMs: Date.now(), drill: new KillDrill(options.kills), say: (line) => void process.stdout.write(`${line}\n`) };
  const config: Config = {
    ...base, stateDir, clockFile: run.clock.file, logLevel: 'warn', ratePerMinute: RATE_PER_MINUTE, planIterations: options.planIterations ?? PLAY.planIterations,
    climateTickMs: PLAY.climateTickMs, climateGatherMs: PLAY.climateGatherMs,
  };
  try {
    await removeEarlierDemo(config);
  } catch (error) {
    if (!(error instanceof DemoRunning)) throw error;
    run.say(error.message);
    return 1;
  }
  const services = await startServices(config, () => undefined);
  try {
    run.say(services.description);
    await mkdir(stateDir, { recursive: true });
    await run.clock.set(DAY.preparedAtMs);
    return await onServices(services, run, stopped);
  } finally {
    await services.stop();
    await rm(run.clock.file, { force: true });
  }
}

async function onServices(services: Services, run: Run, stopped: Promise<void>): Promise<number> {
  const { options, say } = run;
  if (services.ownerUrl === null) {
    say('Set DATABASE_OWNER_URL: the demo makes two networks, and only the owner of the database can.');
    return 2;
  }
  const running = await startProcesses({ ...services.config, port: await portFor(services.config.port) }, { apis: options.apis, workers: options.workers }, run.drill.hearRestart);
  try {
    const lost = services.lost.then((error) => {
      say(error.message);
      return LOST;
    });
    const code = await Promise.race([play(services, services.ownerUrl, running, run), stopped.then(() => INTERRUPTED), lost]);
    if (options.once || code === INTERRUPTED || code === LOST) return code;
    say('Serving until Ctrl-C ...');
    return await Promise.race([stopped.then(() => code), lost]);
  } finally {
    if (!options.once) say('Stopping ...');
    await running.stop();
  }
}

/** The port asked for, else ours if nobody has it, else any. */
async function portFor(asked: number): Promise<number> {
  if (asked !== 0) return asked;
  const probe = createServer();
  return new Promise((resolve) => {
    probe.once('error', () => resolve(freePort()));
    probe.listen(DEFAULT_PORT, '127.0.0.1', () => probe.close(() => resolve(DEFAULT_PORT)));
  });
}

async function play({ config }: Services, ownerUrl: string, running: RunningProcesses, run: Run): Promise<number> {
  const { options, stateDir, clock, startedMs, drill, say } = run;
  const world = generateWorld(options.seed, options.scale);
  const traffic: Traffic = { requests: 0, sentAgain: 0, replayed: 0 };
  say(`API: ${running.urls.join(', ')}`);
  const books = await setUp(ownerUrl, running.urls, world, traffic);
  say(openingWords(world));
  const progress = createProgress();
  const keeper = options.keepProblems ? await problemKeeper(config, problemFolder(stateDir)) : null;
  const report = await playDay(new Day(world, books, clock, progress, drill.betweenSteps, async (nowMs) => keeper?.keep(books, nowMs)), progress, running, drill);
  await keeper?.end();
  for (const line of await afterTheDay(books, report, traffic, drill.sentence())) say(line);
  const air = await climateAccount(report.climate);
  for (const line of [...air.lines, ...(await writePlots(report.climate, join(stateDir, 'pictures'))), '']) say(line);
  for (const line of whereToLook(running.urls[0] ?? '', books)) say(line);
  return reconcile(books, air.faults, startedMs, say);
}

function openingWords(world: DemoWorld): string {
  const documents = (['valley', 'bank'] as const).map((network) => incidentDocument(network, world.seed, world.scale));
  return `${world.households.length} households bring ${world.things.length} things: work for about ${Math.round(workHours(world.things))} hours, and hands for ${Math.round(handHours(documents))} until two days after the flood.`;
}

async function playDay(day: Day, progress: Progress, running: RunningProcesses, drill: KillDrill): Promise<DayReport> {
  drill.arm(running);
  try {
    return await day.play();
  } finally {
    progress.end();
    await drill.settle();
  }
}

/** The last word: the sums of both networks; 1 when anything does not add up. */
async function reconcile(books: readonly Book[], known: readonly string[], startedMs: number, say: Run['say']): Promise<number> {
  const faults = [...known];
  for (const book of books) {
    const account = await accountOf(book);
    for (const line of account.lines) say(line);
    say('');
    faults.push(...account.faults);
  }
  for (const fault of faults) say(`DOES NOT RECONCILE: ${fault}`);
  say(`wall time: ${Math.round((Date.now() - startedMs) / 1_000)} s`);
  return faults.length === 0 ? 0 : 1;
}
