/** How much of one resource a plan uses over time, for a curve. */
import { Accounts, type LoadKind } from './load-accounts.js';
import type { Plan, PlanProblem } from './types.js';

/** Per slot of the horizon; units as in `ResourceUse`. */
export interface LoadSeries {
  siteId: string;
  kind: LoadKind;
  what: string;
  used: number[];
  available: number[];
}

/**
 * The load of one resource in every slot, fixed uses included; null when neither problem nor plan knows such a resource there.
 * `used` above `available` is an overload: only what had begun before the plan can cause one.
 * @param what step of the stations, skill (empty: all people), or the id of a room, freezer or service.
 * @param siteId empty for a service, which is on no site.
 */
export function loadSeries(problem: PlanProblem, plan: Plan, kind: LoadKind, what: string, siteId: string): LoadSeries | null {
  const account = new Accounts(problem, plan).find(siteId, kind, what);
  return account === undefined ? null : { siteId, kind, what, used: [...account.used], available: [...account.available] };
}

/** A stretch of slots with the same load. */
export interface LoadStretch { from: number; to: number; used: number; available: number }

/** The series between two slots, equal neighbours joined. */
export function loadStretches({ used, available }: Pick<LoadSeries, 'used' | 'available'>, from = 0, to = used.length): LoadStretch[] {
  const stretches: LoadStretch[] = [];
  for (let slot = Math.max(0, from); slot < Math.min(to, used.length); slot += 1) {
    const last = stretches.at(-1);
    if (last?.used === used[slot] && last?.available === available[slot]) last!.to = slot + 1;
    else stretches.push({ from: slot, to: slot + 1, used: used[slot]!, available: available[slot]! });
  }
  return stretches;
}
