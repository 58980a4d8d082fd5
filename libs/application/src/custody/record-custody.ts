import { decide, isRefusal, type CustodyCommand, type CustodyEvent, type Refusal } from '#custody';
import { Problem, type ProblemCode } from '#contracts';
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
};

/** Turns a refusal of the custody rules into the problem the caller gets. */
export function toProblem(refusal: Refusal, item: ItemRecord): Problem {
  const code = PROBLEM_OF[refusal.code];
  // Where it is now helps the person who looks for it; it is their own network's item.
  const members = code === 'wrong_keeper' || code === 'wrong_stage' ? { keeper: item.keeper, stage: item.stage, reason: refusal.code } : { reason: refusal.code };
  return new Problem(code, refusal.text, { members });
}

export type Passing = Omit<CustodyCommand, 'actorId' | 'commandId'> & { commandId?: string };

/**
 * Decides one passing of a locked item and appends it. Answers the item as it now is, with the event.
 * @throws Problem when the custody rules refuse it; nothing is written then.
 */
export async function recordCustody(stores: Stores, call: UseCaseCall, item: ItemRecord, passing: Passing): Promise<{ item: ItemRecord; event: CustodyEvent }> {
  const state = { networkId: item.networkId, itemId: item.id, seq: item.seq, headHash: item.headHash, keeper: item.keeper, stage: item.stage };
  const outcome = decide(state, { ...passing, commandId: passing.commandId ?? call.env.newId(), actorId: call.context.principalId }, call.env.nowMs);
  if (isRefusal(outcome)) throw toProblem(outcome, item);
  const version = await stores.custody.append(outcome, item.incidentId);
  // What hangs in a room loads its air, and what lies in a freezer is watched.
  await ringPlaces(stores, call, item.incidentId, [item.keeper, outcome.to]);
  return {
    event: outcome,
    item: { ...item, seq: outcome.seq, headHash: outcome.hash, keeper: outcome.to, stage: outcome.stage, version, updatedAtMs: call.env.nowMs },
  };
}
