/** The worker's part of a plan: from the request to a stored revision. */
import { MalformedPlanProblem, validatePlan, type Plan } from '#planning';
import type { CallContext, Environment } from '../context.js';
import type { OutboxMessage } from '../ports/outbox-store.js';
import type { Planner } from '../ports/planner.js';
import type { PlanInput } from '../ports/plan-input.js';
import type { PlanRevisionRecord, PlanRunRecord } from '../ports/plan-store.js';
import type { Stores, UnitOfWork } from '../ports/work.js';
import { type BuiltProblem, buildProblem } from './build-problem.js';
import { summarise } from './plan-summary.js';

type Message = Pick<OutboxMessage, 'id' | 'subjectId'>;

/** How long to look for a better plan. */
export interface PlanEffort {
  /** Rounds of improvement after the first plan. */
  iterations: number;
  /** 1 when not given: two plans of the same rows are then the same plan. */
  seed?: number;
  slotMinutes?: number;
  windowHours?: number;
}

interface Begun {
  run: PlanRunRecord;
  epoch: number;
}

/** What there is to store: a plan that was found sound, or a sentence why there is none. */
type Outcome = { failure: string } | { input: PlanInput; built: BuiltProblem; plan: Plan };

/**
 * Carries out a requested plan run. It may be killed at any moment and run again, or run beside itself and beside later
 * runs: the revision and the mark on the outbox row are written in one transaction, in the order of the epochs. A run that
 * comes after the plan of a later epoch is overtaken: that plan has read all that this run was asked for, so the run ends
 * with it, stores nothing and does not come again. A plan with violations is never stored.
 */
export async function runPlan(unitOfWork: UnitOfWork, planner: Planner, message: Message, context: CallContext, env: Environment, effort: PlanEffort): Promise<'done' | 'failed' | 'overtaken'> {
  const begun = await unitOfWork.write(context, (stores) => begin(stores, message, env));
  if (typeof begun === 'string') return begun;
  const input = await unitOfWork.read(context, (stores) => stores.plans.loadInput(begun.run.incidentId));
  const outcome = await work(planner, input, env, effort);
  return unitOfWork.write(context, (stores) => finish(stores, message, env, begun, outcome));
}

/** Ends a run whose work was given up after all tries, so that it stands in nobody's way. */
export async function giveUpPlanRun(unitOfWork: UnitOfWork, message: Message, context: CallContext, env: Environment): Promise<void> {
  await unitOfWork.write(context, async (stores) => {
    const run = await stores.plans.findRun(message.subjectId);
    if (run === null || isOver(run)) return;
    await stores.plans.saveRun(run.id, { state: 'failed', failure: 'The plan could not be made after several tries. Ask for a new one; if that fails too, tell who runs the service.', finishedAtMs: env.nowMs });
  });
}

/** How it ended when there is nothing left to do; the row is marked then. */
async function begin(stores: Stores, message: Message, env: Environment): Promise<Begun | 'done' | 'overtaken'> {
  const run = await stores.plans.findRun(message.subjectId);
  if (run === null || isOver(run)) {
    await stores.outbox.markDone(message.id);
    return 'done';
  }
  // It broke off after its begin, and a run that began later has stored its plan since.
  if (run.epoch !== null && (await stores.plans.storedEpoch(run.incidentId)) > run.epoch) {
    await stores.outbox.markDone(message.id);
    return endOvertaken(stores, env, run);
  }
  const epoch = await stores.plans.takeEpoch(run.incidentId);
  // Taking the epoch waits for whoever is storing a plan: the same run beside itself may have ended meanwhile, and stays so.
  const since = await stores.plans.findRun(run.id);
  if (since === null || isOver(since)) return 'done';
  await stores.plans.saveRun(run.id, { state: 'running', startedAtMs: env.nowMs, epoch });
  return { run, epoch };
}

/** Ends a run with the newer plan that covers it. */
async function endOvertaken(stores: Stores, env: Environment, run: PlanRunRecord): Promise<'overtaken'> {
  const newer = await stores.plans.currentRevision(run.incidentId);
  await stores.plans.saveRun(run.id, { state: 'done', revisionId: newer?.id ?? null, finishedAtMs: env.nowMs });
  return 'overtaken';
}

async function work(planner: Planner, input: PlanInput | null, env: Environment, effort: PlanEffort): Promise<Outcome> {
  if (input === null) return { failure: 'The incident is gone.' };
  const { iterations, seed = 1, ...fineness } = effort;
  const built = buildProblem(input, { nowMs: env.nowMs, ...fineness });
  try {
    const plan = await planner.plan(built.problem, { seed, iterations });
    const [first, ...more] = validatePlan(built.problem, plan);
    if (first === undefined) return { input, built, plan };
    return { failure: `The plan broke ${more.length + 1} rules and was thrown away, which is a fault of ours. First: ${first.text}` };
  } catch (error) {
    // The same rows would be refused again; anything else may be tried again.
    if (error instanceof MalformedPlanProblem) return { failure: error.message };
    throw error;
  }
}

async function finish(stores: Stores, message: Message, env: Environment, { run, epoch }: Begun, outcome: Outcome): Promise<'done' | 'failed' | 'overtaken'> {
  // First the row: of two runs of one message only one goes on, and the other must not claim to have stored a plan.
  if (!(await stores.outbox.markDone(message.id))) return 'overtaken';
  if ('failure' in outcome) {
    if ((await stores.plans.storedEpoch(run.incidentId)) > epoch) return endOvertaken(stores, env, run);
    await stores.plans.saveRun(run.id, { state: 'failed', failure: outcome.failure, finishedAtMs: env.nowMs });
    return 'failed';
  }
  if (!(await stores.plans.claimStoring(run.incidentId, epoch))) return endOvertaken(stores, env, run);
  const revision = toRevision(run.incidentId, env, outcome.input, outcome.built, outcome.plan);
  await stores.plans.saveRevision(revision, outcome.plan, outcome.built.leftOut);
  await stores.plans.saveRun(run.id, { state: 'done', revisionId: revision.id, finishedAtMs: env.nowMs });
  return 'done';
}

function toRevision(incidentId: string, env: Environment, input: PlanInput, built: BuiltProblem, plan: Plan): Omit<PlanRevisionRecord, 'number'> {
  const summary = summarise(input, built, plan);
  return {
    id: env.newId(), incidentId, originAtMs: built.problem.originMs, slotMinutes: built.problem.slotMinutes, seed: plan.seed, iterations: plan.iterations,
    weightNotInTime: summary.notInTime.weight, weightedStart: plan.objective[1],
    plannedItems: new Set(plan.assignments.map(({ itemId }) => itemId)).size, unplannedItems: plan.unplanned.length + built.leftOut.length,
    summary, createdAtMs: env.nowMs,
  };
}

function isOver(run: PlanRunRecord): boolean {
  return run.state === 'done' || run.state === 'failed';
}
