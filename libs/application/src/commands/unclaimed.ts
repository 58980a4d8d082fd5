import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { foundCalibrationInForce } from '../calibration/in-force.js';
import { momentOf, personOf } from '../care/claims.js';
import { lockOpenItem } from '../care/standing.js';
import { faultOfVoter, LETS_GO, namedTakesPart, NOTICES, unclaimedOutcome, type VoterFault } from '../claims/judge-unclaimed.js';
import { refuseSpokenFor } from '../claims/unclaimed.js';
import { lockUnowned } from '../claims/views.js';
import { openFoundPath, type PathDays } from '../hand-back/uncollected-path.js';
import type { FoundItemRecord } from '../ports/ownership-store.js';
import { personalField } from '../ports/personal-store.js';
import type { UnclaimedDecision, UnclaimedVoteRecord, UncollectedRecord } from '../ports/uncollected-store.js';
import type { Stores } from '../ports/work.js';

export interface OpenUnclaimedInput {
  itemId: string;
  deciderId: string;
  /** Null for the days of our own calibration. */
  days: PathDays | null;
  /** Since when the notice hangs; now when null. */
  noticedAtMs: number | null;
}

/** A path of a found thing with how many of the two have spoken. */
export interface UnclaimedView {
  path: UncollectedRecord;
  votes: number;
}

/** Begins to wait for the owner of a found thing: dates on which the notice at the desk is looked after, and one after which two people may decide. */
export async function openUnclaimed(stores: Stores, call: UseCaseCall, input: OpenUnclaimedInput): Promise<UnclaimedView> {
  const found = await lockUnowned(stores, input.itemId);
  const item = await lockOpenItem(stores, input.itemId);
  await personOf(stores, found.incidentId, input.deciderId, '#/deciderId');
  const days = input.days ?? (await daysInForce(stores));
  return { path: await openFoundPath(stores, call, item, input.deciderId, days, momentOf(call, input.noticedAtMs, '#/noticedAt')), votes: 0 };
}

export interface DecideUnclaimedInput {
  uncollectedId: string;
  personId: string;
  decision: UnclaimedDecision;
  reason: string;
}

/**
 * One of two people says what becomes of a found thing that nobody claimed in its time. Two who agree, each with a key of their own, let it go; one who
 * would keep it, or two who do not agree, keep it, and it is waited for anew. Whoever comes second waits for the first.
 */
export async function decideUnclaimed(stores: Stores, call: UseCaseCall, input: DecideUnclaimedInput): Promise<UnclaimedView> {
  const { found, path } = await lockOpenPath(stores, input.uncollectedId);
  const item = await lockOpenItem(stores, found.itemId);
  refuseEarly(call, path);
  const person = await personOf(stores, path.incidentId, input.personId);
  const before = await stores.uncollected.votes(path.id);
  refuseVoter(faultOfVoter({ personId: person.id, principalId: call.context.principalId }, before));
  if (LETS_GO.includes(input.decision)) await refuseLettingGo(stores, found, path);
  const votes = [...before, await vote(stores, call, path, found.itemId, input)];
  const decision = unclaimedOutcome(votes);
  if (decision === null) return { path, votes: votes.length };
  if (LETS_GO.includes(decision)) await refuseWrongTwo(stores, path, votes);
  const decided: UncollectedRecord = { ...path, state: 'decided', decision, endedAtMs: call.env.nowMs, endedBy: call.context.principalId };
  await stores.uncollected.save(decided);
  if (decision === 'keep-longer') await openFoundPath(stores, call, item, path.deciderId, await daysInForce(stores), call.env.nowMs);
  return { path: { ...decided, version: path.version + 1 }, votes: votes.length };
}

async function daysInForce(stores: Stores): Promise<PathDays> {
  const { firstNoticeDays, secondNoticeDays, decideDays } = await foundCalibrationInForce(stores);
  return { firstReminder: firstNoticeDays, secondReminder: secondNoticeDays, decide: decideDays };
}

/** The found thing first, and with it all claims on it, then the item, then the path: in this order everywhere. */
async function lockOpenPath(stores: Stores, id: string): Promise<{ found: FoundItemRecord; path: UncollectedRecord }> {
  const named = await stores.uncollected.find(id);
  if (!named) throw notFound('path of unclaimed things');
  if (named.itemId === null) throw new Problem('command_refused', 'This path is that of a household, and is decided with POST /v1/uncollected/{uncollectedId}/decisions.', { members: { reason: 'household' } });
  const found = await stores.ownership.findByItem(named.itemId);
  const locked = found && (await stores.ownership.lockFound(found.id));
  const path = await stores.uncollected.lock(id);
  if (!locked || !path) throw new Error('a path without its found thing');
  if (path.state !== 'open') throw new Problem('already_exists', 'It is over already; how it ended stands.', { members: { state: path.state } });
  return { found: locked, path };
}

function refuseEarly(call: UseCaseCall, path: UncollectedRecord): void {
  if (call.env.nowMs >= path.decideAtMs) return;
  throw new Problem('command_refused', 'Its owner still has time. It is decided when the time has passed.', { errors: [{ detail: `may be decided from ${new Date(path.decideAtMs).toISOString()}`, code: 'too_early', pointer: '' }] });
}

const WHY: Record<VoterFault, string> = {
  'decided-before': 'This person has decided about it already. The second word is that of another person.',
  'key-decided-before': 'A word about it was given with this key already. The second person decides with a key of their own.',
};

function refuseVoter(fault: VoterFault | null): void {
  if (fault !== null) throw new Problem('claim_person', WHY[fault], { errors: [{ detail: WHY[fault], code: fault, pointer: '#/personId' }], members: { reason: fault } });
}

/** @throws Problem command_refused, legal_hold */
async function refuseLettingGo(stores: Stores, found: FoundItemRecord, path: UncollectedRecord): Promise<void> {
  await refuseSpokenFor(stores, found);
  if (path.reminders >= NOTICES) return;
  throw new Problem('command_refused', `The notice at the desk is on record ${path.reminders} of ${NOTICES} times, so its owner may not have heard of it. Hang it up anew and record that, or decide \`keep-longer\`.`, { errors: [{ detail: 'needs both notices on record', code: 'notice_missing', pointer: '#/decision' }], members: { notices: path.reminders } });
}

/** Of the two who agree one was named for it, and one answers for the incident. */
async function refuseWrongTwo(stores: Stores, path: UncollectedRecord, votes: readonly UnclaimedVoteRecord[]): Promise<void> {
  if (!namedTakesPart(path, votes)) throw new Problem('command_refused', 'One of the two must be the person who was named for it when the path began.', { errors: [{ detail: 'is not the person who decides', code: 'not_the_decider', pointer: '#/personId' }], members: { deciderId: path.deciderId } });
  for (const { personId } of votes) if ((await stores.places.person(personId))?.skills.includes('lead')) return;
  throw new Problem('command_refused', 'One of the two must have the skill `lead`. Let a lead of the incident look and decide.', { errors: [{ detail: 'does not have the skill lead', code: 'not_a_lead', pointer: '#/personId' }] });
}

async function vote(stores: Stores, call: UseCaseCall, path: UncollectedRecord, itemId: string, { personId, decision, reason }: DecideUnclaimedInput): Promise<UnclaimedVoteRecord> {
  const id = call.env.newId();
  const made: UnclaimedVoteRecord = {
    id, incidentId: path.incidentId, uncollectedId: path.id, itemId, personId, principalId: call.context.principalId, decision, reasonSealed: await stores.personal.seal(null, personalField('unclaimed_decision.reason', id), reason), decidedAtMs: call.env.nowMs,
  };
  await stores.uncollected.insertVote(made);
  return made;
}
