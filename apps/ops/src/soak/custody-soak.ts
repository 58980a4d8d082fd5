import { randomInt } from 'node:crypto';
import { VIOLATION_KINDS } from '#testing/salvage';
import { BUGS, type BugName, isBug } from './bugs.js';
import { runCustodyFaults, type RunReport } from './custody-run.js';
import { SoakCluster } from './soak-cluster.js';

const USAGE = `soak custody [--seconds 90] [--seed n] [--bug ${Object.keys(BUGS).join(' | ')} | all] [--bug-seconds 10]\n`;
const SHOWN = 5;

interface SoakOptions {
  seconds: number;
  seed: number;
  /** Seeded bugs to be played, none for the service as it is. */
  bugs: BugName[];
  bugSeconds: number;
  /** Whether the service as it is is played, too. */
  sound: boolean;
}

function readOptions(args: readonly string[]): SoakOptions | null {
  const given = new Map<string, string>();
  for (let at = 0; at < args.length; at += 2) given.set(args[at] ?? '', args[at + 1] ?? '');
  if ([...given.keys()].some((name) => !['--seconds', '--seed', '--bug', '--bug-seconds'].includes(name))) return null;
  const bug = given.get('--bug');
  const seconds = Number(given.get('--seconds') ?? 90);
  const options = { seconds, seed: Number(given.get('--seed') ?? randomInt(1, 2 ** 31)), bugSeconds: Number(given.get('--bug-seconds') ?? (bug === 'all' ? 10 : seconds)) };
  if (![options.seconds, options.bugSeconds].every((value) => Number.isFinite(value) && value >= 1 && value <= 3_600) || !Number.isSafeInteger(options.seed)) return null;
  if (bug === undefined) return { ...options, bugs: [], sound: true };
  if (bug === 'all') return { ...options, bugs: Object.keys(BUGS).filter(isBug), sound: true };
  return isBug(bug) ? { ...options, bugs: [bug], sound: false } : null;
}

/**
 * Plays custody under faults and holds every answer against the database. Answers 1 when a promise was broken, or, with `--bug all`, when
 * a seeded bug was not found; a single `--bug` answers 1 because the bug is found.
 */
export async function soakCustody(args: readonly string[], print: (line: string) => void): Promise<number> {
  const options = readOptions(args);
  if (options === null) {
    process.stderr.write(USAGE);
    return 2;
  }
  const cluster = await SoakCluster.start();
  const ended = untilSignal();
  try {
    return await Promise.race([playAll(cluster, options, print), ended]);
  } finally {
    await cluster.remove();
  }
}

async function playAll(cluster: SoakCluster, { seconds, seed, bugs, bugSeconds, sound }: SoakOptions, print: (line: string) => void): Promise<number> {
  print(`seed ${seed}`);
  let broken = false;
  const play = async (name: string, forSeconds: number, bug: BugName | null): Promise<boolean> => {
    const report = await runCustodyFaults(cluster, { seconds: forSeconds, seed, bug }, () => undefined);
    for (const line of reportLines(name, report)) print(line);
    return report.violations.length > 0 || report.undecided > 0;
  };
  if (sound) broken = await play('as it is', seconds, null);
  for (const bug of bugs) {
    const found = await play(`bug ${bug}`, bugSeconds, bug);
    if (!found) print('  the bug was not found');
    // Alone, a bug reads like any broken promise; among all of them it is expected to be found.
    if (found !== sound) broken = true;
  }
  return broken ? 1 : 0;
}

function reportLines(name: string, { setUpS, lastedS, restedS, commands, ok, undecided, events, faults, cutConnections, violations }: RunReport): string[] {
  const counts = VIOLATION_KINDS.map((kind) => [kind, violations.filter((violation) => violation.kind === kind).length] as const).filter(([, count]) => count > 0);
  return [
    `${name}: ${lastedS.toFixed(0)} s (set up in ${setUpS.toFixed(0)} s, at rest after ${restedS.toFixed(0)} s), ${commands} commands, ${ok} ok, ${undecided} undecided, ${events} events; faults: ${faults.kill} kill -9 of API processes, ${faults.stop} immediate stops of PostgreSQL, ${faults.cut} times of cutting (${cutConnections} connections); violations: ${counts.length === 0 ? 'none' : counts.map(([kind, count]) => `${kind} ${count}`).join(', ')}`,
    ...violations.slice(0, SHOWN).map(({ kind, itemId, seq, cmd, detail }) => `  ${kind} item ${itemId} event ${seq ?? '-'} command ${cmd ?? '-'}: ${detail}`),
  ];
}

/** Ctrl-C, or the end of a test, ends the run and its database; its other processes end with their parent. */
function untilSignal(): Promise<number> {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve(130));
  });
}
