import { availableParallelism, cpus } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { loadConfig } from '#platform';
import { explanationLines } from '../demo/plans/explanations.js';
import { helpLines } from '../demo/plans/help.js';
import { problemFolder, readMoments, threeMoments, urgentWeight, weightOf } from '../demo/plans/kept-problem.js';
import { planThreeWays, tableLines } from '../demo/plans/three-ways.js';

const USAGE = 'demo-plans [--folder <kept problems>] [--seed 1] [--rounds 0,200,2000] [--strands 2] [--bound-effort 1] [--help-rounds 200] [--help-seeds 1,2,3]';

/** Plans what the played day had to plan in several ways, and prints what each saves, what would help, and why; reads files only. */
export async function run(args: string[]): Promise<number> {
  let wanted: Wanted;
  try {
    wanted = readArgs(args);
  } catch (error) {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n${USAGE}\n`);
    return 2;
  }
  const moments = threeMoments(await readMoments(wanted.folder));
  print(`Node ${process.version} on ${availableParallelism()} processors (${cpus()[0]?.model ?? 'unknown'}), seed ${wanted.seed}. All of it is invented; weights are our own calibration.`);
  for (const line of tableLines(moments.map((moment) => planThreeWays(moment, wanted)))) print(line);
  const busiest = moments.reduce((best, one) => (weightOf(one) > weightOf(best) ? one : best));
  const largest = busiest.kept.reduce((best, one) => (urgentWeight(one.problem) > urgentWeight(best.problem) ? one : best));
  print(`\nThe larger network at ${new Date(busiest.atMs).toISOString().slice(11, 16)}, as its coordinator reads it:`);
  for (const line of helpLines(largest, { seeds: wanted.helpSeeds, iterations: wanted.helpRounds })) print(line);
  print('');
  for (const line of explanationLines(largest, wanted.seed, wanted.helpRounds)) print(line);
  return 0;
}

interface Wanted { folder: string; seed: number; rounds: number[]; strands: number; boundEffort: number; helpRounds: number; helpSeeds: number[] }

function readArgs(args: string[]): Wanted {
  const text = (value: string) => ({ type: 'string', default: value }) as const;
  const { values } = parseArgs({
    args,
    options: { folder: text(problemFolder(join(loadConfig().stateDir, 'demo'))), seed: text('1'), rounds: text('0,200,2000'), strands: text('2'), 'bound-effort': text('1'), 'help-rounds': text('200'), 'help-seeds': text('1,2,3') },
  });
  return {
    folder: values.folder, seed: whole('seed', values.seed), rounds: values.rounds.split(',').map((one) => whole('rounds', one)), strands: Math.max(1, whole('strands', values.strands)), boundEffort: whole('bound-effort', values['bound-effort']),
    helpRounds: whole('help-rounds', values['help-rounds']), helpSeeds: values['help-seeds'].split(',').map((one) => whole('help-seeds', one)),
  };
}

function whole(name: string, text: string): number {
  if (!/^\d{1,9}$/.test(text)) throw new Error(`--${name} takes whole numbers.`);
  return Number(text);
}

function print(line: string): void {
  process.stdout.write(`${line}\n`);
}
