/** The worker's part of custody roots: from what was recorded to a signed statement that can be kept elsewhere. */
import { compareLeaves, hashRoot, keyIdOf, leafBlocks, rootCutoff, rootForm, stateRoot, untilNextCutoff, type SignedRoot } from '#custody';
import type { CallContext, Environment } from '../context.js';
import type { OutboxMessage } from '../ports/outbox-store.js';
import type { Stores, UnitOfWork } from '../ports/work.js';

/** Signs with a key that the database does not hold. */
export interface RootSigner {
  /** Ed25519 public key, hex. */
  publicKey: string;
  /** Signs the UTF-8 bytes of a text; hex. */
  sign(text: string): string;
}

export interface RootSettings {
  /** null: nobody signs here, and events go on waiting. */
  signer: RootSigner | null;
  periodMs: number;
  /** `MAX_ROOT_EVENTS` when left out. */
  maxEvents?: number;
}

/**
 * How long after the end of an hour its root is made, so that what was recorded in the hour has been committed: longer than one
 * statement of ours may take (15 s) and than a transaction may lie idle (20 s). Our own calibration. What comes later still goes
 * under the next root: which root an event is under depends on what waits, never on a clock.
 */
export const ROOT_GRACE_MS = 60_000;

/** Events under one root, so that making it is one short transaction also on a busy machine; an hour with more has more roots. Our own calibration. */
export const MAX_ROOT_EVENTS = 8_192;

export type RootsOutcome = { made: number; events: number } | 'no-key' | 'overtaken';

/**
 * Does the work of one look: makes the roots that are due, and writes the next look. It may be killed and run again or beside
 * itself: what waits is taken in the transaction of its root, one of them at a time in each network.
 */
export async function runCustodyRoots(unitOfWork: UnitOfWork, message: OutboxMessage, context: CallContext, env: Environment, settings: RootSettings): Promise<RootsOutcome> {
  const { signer, maxEvents = MAX_ROOT_EVENTS } = settings;
  let [made, events, more] = [0, 0, signer !== null];
  while (signer !== null && more) {
    const root = await unitOfWork.write(context, (stores) => makeRoot(stores, context.networkId, env.nowMs, { ...settings, signer }));
    made += root === null ? 0 : 1;
    events += root?.eventCount ?? 0;
    more = root?.eventCount === maxEvents;
  }
  const first = await unitOfWork.write(context, async (stores) => {
    await stores.custodyRoots.lockLine();
    const mine = await stores.outbox.markDone(message.id);
    if (mine) await lookAgain(stores, message, env, settings.periodMs);
    return mine;
  });
  if (!first) return 'overtaken';
  return signer === null ? 'no-key' : { made, events };
}

/** When the tries of a look are used up: what waits is put under a root at the next one. */
export async function giveUpCustodyRoots(unitOfWork: UnitOfWork, message: OutboxMessage, context: CallContext, env: Environment, periodMs: number): Promise<void> {
  await unitOfWork.write(context, async (stores) => {
    await stores.custodyRoots.lockLine();
    await lookAgain(stores, message, env, periodMs);
  });
}

/** Makes one root of what waits and is due; null when nothing is. */
export async function makeRoot(stores: Pick<Stores, 'custodyRoots'>, networkId: string, nowMs: number, settings: RootSettings & { signer: RootSigner }): Promise<SignedRoot | null> {
  const { signer, periodMs, maxEvents = MAX_ROOT_EVENTS } = settings;
  await stores.custodyRoots.lockLine();
  const events = await stores.custodyRoots.takeWaiting(rootCutoff(nowMs, periodMs, graceMs(periodMs)), maxEvents);
  if (events.length === 0) return null;
  events.sort(compareLeaves);
  const keyId = keyIdOf(signer.publicKey);
  const { root, leaves } = stateRoot(events, await stores.custodyRoots.last(), { networkId, keyId, periodMs });
  const signed = { ...root, hash: hashRoot(root), signature: signer.sign(rootForm(root)) };
  await stores.custodyRoots.insertKey({ keyId, publicKey: signer.publicKey, firstUsedAtMs: nowMs });
  await stores.custodyRoots.insert(signed, events, leafBlocks(leaves));
  return signed;
}

async function lookAgain(stores: Stores, message: OutboxMessage, env: Environment, periodMs: number): Promise<void> {
  // A clock that is set or runs fast (the demo's) must not keep the look away for longer than a period of real time.
  const aheadMs = Math.min(periodMs, untilNextCutoff(env.nowMs, periodMs, graceMs(periodMs)));
  await stores.outbox.appendRootLook({ ...message, id: env.newId() }, message.id, aheadMs);
}

/** A period that is shorter than the grace (in tests and demos) is not made to wait for longer than itself. */
const graceMs = (periodMs: number): number => Math.min(ROOT_GRACE_MS, periodMs);
