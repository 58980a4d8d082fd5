import { beforeIntake, sameKeeper, verifyChain, type ChainFault, type Stage } from '#custody';
import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { refuseUnknownOwner } from '../claims/unknown-owner.js';
import type { PlanRevisionRecord } from '../ports/plan-store.js';
import type { ChainHead, HouseholdItemView, MatterTally, PlaceFill, RiskTally, RoomAir, StageTally, UrgencyTally } from '../ports/report-store.js';
import type { Stores } from '../ports/work.js';
import { verifyContainers, type ContainerChains } from './containers.js';

export interface SituationReport {
  incidentId: string;
  atMs: number;
  stages: StageTally[];
  urgencies: UrgencyTally[];
  stabilised: RiskTally;
  overdue: RiskTally;
  atRiskUntil: RiskTally & { untilMs: number };
  waitingForOwner: number;
  matters: MatterTally;
  fills: PlaceFill[];
  rooms: RoomAir[];
  plan: PlanRevisionRecord | null;
}

/** The coordinator's picture at this moment, and what is at risk until a time she names. */
export async function situationReport(stores: Stores, call: UseCaseCall, input: { incidentId: string; untilMs: number }): Promise<SituationReport> {
  const { incidentId, untilMs } = input;
  if (!(await stores.places.incident(incidentId))) throw notFound('incident');
  const { reports } = stores;
  return {
    incidentId,
    atMs: call.env.nowMs,
    stages: await reports.stages(incidentId),
    urgencies: await reports.urgencies(incidentId, call.env.nowMs),
    stabilised: await reports.stabilised(incidentId),
    overdue: await reports.atRisk(incidentId, call.env.nowMs),
    atRiskUntil: { ...(await reports.atRisk(incidentId, untilMs)), untilMs },
    waitingForOwner: await reports.waitingForOwner(incidentId),
    matters: await reports.matters(incidentId),
    fills: await reports.fills(incidentId),
    rooms: await reports.rooms(incidentId),
    plan: await stores.plans.currentRevision(incidentId),
  };
}

export interface Reconciliation {
  incidentId: string;
  /** Items that entered, by their custody events. */
  received: number;
  byStage: Record<Stage, number>;
  /** Received minus the sum of all stages; anything but 0 is a fault of ours. */
  difference: number;
  /** Items whose chain does not end at exactly the one keeper that the item shows. */
  keepersOtherThanOne: string[];
  /** Custody chains that fail to verify, with the place of the first fault. */
  chainFaults: ChainFault[];
  eventsVerified: number;
  /** The same for containers, which are kept like items. */
  containers: ContainerChains;
}

const BATCH = 500;
/** So that a broken database does not answer with megabytes. */
const NAMED_AT_MOST = 100;

/** Adds up every item and verifies every custody chain of an incident, from the events alone. */
export async function reconcile(stores: Stores, call: UseCaseCall, input: { incidentId: string }): Promise<Reconciliation> {
  if (!(await stores.places.incident(input.incidentId))) throw notFound('incident');
  const stages = await stores.reports.stages(input.incidentId);
  const received = await stores.reports.entered(input.incidentId);
  const found = await verifyAll(stores, input.incidentId);
  return {
    incidentId: input.incidentId,
    received,
    byStage: Object.fromEntries(stages.map((tally) => [tally.stage, tally.items])) as Record<Stage, number>,
    difference: received - stages.reduce((sum, tally) => sum + tally.items, 0),
    ...found,
    containers: await verifyContainers(stores, call.context.networkId, input.incidentId),
  };
}

async function verifyAll(stores: Stores, incidentId: string): Promise<Pick<Reconciliation, 'keepersOtherThanOne' | 'chainFaults' | 'eventsVerified'>> {
  const keepersOtherThanOne: string[] = [];
  const chainFaults: ChainFault[] = [];
  let eventsVerified = 0;
  let after: string | null = null;
  for (;;) {
    const heads = await stores.reports.heads(incidentId, BATCH, after);
    const chains = await stores.reports.chains(heads.map((head) => head.itemId));
    for (const head of heads) {
      const chain = chains.get(head.itemId) ?? [];
      eventsVerified += chain.length;
      if (!endsAtKeeper(head, chain.at(-1)?.to ?? null) && keepersOtherThanOne.length < NAMED_AT_MOST) keepersOtherThanOne.push(head.itemId);
      const faults = verifyChain(chain, { ...beforeIntake(chain[0]?.networkId ?? '', head.itemId), seq: head.seq, headHash: head.headHash, keeper: head.keeper, stage: head.stage, matters: head.matters });
      if (faults[0] && chainFaults.length < NAMED_AT_MOST) chainFaults.push(faults[0]);
    }
    after = heads.at(-1)?.itemId ?? null;
    if (heads.length < BATCH || after === null) return { keepersOtherThanOne, chainFaults, eventsVerified };
  }
}

function endsAtKeeper(head: ChainHead, last: ChainHead['keeper'] | null): boolean {
  return last !== null && sameKeeper(last, head.keeper);
}

export interface HouseholdReport {
  householdId: string;
  code: string;
  language: string;
  atMs: number;
  items: HouseholdItemView[];
}

/** What one household may be told: its own things, where they stand, what it is asked. */
export async function householdReport(stores: Stores, call: UseCaseCall, input: { householdId: string }): Promise<HouseholdReport> {
  const household = await stores.households.find(input.householdId);
  if (!household) throw notFound('household');
  refuseUnknownOwner(household);
  return { householdId: household.id, code: household.code, language: household.language, atMs: call.env.nowMs, items: await stores.reports.householdItems(household.id) };
}
