/** What the plan uses of each resource over time and what its rejections ask for: the basis of a call for help. */
import { Accounts, type LoadKind } from './load-accounts.js';
import type { Blocker, Interval, Plan, PlanProblem } from './types.js';

/** Use of a resource in one stretch of time. */
export interface UsePeriod extends Interval {
  used: number;
  available: number;
  /** Used per thousand available; 0 when nothing is available. May exceed 1,000 where fixed uses overdraw. */
  permille: number;
}

/**
 * Use of one kind of resource on a site. Units times slots: station, crew and service in units, area in dm2, freezer in cl;
 * room air in grams. A station or person who can do several things counts under each of them.
 */
export interface ResourceUse {
  /** Empty for a service, which is on no site. */
  siteId: string;
  kind: LoadKind;
  /** As in `Blocker`: station kind, skill (empty: all people), room, freezer or service id. */
  what: string;
  total: UsePeriod;
  periods: UsePeriod[];
}

/** Items that one resource keeps out of the plan. */
export interface UnplannedBy {
  siteId: string;
  blockedBy: Blocker;
  /** Weight and number of items that will not be stabilised in time. */
  lostWeight: number;
  lostItems: number;
  /** Items already stabilised whose remaining steps found no place. */
  waitingItems: number;
}

/** Where a plan is tight. */
export interface BindingResources {
  /** By site, kind and name. */
  use: ResourceUse[];
  /** The greatest lost weight first. */
  unplanned: UnplannedBy[];
}

/**
 * Utilisation per resource kind and period, fixed uses included, and the weight left unplanned by blocker. A blocker
 * says what stood in the way most, not how much one more of it would save; that takes a new plan with more of it.
 * @param periodSlots length of a period, a whole number of at least 1; 12 hours (a common operational period) when not given.
 * @throws RangeError when the length is not such a number.
 */
export function bindingResources(problem: PlanProblem, plan: Plan, periodSlots = Math.max(1, Math.round(720 / problem.slotMinutes))): BindingResources {
  if (!Number.isSafeInteger(periodSlots) || periodSlots < 1) throw new RangeError(`A period must be a whole number of at least 1 slot, not ${periodSlots}.`);
  const use = new Accounts(problem, plan).all().map(({ siteId, kind, what, used, available }): ResourceUse => {
    const periods: UsePeriod[] = [];
    for (let from = 0; from < used.length; from += periodSlots) periods.push(period(used, available, from, Math.min(from + periodSlots, used.length)));
    return { siteId, kind, what, total: period(used, available, 0, used.length), periods };
  });
  return { use, unplanned: unplannedBy(problem, plan) };
}

function unplannedBy(problem: PlanProblem, plan: Plan): UnplannedBy[] {
  const items = new Map(problem.items.map((item) => [item.id, item]));
  const groups = new Map<string, UnplannedBy>();
  for (const { itemId, weight, blockedBy } of plan.unplanned) {
    const item = items.get(itemId);
    if (item === undefined) continue;
    const key = JSON.stringify([item.siteId, blockedBy.kind, blockedBy.what]);
    const group = groups.get(key) ?? { siteId: item.siteId, blockedBy, lostWeight: 0, lostItems: 0, waitingItems: 0 };
    if (item.stabilised) group.waitingItems += 1;
    else {
      group.lostWeight += weight;
      group.lostItems += 1;
    }
    groups.set(key, group);
  }
  return [...groups].sort(([ka, a], [kb, b]) => b.lostWeight - a.lostWeight || b.waitingItems - a.waitingItems || (ka < kb ? -1 : 1)).map(([, group]) => group);
}

function period(usedBySlot: Float64Array, availableBySlot: Float64Array, from: number, to: number): UsePeriod {
  let used = 0;
  let available = 0;
  for (let slot = from; slot < to; slot += 1) {
    used += usedBySlot[slot]!;
    available += availableBySlot[slot]!;
  }
  return { from, to, used, available, permille: available === 0 ? 0 : Math.round((1000 * used) / available) };
}
