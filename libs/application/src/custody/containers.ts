import { decide, evolve, isRefusal, type CustodyEvent, type ItemCustody, type Keeper, type KeeperKind } from '#custody';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { ContainerRecord } from '../ports/container-store.js';
import { told, withoutWords } from './own-words.js';
import type { Stores } from '../ports/work.js';
import { type Passing, toProblem } from './record-custody.js';

/** Looks at a path that others keep changing; more than this is no accident. */
const LOOKS = 5;

/**
 * The container and those around it, innermost first, none of which moves until the transaction ends; with them, locked in the
 * same breath, others that the command needs. Locks are taken in the order of ids. @throws Error when the path does not come to rest
 */
export async function holdPath(stores: Stores, containerId: string, mode: 'update' | 'share', others: readonly string[] = []): Promise<ContainerRecord[]> {
  let seen = await stores.containers.path(containerId);
  for (let look = 0; look < LOOKS; look += 1) {
    await stores.containers.lockMany([...new Set([...seen.map(({ id }) => id), ...others])].sort(), mode);
    const held = await stores.containers.path(containerId);
    if (sameIds(seen, held)) return held;
    seen = held;
  }
  throw new Error('the containers around a container kept moving');
}

function sameIds(a: readonly ContainerRecord[], b: readonly ContainerRecord[]): boolean {
  return a.length === b.length && a.every(({ id }, index) => id === b[index]?.id);
}

/** Where a keeper is in the end: what keeps the outermost container, or the keeper itself. Null where no record says it. */
export function standsAt(path: readonly ContainerRecord[], keeper: Keeper | null): Keeper | null {
  return keeper?.kind === 'container' ? (path.at(-1)?.keeper ?? null) : keeper;
}

/**
 * What is being handed over is neither filled nor emptied meanwhile: the receiver is to get what was offered.
 * @throws Problem hand_over_open
 */
export function refuseOffered(path: readonly ContainerRecord[]): void {
  const offered = path.find(({ matters }) => matters.handOver !== null);
  if (!offered) return;
  throw new Problem('hand_over_open', 'The container, or one around it, is being handed over, so nothing is put in or taken out. Let the receiver accept or decline the hand-over, or withdraw it; then go on.', { members: { containerId: offered.id, handOverId: offered.matters.handOver?.id } });
}

/** Keepers that a container may have; the rest is for things themselves. */
const MAY_KEEP: ReadonlySet<KeeperKind> = new Set(['holding', 'station', 'container', 'shelf', 'vehicle', 'courier']);

/** @throws Problem command_refused, with what to do instead */
export function refuseContainerAt(to: Keeper, pointer = '#/to'): void {
  if (MAY_KEEP.has(to.kind)) return;
  throw new Problem('command_refused', insteadOf(to.kind), { errors: [{ detail: 'cannot keep a container', code: 'keeper_not_offered', pointer: `${pointer}/kind` }] });
}

function insteadOf(kind: KeeperKind): string {
  if (kind === 'freezer') return 'A container does not go into a freezer as one thing, because the clock of each thing in it stops by its own record. Record `frozen` for each thing, with the freezer as its keeper, and leave the container outside on record.';
  if (kind === 'drying-place') return 'A container is not hung. Record `drying-started` for each thing in it.';
  if (kind === 'specialist' || kind === 'partner-network') return "A container does not go to a specialist as one thing: each thing in it needs its owner's yes. Hand over or refer the things themselves.";
  return 'A container belongs to the network and stays on its record; only the things in it go to a household or are let go, each by its own command.';
}

/** A container as the custody rules need it: it is never worked on, so its stage is always `waiting`. */
export function containerCustodyOf(container: Pick<ContainerRecord, 'networkId' | 'id' | 'seq' | 'headHash' | 'keeper' | 'matters'>): ItemCustody {
  const { networkId, id, seq, headHash, keeper, matters } = container;
  return { networkId, itemId: id, seq, headHash, keeper, stage: seq === 0 ? null : 'waiting', matters };
}

/**
 * Decides one passing of a locked container and appends it. Answers the container as it now is, with the event.
 * @throws Problem when the custody rules refuse it; nothing is written then.
 */
export async function recordContainer(stores: Stores, call: UseCaseCall, container: ContainerRecord, passing: Passing): Promise<{ container: ContainerRecord; event: CustodyEvent }> {
  const state = containerCustodyOf(container);
  const { command, words } = withoutWords({ ...passing, refs: { ...call.paper, ...passing.refs }, commandId: passing.commandId ?? call.env.newId(), actorId: call.context.principalId });
  const outcome = decide(state, command, call.env.nowMs);
  if (isRefusal(outcome)) throw toProblem(outcome, { keeper: container.keeper, stage: state.stage });
  const { matters } = evolve(state, outcome);
  const version = await stores.containers.append(outcome, matters, container.incidentId);
  await stores.custody.keepWords(outcome, container.incidentId, null, words);
  const seenAtMs = matters.missing ? container.lastSeenAtMs : Math.max(container.lastSeenAtMs, Math.min(outcome.occurredAtMs, outcome.recordedAtMs));
  return { event: told(outcome, words), container: { ...container, seq: outcome.seq, headHash: outcome.hash, keeper: outcome.to, matters, version, lastSeenAtMs: seenAtMs } };
}
