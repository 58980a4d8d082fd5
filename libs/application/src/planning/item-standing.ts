/** What a plan may do for one item: which routes are open to it, what is left of them, and how its clock stands. */
import type { Disposition, StepKind } from '#care';
import type { InputItem, InputOption, InputStep } from '../ports/plan-input.js';
import type { NotPlanned } from '../ports/plan-store.js';
import { settledSteps } from '../care/done-steps.js';
import { thawBefore } from '../care/route.js';

/** One route with the steps that are left for the plan. */
export interface OpenRoute {
  disposition: Disposition;
  steps: InputStep[];
  /** Position at which the item counts as safe, and whether at its start or end; null when the route saves nothing. */
  safe: { position: number; at: 'start' | 'end' } | null;
  /** Blotted before it is hung, whether already or on the way. */
  blotted: boolean;
  /** The specialist who does its step `refer`; left out on routes that have none. */
  specialistId?: string;
}

/** How an item stands before the plan is made. */
export type Standing =
  | {
      kind: 'to-plan';
      routes: OpenRoute[];
      /** No clock drives it: it is safe already, on its way out, or every deadline has passed. */
      stabilised: boolean;
      /** Every deadline has passed; it is planned after all that can still be in time. */
      late: boolean;
      /** It waits for its owner; only looking at it is planned. */
      lookOnly: boolean;
      deadlineMs: number;
    }
  | { kind: 'left-out'; why: Extract<NotPlanned['blockedBy']['kind'], 'owner' | 'appointment' | 'assessment' | 'wish'> }
  | { kind: 'nothing-to-do' };

/** Steps that are appointments with people outside; a plan of the hall does not place them, but a referral to a specialist whose time is known. */
const APPOINTMENTS: ReadonlySet<StepKind> = new Set(['refer', 'release', 'hand-back']);
/** Steps that need nobody's leave: nothing touches the thing but hands. */
const LOOKING: ReadonlySet<StepKind> = new Set(['tag', 'assess']);
/** Steps after which every route is still open. */
const UNCOMMITTED: ReadonlySet<StepKind> = new Set(['tag', 'photograph', 'assess', 'colour-test']);

/** Steps that need not be done (again), by the rules of the care commands. */
export function settledOf(item: Pick<InputItem, 'doneSteps' | 'mould'>): Set<StepKind> {
  return new Set(settledSteps(new Set(item.doneSteps), item.mould));
}

/**
 * How the item stands. `present` is the step that is being worked on now, if any; `takers` are the specialists who would take it
 * and whose time is known, in the order of preference.
 */
export function itemStandingOf(item: InputItem, present: StepKind | null, nowMs: number, takers: readonly string[] = []): Standing {
  if (item.stage === 'held-frozen') return frozenStanding(item, nowMs, takers);
  const offered = offeredOptions(item);
  if (offered.length === 0) return item.stabilisedAtMs === null ? { kind: 'left-out', why: 'assessment' } : { kind: 'nothing-to-do' };
  const done = doneOrBegun(item, present);
  const preferred = openOptions(item, offered, present);
  const safe = item.stabilisedAtMs !== null || isSafeNow(item, preferred, done);
  // What is safe, or was with a specialist in this round, is not sent away as a second choice.
  const open = safe || done.has('refer') || takers.length === 0 ? preferred : openOptions(item, offered, present, true);
  const routes = open.flatMap((option) => remainingRoutes(option, done, takers));
  const usable = routes.filter(({ steps }) => steps.length > 0);
  if (usable.length > 0) return toPlan(item, usable, safe, nowMs);
  if (safe) return { kind: 'nothing-to-do' };
  if (open.some(endsInAppointment)) return { kind: 'left-out', why: 'appointment' };
  return open.length === 0 ? waiting(item, offered, done, nowMs) : { kind: 'nothing-to-do' };
}

/** A frozen thing lies until a lead chooses another way for it; then it is thawed and a new round of work begins. */
function frozenStanding(item: InputItem, nowMs: number, takers: readonly string[]): Standing {
  const option = offeredOptions(item).find(({ disposition, needs }) => disposition === item.disposition && needs === 0);
  if (item.nextStep !== 'thaw' || option === undefined || option.disposition === 'hold-frozen') return { kind: 'nothing-to-do' };
  return toPlan(item, remainingRoutes({ ...option, steps: [thawBefore(option), ...option.steps] }, new Set(), takers), true, nowMs);
}

/** The overridden disposition alone, else all that triage offers; each disposition once. */
function offeredOptions(item: InputItem): InputOption[] {
  const once = item.options.filter((option, i) => item.options.findIndex(({ disposition }) => disposition === option.disposition) === i);
  const chosen = once.filter(({ disposition }) => disposition === item.override);
  return chosen.length > 0 ? chosen : once;
}

/** Steps that are done or are being done. Laying out at a station is not the drying itself. */
function doneOrBegun(item: InputItem, present: StepKind | null): Set<StepKind> {
  const done = settledOf(item);
  if (present !== null && present !== 'dry') done.add(present);
  if (item.stage !== 'drying') return done;
  const route = dryingRoute(item);
  for (const { step } of route?.steps.slice(0, route.steps.findIndex(({ step: kind }) => kind === 'dry') + 1) ?? []) done.add(step);
  return done.add('dry');
}

function dryingRoute(item: InputItem): InputOption | undefined {
  const dries = item.options.filter(({ steps }) => steps.some(({ step }) => step === 'dry'));
  return dries.find(({ disposition }) => disposition === item.disposition) ?? dries[0];
}

/** Options that nothing is missing for, without those that the work under way has ruled out. */
function openOptions(item: InputItem, offered: readonly InputOption[], present: StepKind | null, mayRefer = false): InputOption[] {
  let open = offered.filter(({ needs }) => needs === 0);
  if (item.stage === 'drying') {
    const route = dryingRoute(item);
    return open.filter((option) => option.disposition === route?.disposition);
  }
  if (item.stage === 'held-wet') open = open.filter(({ disposition }) => disposition !== 'hold-wet');
  // Where no specialist's time is known, a referral is planned where triage prefers it and never as a cheap way out.
  open = open.filter(({ disposition }, i) => i === 0 || (disposition !== 'refer' && disposition !== 'release') || (disposition === 'refer' && mayRefer));
  if (present === null || UNCOMMITTED.has(present)) return open;
  const begun = open.filter(({ steps }) => steps.some(({ step }) => step === present));
  return begun.length > 0 ? begun : open;
}

/** What is left of a route for this plan: once for each specialist who would take the item where it ends with one of them. */
function remainingRoutes(option: InputOption, done: ReadonlySet<StepKind>, takers: readonly string[]): OpenRoute[] {
  const route = remainingRoute(option, done);
  const referral = option.disposition === 'refer' && !done.has('refer') ? option.steps.find(({ step }) => step === 'refer') : undefined;
  if (referral === undefined || takers.length === 0 || route.steps.some(({ step }) => step === 'dry')) return [route];
  const steps = [...route.steps, referral];
  const early = route.steps.findIndex(({ stabilises }) => stabilises);
  // From the start of it the thing is in the hands of the specialist, who makes it safe by means that the hall does not have.
  const safe = early >= 0 ? { position: early, at: 'end' } as const : { position: steps.length - 1, at: 'start' } as const;
  return takers.map((specialistId) => ({ ...route, steps, safe, specialistId }));
}

/** What is left of a route for this plan. What follows drying is planned when the item hangs. */
function remainingRoute(option: InputOption, done: ReadonlySet<StepKind>): OpenRoute {
  // A route holds each step once; the planner must be able to rely on it.
  const left = option.steps.filter(({ step }, i) => !done.has(step) && !APPOINTMENTS.has(step) && option.steps.findIndex((other) => other.step === step) === i);
  const dryAt = left.findIndex(({ step }) => step === 'dry');
  const steps = dryAt < 0 ? left : left.slice(0, dryAt + 1);
  return { disposition: option.disposition, steps, safe: safetyOf(option, steps), blotted: done.has('blot') || steps.some(({ step }) => step === 'blot') };
}

function safetyOf(option: InputOption, steps: readonly InputStep[]): OpenRoute['safe'] {
  if (option.disposition === 'release' || steps.length === 0) return null;
  const position = steps.findIndex(({ stabilises }) => stabilises);
  if (position >= 0) return { position, at: steps[position]?.step === 'dry' ? 'start' : 'end' };
  // Ready in time for the courier or the family is what the hall can do; the rest is an appointment.
  return endsInAppointment(option) ? { position: steps.length - 1, at: 'end' } : null;
}

function endsInAppointment(option: InputOption): boolean {
  return option.steps.some(({ step, stabilises }) => stabilises && APPOINTMENTS.has(step));
}

/** The step that makes it safe is done or under way. */
function isSafeNow(item: InputItem, open: readonly InputOption[], done: ReadonlySet<StepKind>): boolean {
  const followed = open.find(({ disposition }) => disposition === item.disposition) ?? open[0];
  return followed?.steps.some(({ step, stabilises }) => stabilises && done.has(step)) ?? false;
}

function toPlan(item: InputItem, routes: OpenRoute[], safe: boolean, nowMs: number, lookOnly = false): Standing {
  const onTheWayOut = !lookOnly && routes.every(({ disposition }) => disposition === 'release');
  const deadlineMs = nextDeadline(item, nowMs);
  const late = !safe && !onTheWayOut && deadlineMs === null;
  return { kind: 'to-plan', routes, stabilised: safe || onTheWayOut || late, late, lookOnly, deadlineMs: deadlineMs ?? nowMs };
}

/** An item without an open route: looking at it can be planned, the rest waits for the owner. */
function waiting(item: InputItem, offered: readonly InputOption[], done: ReadonlySet<StepKind>, nowMs: number): Standing {
  const [first] = offered;
  const ahead = first?.steps.filter(({ step }) => !done.has(step)) ?? [];
  const end = ahead.findIndex(({ step }) => !LOOKING.has(step));
  const steps = end < 0 ? ahead : ahead.slice(0, end);
  if (first === undefined || steps.length === 0) return { kind: 'left-out', why: 'owner' };
  const route: OpenRoute = { disposition: first.disposition, steps, safe: { position: steps.length - 1, at: 'end' }, blotted: false };
  return toPlan(item, [route], false, nowMs, true);
}

/** The earliest moment that can still be met; null when all have passed. */
function nextDeadline(item: InputItem, nowMs: number): number | null {
  const ahead = [...item.deadlinesMs, ...(item.startByMs === null ? [] : [item.startByMs])].filter((ms) => ms > nowMs);
  return ahead.length === 0 ? null : ahead.reduce((earliest, ms) => Math.min(earliest, ms));
}
