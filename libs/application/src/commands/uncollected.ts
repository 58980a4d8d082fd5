import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { refuseUnknownOwner } from '../claims/unknown-owner.js';
import { momentOf, personOf } from '../care/claims.js';
import { openPath, type PathDays } from '../hand-back/uncollected-path.js';
import { personalField } from '../ports/personal-store.js';
import type { UncollectedDecision, UncollectedRecord } from '../ports/uncollected-store.js';
import type { Stores } from '../ports/work.js';

export interface OpenUncollectedInput {
  householdId: string;
  deciderId: string;
  days: PathDays;
  /** Since when the things are ready and the family knows it; now when null. */
  readyAtMs: number | null;
}

/** Begins to wait for a household whose things are ready: dates for two reminders and for the decision of a named person. */
export async function openUncollected(stores: Stores, call: UseCaseCall, input: OpenUncollectedInput): Promise<UncollectedRecord> {
  const household = await stores.households.find(input.householdId);
  if (!household) throw notFound('household');
  refuseUnknownOwner(household);
  await personOf(stores, household.incidentId, input.deciderId, '#/deciderId');
  return openPath(stores, call, household, input.deciderId, input.days, momentOf(call, input.readyAtMs, '#/readyAt'));
}

/** Records that the family was reminded; how and with what words stands with the messages. For a found thing, that the notice at the desk was looked after. */
export async function recordReminder(stores: Stores, call: UseCaseCall, input: { uncollectedId: string }): Promise<UncollectedRecord> {
  const path = await openOne(stores, input.uncollectedId);
  if (path.reminders >= 2) throw new Problem('command_refused', 'Both reminders are on record already.', { members: { reminders: path.reminders } });
  const reminded: UncollectedRecord = { ...path, reminders: path.reminders + 1, remindedAtMs: call.env.nowMs };
  await stores.uncollected.save(reminded);
  return { ...reminded, version: path.version + 1 };
}

export interface DecideUncollectedInput {
  uncollectedId: string;
  personId: string;
  decision: UncollectedDecision;
  reason: string;
  /** Of the next path, when the things are kept longer. */
  days: PathDays;
}

/**
 * What happens to things that nobody fetched, decided by the person who was named for it when the time has passed. Nothing is let go
 * by it: that needs the owner's word for each item (`release`). Kept longer, a new path begins.
 */
export async function decideUncollected(stores: Stores, call: UseCaseCall, input: DecideUncollectedInput): Promise<UncollectedRecord> {
  const path = await openOne(stores, input.uncollectedId);
  if (path.itemId !== null) throw new Problem('command_refused', 'This path is that of a found thing, about which two people decide with POST /v1/uncollected/{uncollectedId}/unclaimed-decisions.', { members: { reason: 'found' } });
  if (path.deciderId !== input.personId) throw new Problem('command_refused', 'Another person was named to decide this.', { errors: [{ detail: 'is not the person who decides', code: 'not_the_decider', pointer: '#/personId' }], members: { deciderId: path.deciderId } });
  if (call.env.nowMs < path.decideAtMs) throw new Problem('command_refused', 'The family still has time. It is decided when the time has passed.', { errors: [{ detail: `may be decided from ${new Date(path.decideAtMs).toISOString()}`, code: 'too_early', pointer: '' }] });
  const reasonSealed = await stores.personal.seal(path.householdId, personalField('uncollected.reason', path.id), input.reason);
  const decided: UncollectedRecord = { ...path, state: 'decided', decision: input.decision, reasonSealed, endedAtMs: call.env.nowMs, endedBy: call.context.principalId };
  await stores.uncollected.save(decided);
  // Whatever is decided, what stays with us is waited for further: nothing is forgotten on a shelf.
  if ((await stores.uncollected.held(path.householdId)) > 0) await openPath(stores, call, { id: path.householdId, incidentId: path.incidentId }, path.deciderId, input.days);
  return { ...decided, version: path.version + 1 };
}

async function openOne(stores: Stores, id: string): Promise<UncollectedRecord> {
  const path = await stores.uncollected.lock(id);
  if (!path) throw notFound('path of uncollected things');
  if (path.state !== 'open') throw new Problem('already_exists', 'It is over already; how it ended stands.', { members: { state: path.state } });
  return path;
}
