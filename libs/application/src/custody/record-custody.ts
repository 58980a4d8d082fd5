import { decide, evolve, isRefusal, type CustodyCommand, type CustodyEvent, type ItemCustody, type Keeper, type Refusal, type Stage } from '#custody';
import { Problem, type ProblemCode } from '#contracts';
import { told, withoutWords } from './own-words.js';
import type { UseCaseCall } from '../call.js';
import { ringPlaces } from '../climate/ring-room.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';

const PROBLEM_OF: Record<Refusal['code'], ProblemCode> = {
  command_malformed: 'command_refused',
  already_taken_in: 'command_refused',
  not_taken_in: 'command_refused',
  terminal: 'item_terminal',
  wrong_keeper: 'wrong_keeper',
  same_keeper: 'command_refused',
  wrong_stage: 'wrong_stage',
  keeper_kind_not_allowed: 'command_refused',
  consent_missing: 'consent_missing',
  reference_missing: 'command_refused',
  correction_target_missing: 'command_refused',
  occurred_in_future: 'command_refused',
  hand_over_open: 'hand_over_open',
  hand_over_not_open: 'hand_over_not_open',
  location_disputed: 'location_disputed',
  not_disputed: 'command_refused',
  missing: 'item_missing',
  not_missing: 'command_refused',
};

/** Turns a refusal of the custody rules into the problem the caller gets. */
export function toProblem(refusal: Refusal, item: { keeper: Keeper | null; stage: Stage | null }): Problem {
  const code = PROBLEM_OF[refusal.code];
  // Where it is now helps the person who looks for it; it is their own network's item.
  const members = code === 'wrong_keeper' || code === 'wrong_stage' ? { keeper: item.keeper, stage: item.stage, reason: refusal.code } : { reason: refusal.code };
  return new Problem(code, refusal.text, { members });
}

/** Where an open matter of an item is answered; the custody rules know events and no routes. */
const ROUTES: Partial<Record<Refusal['code'], string>> = {
  missing: 'POST /v1/items/{itemId}/findings', location_disputed: 'POST /v1/items/{itemId}/location-settlements', not_missing: 'POST /v1/items/{itemId}/location-disputes',
};

function withRoute(refusal: Refusal): Refusal {
  const route = ROUTES[refusal.code];
  return route === undefined ? refusal : { ...refusal, text: `${refusal.text} (${route})` };
}

export type Passing = Omit<CustodyCommand, 'actorId' | 'commandId'> & {
  commandId?: string;
  /** Why, in somebody's own words: the chain gets a salted hash of them as `refs.reason`. Codes of ours go into `refs` as they are. */
  why?: string;
  /** `corrects.reason` is in somebody's own words, and is hashed likewise. */
  correctsInWords?: boolean;
};

/** The item as the custody rules need it. */
export function custodyOf(item: ItemRecord): ItemCustody {
  return { networkId: item.networkId, itemId: item.id, seq: item.seq, headHash: item.headHash, keeper: item.keeper, stage: item.stage, matters: item.matters };
}

/**
 * Decides one passing of a locked item and appends it. Answers the item as it now is, with the event.
 * @throws Problem when the custody rules refuse it; nothing is written then.
 */
export async function recordCustody(stores: Stores, call: UseCaseCall, item: ItemRecord, passing: Passing): Promise<{ item: ItemRecord; event: CustodyEvent }> {
  const state = custodyOf(item);
  const { command, words } = withoutWords({ ...passing, refs: { ...call.paper, ...passing.refs }, commandId: passing.commandId ?? call.env.newId(), actorId: call.context.principalId });
  const outcome = decide(state, command, call.env.nowMs);
  if (isRefusal(outcome)) throw toProblem(withRoute(outcome), item);
  const { matters } = evolve(state, outcome);
  const version = await stores.custody.append(outcome, matters, item.incidentId);
  await stores.custody.keepWords(outcome, item.incidentId, item.householdId, words);
  // What hangs in a room loads its air, and what lies in a freezer is watched.
  await ringPlaces(stores, call, item.incidentId, [item.keeper, outcome.to]);
  const lastSeenAtMs = matters.missing ? item.lastSeenAtMs : Math.max(item.lastSeenAtMs, Math.min(outcome.occurredAtMs, outcome.recordedAtMs));
  return {
    event: told(outcome, words),
    item: { ...item, seq: outcome.seq, headHash: outcome.hash, keeper: outcome.to, stage: outcome.stage, matters, lastSeenAtMs, version, updatedAtMs: call.env.nowMs },
  };
}
