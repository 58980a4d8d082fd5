/**
 * Proves the optima of the tiny incidents and prints them as `optima.tsv`; on stderr what the planner and the bound make of them.
 * `node tests/reference/planning/exact/start.mjs [from] [to] > optima.tsv`
 */
import { compare, INCIDENTS, prove } from './compare.js';
import { tinyIncident } from './tiny-incidents.js';

const [from = 1, to = INCIDENTS] = process.argv.slice(2).map(Number);
if (from === 1) process.stdout.write('seed\tlate\ttardiness\tcompletion\tnodes\n');
const began = performance.now();
const sums = { urgent: 0, optimum: 0, planned: 0, bound: 0, atOptimum: 0, worstGapPercent: 0, boundTight: 0, wholeTuples: 0 };
for (let seed = from; seed <= to; seed += 1) {
  const problem = tinyIncident(seed);
  const { late, full, nodes } = prove(problem);
  const rest = full.proved ? `${full.cost[1]}\t${full.cost[2]}` : '-\t-';
  process.stdout.write(`${seed}\t${late}\t${rest}\t${nodes}\n`);
  const { urgent, planned, bound } = compare(problem);
  sums.urgent += urgent;
  sums.optimum += urgent - late;
  sums.planned += urgent - planned[0];
  sums.bound += bound;
  sums.atOptimum += planned[0] === late ? 1 : 0;
  if (urgent > late) sums.worstGapPercent = Math.max(sums.worstGapPercent, Math.round((100 * (planned[0] - late)) / (urgent - late)));
  sums.boundTight += bound === urgent - late ? 1 : 0;
  sums.wholeTuples += full.proved ? 1 : 0;
}
process.stderr.write(`${JSON.stringify({ incidents: to - from + 1, ...sums, gapPercent: Math.round((1e4 * (sums.optimum - sums.planned)) / sums.optimum) / 100, boundAbovePercent: Math.round((1e4 * (sums.bound - sums.optimum)) / sums.optimum) / 100, seconds: Math.round((performance.now() - began) / 1000) })}\n`);
