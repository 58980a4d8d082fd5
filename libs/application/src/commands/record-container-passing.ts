import type { CustodyEvent, CustodyEventKind, Keeper } from '#custody';
import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { momentOf, personOf } from '../care/claims.js';
import { claimRoom } from '../custody/capacity.js';
import { refuseCompanyOfContents } from '../custody/company.js';
import { recordContainer, refuseContainerAt } from '../custody/containers.js';
import { holdForMove, loadOf } from '../custody/move-container.js';
import { refuseClosed } from '../custody/open-incident.js';
import type { ContainerRecord } from '../ports/container-store.js';
import type { Stores } from '../ports/work.js';
import { leadSaysWhy } from './record-passing.js';

/** Kinds of passing of a container that are recorded as such; hand-overs have commands of their own. */
export const CONTAINER_PASSING_KINDS = ['moved', 'reported-missing', 'found-again', 'location-settled', 'correction'] as const satisfies readonly CustodyEventKind[];
export type ContainerPassingKind = (typeof CONTAINER_PASSING_KINDS)[number];

export interface RecordContainerPassingInput {
  containerId: string;
  kind: ContainerPassingKind;
  /** Null only for a container that has no record yet. */
  from: Keeper | null;
  to: Keeper;
  personId: string | null;
  occurredAtMs: number | null;
  reason: string;
  corrects: { seq: number; reason: string } | null;
}

/** Records that a container passed to another keeper; what is inside keeps it as its keeper and so moves with it. */
export async function recordContainerPassing(stores: Stores, call: UseCaseCall, input: RecordContainerPassingInput): Promise<{ container: ContainerRecord; event: CustodyEvent }> {
  const { to, kind, corrects } = input;
  const known = await stores.containers.find(input.containerId);
  if (!known) throw notFound('container');
  await refuseClosed(stores, known);
  const person = input.personId === null ? null : await personOf(stores, known.incidentId, input.personId);
  const occurredAtMs = momentOf(call, input.occurredAtMs, '#/occurredAt');
  refuseContainerAt(to);
  const container = await holdForMove(stores, known.id, to);
  const place = await claimRoom(stores, await loadOf(stores, container), to);
  // The other kinds say where it truly is, whatever is there.
  if (kind === 'moved' && !leadSaysWhy(person, input.reason)) await refuseCompanyOfContents(stores, container, to, place);
  const refs: Record<string, string> = {};
  if (input.personId !== null) refs['personId'] = input.personId;
  // One from before containers had records begins its record with what is known now.
  const begins = container.seq === 0 && kind === 'moved';
  return recordContainer(stores, call, container, { kind: begins ? 'taken-in' : kind, from: input.from, to, refs, why: input.reason, occurredAtMs, ...(corrects && !begins ? { corrects, correctsInWords: true } : {}) });
}
