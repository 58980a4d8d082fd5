/** The dated path of what is ready and nobody fetches: two reminders, then a named person decides. */
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { UncollectedRecord } from '../ports/uncollected-store.js';
import type { Stores } from '../ports/work.js';

const DAY_MS = 24 * 3_600_000;

/** Days from the opening until the first and the second reminder and the decision: our own calibration. Families have no home yet. */
export const PATH_DAYS = { firstReminder: 7, secondReminder: 21, decide: 42 } as const;

export interface PathDays {
  firstReminder: number;
  secondReminder: number;
  decide: number;
}

/** What is due now; null while nothing is. */
export type PathDue = 'first-reminder' | 'second-reminder' | 'decision';

/** What somebody should do about it at a moment. */
export function dueOf(path: Pick<UncollectedRecord, 'state' | 'reminders' | 'firstReminderAtMs' | 'secondReminderAtMs' | 'decideAtMs'>, nowMs: number): PathDue | null {
  if (path.state !== 'open') return null;
  if (nowMs >= path.decideAtMs) return 'decision';
  if (nowMs >= path.secondReminderAtMs && path.reminders < 2) return 'second-reminder';
  if (nowMs >= path.firstReminderAtMs && path.reminders < 1) return 'first-reminder';
  return null;
}

/** Opens the path of a household; its days count from `sinceMs`. @throws Problem already_exists, command_refused */
export async function openPath(stores: Stores, call: UseCaseCall, household: { id: string; incidentId: string }, deciderId: string, days: PathDays = PATH_DAYS, sinceMs = call.env.nowMs): Promise<UncollectedRecord> {
  const earlier = await stores.uncollected.openOf(household.id);
  if (earlier) throw new Problem('already_exists', 'The path of this household is open already; its dates stand.', { members: { uncollectedId: earlier.id } });
  if ((await stores.uncollected.held(household.id)) === 0) throw new Problem('command_refused', 'Nothing of this household is with us any more.');
  const path = newPath(call, { incidentId: household.incidentId, householdId: household.id, itemId: null }, { deciderId, days, sinceMs });
  await stores.uncollected.insert(path);
  // Families who wish it are reminded by themselves on the day.
  if ((await stores.familyNews.wishInForce(household.id)) === 'messages') {
    await stores.outbox.appendAhead({ id: call.env.newId(), incidentId: household.incidentId, kind: 'family.news', subjectId: household.id, traceparent: call.context.traceparent }, Math.max(path.firstReminderAtMs - call.env.nowMs, 1));
  }
  return path;
}

/** Opens the path of one found thing, which is locked. There is nobody to remind: its reminders are the notices at the desk. @throws Problem already_exists */
export async function openFoundPath(stores: Stores, call: UseCaseCall, item: { id: string; incidentId: string; householdId: string }, deciderId: string, days: PathDays, sinceMs: number): Promise<UncollectedRecord> {
  const earlier = (await stores.uncollected.ofFound(item.id)).find(({ state }) => state === 'open');
  if (earlier) throw new Problem('already_exists', 'The path of this thing is open already; its dates stand.', { members: { uncollectedId: earlier.id } });
  const path = newPath(call, { incidentId: item.incidentId, householdId: item.householdId, itemId: item.id }, { deciderId, days, sinceMs });
  await stores.uncollected.insert(path);
  return path;
}

function newPath({ context, env }: UseCaseCall, about: Pick<UncollectedRecord, 'incidentId' | 'householdId' | 'itemId'>, { deciderId, days, sinceMs }: { deciderId: string; days: PathDays; sinceMs: number }): UncollectedRecord {
  return {
    id: env.newId(), ...about, openedAtMs: sinceMs, openedBy: context.principalId,
    firstReminderAtMs: sinceMs + days.firstReminder * DAY_MS, secondReminderAtMs: sinceMs + days.secondReminder * DAY_MS, decideAtMs: sinceMs + days.decide * DAY_MS, deciderId,
    reminders: 0, remindedAtMs: null, state: 'open', decision: null, reasonSealed: null, endedAtMs: null, endedBy: null, version: 1,
  };
}

/** A household that has all its things back is waited for no longer. */
export async function endPathWhereAllIsFetched(stores: Stores, call: UseCaseCall, householdId: string): Promise<void> {
  const open = await stores.uncollected.openOf(householdId);
  if (!open || (await stores.uncollected.held(householdId)) > 0) return;
  const path = await stores.uncollected.lock(open.id);
  if (path?.state !== 'open') return;
  await stores.uncollected.save({ ...path, state: 'collected', endedAtMs: call.env.nowMs, endedBy: call.context.principalId });
}
