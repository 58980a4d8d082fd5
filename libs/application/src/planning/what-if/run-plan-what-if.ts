/** The worker's part of a what-if: from the request to what each change would save. The plan in force is only read. */
import { say, type Message as Said } from '#care';
import type { PlanWhatIfChange } from '#contracts';
import { bandOf, changedProblem, helpForItemOf, MalformedPlanProblem, marginalRuns, marginalValuesOf, type MarginalBudget, type MarginalValue, type Plan, validatePlan, type WhatIf } from '#planning';
import { climateCalibrationInForce, peopleCalibrationInForce, planningCalibrationInForce } from '../../calibration/in-force.js';
import type { CallContext, Environment } from '../../context.js';
import type { OutboxMessage } from '../../ports/outbox-store.js';
import type { Planner } from '../../ports/planner.js';
import type { PlanWhatIfRecord, PlanWhatIfResult, StoredValue } from '../../ports/plan-what-if-store.js';
import type { Stores, UnitOfWork } from '../../ports/work.js';
import { buildProblem, type BuiltProblem } from '../build-problem.js';
import { summarise } from '../plan-summary.js';
import { SlotGrid } from '../slots.js';
import { type ChangeGround, toProblemChange } from './asked-changes.js';
import { suggestedChanges } from './suggested.js';

type Message = Pick<OutboxMessage, 'id' | 'subjectId'>;

/** How long to look at each plan of a what-if. */
export interface WhatIfEffort {
  /** Rounds of improvement of every plan. */
  iterations: number;
  /** As many plans of each change; three when not given, our own choice. */
  seeds?: readonly number[];
  slotMinutes?: number;
}

const SEEDS = [1, 2, 3];
/** Items that are named of each change. */
const MOST_NAMED = 100;

/**
 * Carries out a what-if. It may be killed at any moment and run again, or beside itself: the result and the mark on the outbox row are
 * written in one transaction, so it is stored once. It takes no epoch and no lock of the plan: nobody's plan waits for it, and it
 * writes nothing but its own row.
 */
export async function runPlanWhatIf(unitOfWork: UnitOfWork, planner: Planner, message: Message, context: CallContext, env: Environment, effort: WhatIfEffort): Promise<'done' | 'failed' | 'overtaken'> {
  const whatIf = await unitOfWork.write(context, (stores) => begin(stores, message, env));
  if (whatIf === null) return 'done';
  const ground = await unitOfWork.read(context, (stores) => groundOf(stores, whatIf.incidentId, env, effort));
  const progress = (plansDone: number, plansInAll: number) => unitOfWork.write(context, (stores) => stores.planWhatIfs.save(whatIf.id, { plansDone, plansInAll }));
  const outcome = await work(planner, whatIf, ground, env, effort, progress);
  return unitOfWork.write(context, (stores) => finish(stores, message, env, outcome));
}

/** Ends a what-if whose work was given up after all tries. */
export async function giveUpPlanWhatIf(unitOfWork: UnitOfWork, message: Message, context: CallContext, env: Environment): Promise<void> {
  await unitOfWork.write(context, async (stores) => {
    const whatIf = await stores.planWhatIfs.lock(message.subjectId);
    if (whatIf === null || isOver(whatIf)) return;
    await stores.planWhatIfs.save(whatIf.id, { state: 'failed', failure: say('It could not be reckoned after several tries. Ask again, with fewer changes; if that fails too, tell who runs the service.'), finishedAtMs: env.nowMs });
  });
}

/** Null when there is nothing left to do. Locks in the order of plan runs: outbox row, then what it is about. */
async function begin(stores: Stores, message: Message, env: Environment): Promise<PlanWhatIfRecord | null> {
  const found = await stores.planWhatIfs.find(message.subjectId);
  if (found === null || isOver(found)) await stores.outbox.markDone(message.id);
  const whatIf = await stores.planWhatIfs.lock(message.subjectId);
  if (whatIf === null || isOver(whatIf)) return null;
  await stores.planWhatIfs.save(whatIf.id, { state: 'running', startedAtMs: env.nowMs, plansDone: 0 });
  return whatIf;
}

interface Ground extends ChangeGround {
  built: BuiltProblem;
  revision: { id: string; number: number; weightNotInTime: number };
  hours: { most: number; rest: number };
}

/** All in one transaction: the rows, and the plan in force at that moment. */
async function groundOf(stores: Stores, incidentId: string, env: Environment, { slotMinutes }: WhatIfEffort): Promise<Ground | { failure: Said }> {
  const input = await stores.plans.loadInput(incidentId);
  const revision = await stores.plans.currentRevision(incidentId);
  if (input === null || revision === null) return { failure: say('The incident has no plan.') };
  const [climate, people, planning] = [await climateCalibrationInForce(stores), await peopleCalibrationInForce(stores), await planningCalibrationInForce(stores)];
  const built = buildProblem(input, { nowMs: env.nowMs, climate, people, planning, ...(slotMinutes !== undefined && { slotMinutes }) });
  const { problem, windowSlots } = built;
  const grid = new SlotGrid(env.nowMs, problem.slotMinutes, problem.horizonSlots);
  return { input, problem, grid, windowSlots, climate, people, layout: await stores.planWhatIfs.layout(incidentId), built, revision, hours: { most: people.consecutiveHoursMax, rest: people.restHours } };
}

type Outcome = { failure: Said } | { result: PlanWhatIfResult };

async function work(planner: Planner, whatIf: PlanWhatIfRecord, ground: Ground | { failure: Said }, env: Environment, effort: WhatIfEffort, progress: (done: number, inAll: number) => Promise<void>): Promise<Outcome> {
  if ('failure' in ground) return ground;
  const budget: MarginalBudget = { seeds: effort.seeds ?? SEEDS, iterations: effort.iterations };
  try {
    const asked = whatIf.asked ?? (await suggested(planner, ground, env, budget));
    const variants = whatIf.together && asked.length > 0 ? [asked] : asked.map((change) => [change]);
    const whatIfs = whatIfsOf(variants, ground);
    if (whatIfs === null) return { failure: say('Something that a change names is not there any more. Look at the layout and ask again.') };
    const plans = await planAll(planner, ground, whatIfs, budget, progress);
    return 'failure' in plans ? plans : { result: resultOf(whatIf, ground, variants, whatIfs, budget, plans.made, env) };
  } catch (error) {
    // The same rows would be refused again; anything else may be tried again.
    if (error instanceof MalformedPlanProblem) return { failure: malformed(error) };
    throw error;
  }
}

/** Null where a change names what the problem does not hold: it went between the request and now. */
function whatIfsOf(variants: readonly PlanWhatIfChange[][], ground: Ground): WhatIf[] | null {
  try {
    const whatIfs = variants.map((changes) => changes.map((change) => toProblemChange(change, ground)));
    for (const whatIf of whatIfs) changedProblem(ground.problem, whatIf);
    return whatIfs;
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** By a plan of the rows as they stand: what is short now, not what was short when the plan in force was made. */
async function suggested(planner: Planner, ground: Ground, env: Environment, { seeds, iterations }: MarginalBudget): Promise<PlanWhatIfChange[]> {
  const { previous: _, ...problem } = ground.problem;
  return suggestedChanges(await planner.plan(problem, { seed: seeds[0] ?? 1, iterations }), ground, env.nowMs);
}

async function planAll(planner: Planner, { problem }: Ground, whatIfs: readonly WhatIf[], budget: MarginalBudget, progress: (done: number, inAll: number) => Promise<void>): Promise<{ failure: Said } | { made: Plan[] }> {
  const runs = marginalRuns(problem, whatIfs, budget);
  const made: Plan[] = [];
  await progress(0, runs.length);
  for (const run of runs) {
    const plan = await planner.plan(run.problem, { seed: run.seed, iterations: budget.iterations });
    const [broken] = validatePlan(run.problem, plan);
    if (broken !== undefined) return { failure: say('A plan of it broke the rule {rule} and was thrown away, which is a fault of ours. Tell who runs the service.', { rule: broken.rule }) };
    made.push(plan);
    await progress(made.length, runs.length);
  }
  return { made };
}

function resultOf(whatIf: PlanWhatIfRecord, ground: Ground, variants: readonly PlanWhatIfChange[][], whatIfs: readonly WhatIf[], budget: MarginalBudget, plans: readonly Plan[], env: Environment): PlanWhatIfResult {
  const { problem, input, built, revision, hours } = ground;
  const values = marginalValuesOf(problem, revision.weightNotInTime, whatIfs, budget, plans);
  const isKnown = problem.items.some(({ id }) => id === whatIf.itemId);
  return {
    asOfMs: env.nowMs, revisionId: revision.id, revisionNumber: revision.number, seeds: [...budget.seeds], iterations: budget.iterations,
    weightNotInTimeInForce: revision.weightNotInTime,
    weightNotInTime: bandOf(plans.slice(0, budget.seeds.length).map((plan) => summarise(input, built, plan).notInTime.weight)),
    values: values.values.map((value, i) => storedValue(variants[i] ?? [], value)),
    item: whatIf.itemId !== null && isKnown ? helpForItemOf(problem, whatIf.itemId, whatIfs.length, budget, plans) : null,
    hours,
  };
}

function storedValue(changes: PlanWhatIfChange[], { weightSaved, saved, lost }: MarginalValue): StoredValue {
  return { changes, weightSaved, savedItems: saved.length, lostItems: lost.length, saved: saved.slice(0, MOST_NAMED), lost: lost.slice(0, MOST_NAMED) };
}

function malformed({ faults }: MalformedPlanProblem): Said {
  return say('What is on record could not be made into a plan, which is a fault of ours. Tell who runs the service: {found}.', { found: faults.slice(0, 3).map(({ path, text }) => `${path} ${text}`).join('; ') });
}

async function finish(stores: Stores, message: Message, env: Environment, outcome: Outcome): Promise<'done' | 'failed' | 'overtaken'> {
  // First the row: of two runs of one message only one goes on.
  if (!(await stores.outbox.markDone(message.id))) return 'overtaken';
  const now = await stores.planWhatIfs.lock(message.subjectId);
  if (now === null || isOver(now)) return 'overtaken';
  const state = 'failure' in outcome ? 'failed' : 'done';
  await stores.planWhatIfs.save(now.id, { state, finishedAtMs: env.nowMs, ...outcome });
  return state;
}

function isOver({ state }: PlanWhatIfRecord): boolean {
  return state === 'done' || state === 'failed';
}
