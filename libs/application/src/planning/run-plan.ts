/** The worker's part of a plan: from the request to a stored revision. */
import { say, type Message as Said } from '#care';
import { MalformedPlanProblem, validatePlan, type Plan, type PlanAssignment, type PlanViolation } from '#planning';
import { climateCalibrationInForce, peopleCalibrationInForce, planningCalibrationInForce } from '../calibration/in-force.js';
import type { CallContext, Environment } from '../context.js';
import type { OutboxMessage } from '../ports/outbox-store.js';
import type { Planner } from '../ports/planner.js';
import type { PlanInput } from '../ports/plan-input.js';
import type { PlannedStanding, PlanRevisionRecord, PlanRunRecord, RevisionContent } from '../ports/plan-store.js';
import type { LapsedWish } from '../ports/plan-wish-store.js';
import type { Stores, UnitOfWork } from '../ports/work.js';
import { type BuiltProblem, buildProblem, type ProblemOptions } from './build-problem.js';
import { summarise } from './plan-summary.js';
import { PIN_TAKEN, withoutPins } from './wishes.js';

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
type Outcome = { failure: Said } | Made;

interface Made {
  input: PlanInput;
  built: BuiltProblem;
  plan: Plan;
  /** Wishes that cannot hold any more. */
  lapsed: LapsedWish[];
}

/**
 * Carries out a requested plan run. It may be killed at any moment and run again, or run beside itself and beside later
 * runs: the revision and the mark on the outbox row are written in one transaction, in the order of the epochs. A run that
 * comes after the plan of a later epoch is overtaken: that plan has read all that this run was asked for, so the run ends
 * with it, stores nothing and does not come again. A plan with violations is never stored.
 */
export async function runPlan(unitOfWork: UnitOfWork, planner: Planner, message: Message, context: CallContext, env: Environment, effort: PlanEffort): Promise<'done' | 'failed' | 'overtaken'> {
  const begun = await unitOfWork.write(context, (stores) => begin(stores, message, env, effort.iterations));
  if (typeof begun === 'string') return begun;
  const ground = await unitOfWork.read(context, (stores) => groundOf(stores, begun.run.incidentId));
  const progress = reporter(unitOfWork, context, begun);
  const outcome = await work(planner, ground, env, effort, progress.tell);
  await progress.end();
  return unitOfWork.write(context, (stores) => finish(stores, message, env, begun, outcome));
}

/** Ends a run whose work was given up after all tries, so that it stands in nobody's way. */
export async function giveUpPlanRun(unitOfWork: UnitOfWork, message: Message, context: CallContext, env: Environment): Promise<void> {
  await unitOfWork.write(context, async (stores) => {
    const run = await stores.plans.lockRun(message.subjectId);
    if (run === null || isOver(run)) return;
    await stores.plans.saveRun(run.id, { state: 'failed', failure: say('The plan could not be made after several tries. Ask for a new one; if that fails too, tell who runs the service.'), finishedAtMs: env.nowMs });
  });
}

/**
 * How it ended when there is nothing left to do; the row is marked then, but by whoever ended it beside this one. Whoever changes
 * a run takes its locks in one order, so that two of them never block each other: outbox row, run, epoch.
 */
async function begin(stores: Stores, message: Message, env: Environment, rounds: number): Promise<Begun | 'done' | 'overtaken'> {
  const found = await stores.plans.findRun(message.subjectId);
  const brokeOff = found !== null && !isOver(found) && found.epoch !== null && (await stores.plans.storedEpoch(found.incidentId)) > found.epoch;
  if (found === null || isOver(found) || brokeOff) await stores.outbox.markDone(message.id);
  // The same run beside itself may be ending at this moment; what has ended stays so.
  const run = await stores.plans.lockRun(message.subjectId);
  if (run === null || isOver(run)) return 'done';
  // A run that began later has stored its plan since this one broke off.
  if (brokeOff) return endOvertaken(stores, env, run);
  const epoch = await stores.plans.takeEpoch(run.incidentId);
  await stores.plans.saveRun(run.id, { state: 'running', startedAtMs: env.nowMs, epoch, rounds: { done: 0, inAll: rounds } });
  return { run, epoch };
}

/**
 * Writes how far a run has come, for whoever waits for it: one write at a time, and what comes meanwhile is left out. It is only for
 * show, so nothing fails for it.
 */
function reporter(unitOfWork: UnitOfWork, context: CallContext, { run, epoch }: Begun): { tell: (rounds: number) => void; end: () => Promise<void> } {
  let writing: Promise<void> | null = null;
  const tell = (rounds: number): void => {
    writing ??= unitOfWork.write(context, (stores) => stores.plans.saveRounds(run.id, epoch, rounds)).catch(() => undefined).finally(() => { writing = null; });
  };
  return { tell, end: async () => { await writing; } };
}

/** Ends a run with the newer plan that covers it. */
async function endOvertaken(stores: Stores, env: Environment, run: PlanRunRecord): Promise<'overtaken'> {
  const newer = await stores.plans.newestRevision(run.incidentId);
  await stores.plans.saveRun(run.id, { state: 'done', revisionId: newer?.id ?? null, finishedAtMs: env.nowMs });
  return 'overtaken';
}

/** What is on record, and the numbers that the network works with. */
type Ground = Required<Pick<ProblemOptions, 'climate' | 'people' | 'planning'>> & { input: PlanInput | null };

async function groundOf(stores: Stores, incidentId: string): Promise<Ground> {
  return {
    input: await stores.plans.loadInput(incidentId), climate: await climateCalibrationInForce(stores), people: await peopleCalibrationInForce(stores),
    planning: await planningCalibrationInForce(stores),
  };
}

async function work(planner: Planner, { input, ...numbers }: Ground, env: Environment, effort: PlanEffort, onProgress: (rounds: number) => void): Promise<Outcome> {
  if (input === null) return { failure: say('The incident is gone.') };
  try {
    const made = await make(planner, input, (rows) => buildProblem(rows, { nowMs: env.nowMs, ...numbers, ...finenessOf(effort) }), effort, onProgress);
    const [first, ...more] = validatePlan(made.built.problem, made.plan);
    return first === undefined ? made : { failure: brokenPlan(first, more.length + 1) };
  } catch (error) {
    // The same rows would be refused again; anything else may be tried again.
    if (error instanceof MalformedPlanProblem) return { failure: malformed(error) };
    throw error;
  }
}

/** A plan, made anew without the pins that it finds no room for: nothing is lost for being pinned. There are fewer each time. */
async function make(planner: Planner, input: PlanInput, build: (rows: PlanInput) => BuiltProblem, { iterations, seed = 1 }: PlanEffort, onProgress: (rounds: number) => void): Promise<Made> {
  let rows = input;
  const fallen: LapsedWish[] = [];
  for (;;) {
    const built = build(rows);
    const plan = await planner.plan(built.problem, { seed, iterations, onProgress });
    const stuck = new Set(plan.unplanned.filter(({ blockedBy }) => blockedBy.kind === 'pin').map(({ itemId }) => itemId));
    const rest = withoutPins(rows, stuck, PIN_TAKEN);
    if (rest.lapsed.length === 0) return { input, built, plan, lapsed: [...fallen, ...built.lapsed] };
    fallen.push(...rest.lapsed);
    rows = rest.input;
  }
}

function finenessOf({ slotMinutes, windowHours }: PlanEffort): Pick<ProblemOptions, 'slotMinutes' | 'windowHours'> {
  return { ...(slotMinutes !== undefined && { slotMinutes }), ...(windowHours !== undefined && { windowHours }) };
}

/** What is wrong is told in codes and ids, quoted for who runs the service: no coordinator can mend it. */
function brokenPlan({ rule, itemId, resourceId, slot }: PlanViolation, rules: number): Said {
  const first = [rule, itemId, resourceId, slot].filter((part) => part !== null).join(' ');
  return say('The plan broke {rules, plural, one {# rule} other {# rules}} and was thrown away, which is a fault of ours. The plan before it stays in force. Tell who runs the service: {first}.', { rules, first });
}

function malformed({ faults }: MalformedPlanProblem): Said {
  return say('What is on record could not be made into a plan, which is a fault of ours. The plan before it stays in force. Tell who runs the service: {found}.', { found: faults.slice(0, 3).map(({ path, text }) => `${path} ${text}`).join('; ') });
}

async function finish(stores: Stores, message: Message, env: Environment, { run, epoch }: Begun, outcome: Outcome): Promise<'done' | 'failed' | 'overtaken'> {
  // First the row: of two runs of one message only one goes on, and the other must not claim to have stored a plan.
  if (!(await stores.outbox.markDone(message.id))) return 'overtaken';
  const now = await stores.plans.lockRun(run.id);
  if (now === null || isOver(now)) return 'overtaken';
  if ('failure' in outcome) {
    if ((await stores.plans.storedEpoch(run.incidentId)) > epoch) return endOvertaken(stores, env, run);
    await stores.plans.saveRun(run.id, { state: 'failed', failure: outcome.failure, finishedAtMs: env.nowMs });
    return 'failed';
  }
  if (!(await stores.plans.claimStoring(run.incidentId, epoch))) return endOvertaken(stores, env, run);
  const revision = toRevision(run.incidentId, env, outcome);
  await stores.plans.saveRevision(revision, contentOf(outcome));
  await stores.planGrounds.save(run.incidentId, revision.id, { problem: outcome.built.problem, plan: outcome.plan, leftOut: outcome.built.leftOut });
  await stores.planWishes.lapse(outcome.lapsed, env.nowMs);
  await stores.plans.saveRun(run.id, { state: 'done', revisionId: revision.id, finishedAtMs: env.nowMs });
  return 'done';
}

function toRevision(incidentId: string, env: Environment, { input, built, plan }: Made): Omit<PlanRevisionRecord, 'number' | 'publishedAtMs' | 'publishedBy'> {
  const summary = summarise(input, built, plan);
  return {
    id: env.newId(), incidentId, originAtMs: built.problem.originMs, slotMinutes: built.problem.slotMinutes, seed: plan.seed, iterations: plan.iterations,
    weightNotInTime: summary.notInTime.weight, weightedStart: plan.objective.at(-1) ?? 0,
    plannedItems: new Set(plan.assignments.map(({ itemId }) => itemId)).size, unplannedItems: plan.unplanned.length + built.leftOut.length,
    summary, createdAtMs: env.nowMs,
  };
}

function contentOf({ built: { problem, leftOut, late, lookOnly }, plan }: Made): RevisionContent {
  const standingOf = (id: string, stabilised: boolean): PlannedStanding => (late.has(id) ? 'late' : lookOnly.has(id) ? 'look-only' : stabilised ? 'follow-up' : 'in-time');
  const ofItem = new Map(problem.items.map((item) => [item.id, item]));
  const serviceOf = ({ itemId, option, position }: PlanAssignment): string | null => ofItem.get(itemId)?.options[option]?.steps[position]?.services?.[0]?.serviceId ?? null;
  return { plan, serviceOf, alsoUnplanned: leftOut, items: new Map(problem.items.map(({ id, stabilised, weight }) => [id, { standing: standingOf(id, stabilised), weight }])) };
}

function isOver(run: PlanRunRecord): boolean {
  return run.state === 'done' || run.state === 'failed';
}
