import { Problem } from '#contracts';
import { say } from '#care';
import type { UseCaseCall } from '../call.js';
import type { FoundItemRecord } from '../ports/ownership-store.js';
import type { UncollectedRecord } from '../ports/uncollected-store.js';
import type { Stores } from '../ports/work.js';

/** Stands in every answer about what becomes of a found thing. */
export const FOUND_LAW_CAUTION = say('Local law on found property decides what may become of it: ask the authority before anything is let go. Our days and rules are our own and take the place of no law.');

/** Nothing that somebody claims, or that the law holds, is let go. @throws Problem command_refused, legal_hold */
export async function refuseSpokenFor(stores: Stores, found: FoundItemRecord): Promise<void> {
  if ((await stores.ownership.claims(found.id)).some(({ state }) => state === 'open')) {
    throw new Problem('command_refused', 'A household claims it. Let that claim be decided first.', { errors: [{ detail: 'an open claim names it', code: 'claimed', pointer: '' }], members: { reason: 'claimed' } });
  }
  const legalHoldId = await stores.ownership.heldByLaw(found.id);
  if (legalHoldId !== null) throw new Problem('legal_hold', 'A legal hold stands on the found things of the incident, or on a household that has claimed this one, so it stays with us. Lift the hold first, if that may be done.', { members: { legalHoldId } });
}

/** The open path of a found thing ends: its owner is known, or its record was joined to another one. The thing is locked. */
export async function endUnclaimedPath(stores: Stores, call: UseCaseCall, itemId: string): Promise<void> {
  const open = (await stores.uncollected.ofFound(itemId)).find(({ state }) => state === 'open');
  const path = open && (await stores.uncollected.lock(open.id));
  if (path?.state === 'open') await stores.uncollected.save(endedPath(path, call));
}

function endedPath(path: UncollectedRecord, { context, env }: UseCaseCall): UncollectedRecord {
  return { ...path, state: 'ended', endedAtMs: env.nowMs, endedBy: context.principalId };
}

/** The found record of a thing, or of the found lot that it was taken out of, locked; null where it has none. */
export async function lockFoundRoot(stores: Stores, itemId: string): Promise<FoundItemRecord | null> {
  for (let id: string | null = itemId; id !== null; ) {
    const found = await stores.ownership.findByItem(id);
    if (found !== null) return stores.ownership.lockFound(found.id);
    id = (await stores.items.find(id))?.splitFromId ?? null;
  }
  return null;
}
