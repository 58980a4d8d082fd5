/** The same work planned by lists and by the planner, beside what any plan could save at most. */
import { bestPlan, buildPlan, inTimeItems, type Plan, type PlanProblem, savedWeightBound, strandSeed, validatePlan } from '#planning';
import { listPlan, type ListRule } from '#testing/salvage';
import { type DayMoment, urgentWeight } from './kept-problem.js';

/** How the planner searches. */
export interface SearchWanted {
  seed: number;
  /** Rounds of each of the planner's lines. */
  rounds: readonly number[];
  strands: number;
  /** How long to look for a good bound, as `savedWeightBound` takes it. */
  boundEffort: number;
}

/** What came of one way of planning, over all networks of a moment. */
export interface WayResult { way: string; weightSaved: number; thingsSaved: number; seconds: number }

/** One moment planned in every way. */
export interface MomentResult { atMs: number; things: number; weight: number; boundWeight: number; boundNames: string[]; boundSeconds: number; ways: WayResult[] }

const LISTS: readonly { rule: ListRule; way: string }[] = [
  { rule: 'arrival', way: 'as they came' },
  { rule: 'deadline', way: 'earliest deadline first' },
  { rule: 'value', way: 'most valued first' },
];

/** Plans every network of the moment by itself, as the service does, from an empty plan; every plan is checked. @throws Error for a plan that breaks a rule */
export function planThreeWays({ atMs, kept }: DayMoment, { seed, rounds, strands, boundEffort }: SearchWanted): MomentResult {
  const problems = kept.map(({ problem }) => afresh(problem));
  const beganS = cpuSeconds();
  const bounds = problems.map((problem) => savedWeightBound(problem, { effort: boundEffort }));
  const boundSeconds = cpuSeconds() - beganS;
  const searched = (iterations: number) => (problem: PlanProblem): Plan => bestPlan(Array.from({ length: iterations === 0 ? 1 : strands }, (_, strand) => buildPlan(problem, { seed: strandSeed(seed, strand), iterations })));
  return {
    atMs, boundSeconds, boundWeight: sum(bounds.map(({ weight }) => weight)), boundNames: bounds.map(({ name }) => name),
    things: sum(problems.map(({ items }) => items.filter(({ stabilised }) => !stabilised).length)), weight: sum(problems.map(urgentWeight)),
    ways: [
      ...LISTS.map(({ rule, way }) => measured(way, problems.map((problem): PlanProblem => ({ ...problem, late: 'plan' })), (problem) => listPlan(problem, rule))),
      ...rounds.map((iterations) => measured(iterations === 0 ? 'planner, first plan' : `planner, ${iterations} rounds, ${strands === 1 ? '1 strand' : `${strands} strands`}`, problems, searched(iterations))),
    ],
  };
}

/** Without the plan in force, pins and wishes: all ways begin with the same empty plan. */
export function afresh({ previous: _, ...problem }: PlanProblem): PlanProblem {
  return { ...problem, items: problem.items.map(({ pinned: _pinned, first: _first, ...item }) => item) };
}

function measured(way: string, problems: readonly PlanProblem[], planOf: (problem: PlanProblem) => Plan): WayResult {
  const beganS = cpuSeconds();
  const plans = problems.map(planOf);
  const seconds = cpuSeconds() - beganS;
  plans.forEach((plan, i) => { refuseBroken(problems[i]!, plan); });
  return { way, seconds, weightSaved: sum(plans.map((plan, i) => urgentWeight(problems[i]!) - plan.objective[0])), thingsSaved: sum(plans.map((plan, i) => inTimeItems(problems[i]!, plan).size)) };
}

export function refuseBroken(problem: PlanProblem, plan: Plan): void {
  const faults = validatePlan(problem, plan);
  if (faults.length > 0) throw new Error(`A plan breaks ${faults.length} rules; the first: ${faults[0]?.text}`);
}

/** The table as Markdown, for a terminal and for a README. */
export function tableLines(results: readonly MomentResult[]): string[] {
  const rows = results.flatMap(({ atMs, things, weight, boundWeight, boundNames, boundSeconds, ways }) => [
    ...ways.map(({ way, weightSaved, thingsSaved, seconds }) =>
      [clock(atMs), way, `${thingsSaved} of ${things}`, `${weightSaved}`, percent(weightSaved, weight), percent(boundWeight - weightSaved, boundWeight), seconds.toFixed(1)]),
    [clock(atMs), `at most (bound: ${[...new Set(boundNames)].join(', ')})`, '', `${boundWeight} of ${weight}`, percent(boundWeight, weight), '', boundSeconds.toFixed(1)],
  ]);
  return [['at', 'planned', 'things in time', 'weight in time', '% of the weight', 'gap to the bound, %', 'processor s'], ['---', '---', '---', '---', '---', '---', '---'], ...rows].map((cells) => `| ${cells.join(' | ')} |`);
}

function clock(ms: number): string {
  return new Date(ms).toISOString().slice(11, 16);
}

function percent(part: number, whole: number): string {
  return (whole === 0 ? 0 : (100 * part) / whole).toFixed(1);
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

export function cpuSeconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1_000_000;
}
