/** Private links to the page of a family: made for one person, several may live, each can be taken back. */
import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { refuseUnknownOwner } from '../claims/unknown-owner.js';
import type { KeptCode, StatusLinkRecord } from '../ports/status-link-store.js';
import type { Stores } from '../ports/work.js';

/** A link opens the page for at most this long; ours, and the database keeps to it. */
export const LINK_MOST_MS = 30 * 24 * 3_600_000;
/** Wrong pick-up codes until a link takes none any more; our own calibration. */
export const CODE_MISSES = 5;

export interface CreateStatusLinkInput {
  householdId: string;
  forWhom: string;
  validDays: number;
}

export interface LinkView {
  link: StatusLinkRecord;
  forWhom: string;
}

export const forWhomField = (linkId: string): string => `status_link.for_whom:${linkId}`;

/** Makes a link; `made` is what the edge has made of chance, of which only hashes come here. */
export async function createStatusLink(stores: Stores, call: UseCaseCall, input: CreateStatusLinkInput, made: { sha256: Uint8Array; code: KeptCode }): Promise<LinkView> {
  const household = await stores.households.find(input.householdId);
  if (!household) throw notFound('household');
  refuseUnknownOwner(household);
  const id = call.env.newId();
  const { nowMs } = call.env;
  const forWhom = await stores.personal.seal(household.id, forWhomField(id), input.forWhom);
  const link: StatusLinkRecord = {
    id, incidentId: household.incidentId, householdId: household.id, forWhom, hasCode: true, codeMisses: 0, createdBy: call.context.principalId,
    createdAtMs: nowMs, expiresAtMs: nowMs + Math.min(input.validDays * 24 * 3_600_000, LINK_MOST_MS), revokedAtMs: null,
  };
  await stores.statusLinks.insert(link, made.sha256, made.code);
  return { link, forWhom: input.forWhom };
}

/** From now on the link opens nothing. @throws Problem already_exists when it was taken back before */
export async function revokeStatusLink(stores: Stores, call: UseCaseCall, input: { statusLinkId: string }): Promise<LinkView> {
  const link = await stores.statusLinks.lock(input.statusLinkId);
  if (!link) throw notFound('link');
  if (link.revokedAtMs !== null) throw new Problem('already_exists', 'The link was taken back already; it opens nothing any more.');
  await stores.statusLinks.revoke(link.id, call.env.nowMs);
  return linkView(stores, { ...link, revokedAtMs: call.env.nowMs });
}

export async function linkView(stores: Stores, link: StatusLinkRecord): Promise<LinkView> {
  return { link, forWhom: (await stores.personal.open(link.householdId, forWhomField(link.id), link.forWhom)) ?? '' };
}

/** True while a link opens the page. */
export function opens(link: StatusLinkRecord, nowMs: number): boolean {
  return link.revokedAtMs === null && nowMs < link.expiresAtMs;
}

/**
 * Holds a typed pick-up code against the link's. After a few wrong ones the link takes none any more, right or wrong, until a person makes another.
 */
export async function checkPickUpCode(stores: Stores, _call: UseCaseCall, input: { linkId: string; matches(kept: KeptCode): Promise<boolean> }): Promise<'right' | 'wrong' | 'locked'> {
  const link = await stores.statusLinks.lock(input.linkId);
  if (!link?.code) return 'locked';
  if (link.codeMisses >= CODE_MISSES) return 'locked';
  const right = await input.matches(link.code);
  await stores.statusLinks.setCodeMisses(link.id, right ? 0 : link.codeMisses + 1);
  return right ? 'right' : 'wrong';
}
