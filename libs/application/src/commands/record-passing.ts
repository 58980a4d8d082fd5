import type { CustodyEvent, CustodyEventKind, Keeper } from '#custody';
import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { comesToTreatment } from '../care/owner-refusal.js';
import { claimRoom } from '../custody/capacity.js';
import { recordCustody } from '../custody/record-custody.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';

/** Kinds of passing that a station or driver records as such; the others have commands of their own. */
export const PASSING_KINDS = ['moved', 'work-started', 'work-ended', 'drying-started', 'drying-ended', 'frozen', 'thawed', 'held-wet', 'correction'] as const satisfies readonly CustodyEventKind[];
export type PassingKind = (typeof PASSING_KINDS)[number];

export interface RecordPassingInput {
  itemId: string;
  kind: PassingKind;
  from: Keeper;
  to: Keeper;
  personId: string | null;
  occurredAtMs: number | null;
  reason: string;
  corrects: { seq: number; reason: string } | null;
  /** For a correction: the stage it restores. */
  stage: string | null;
}

/** What it means for the item's clock: drying begun, frozen or held wet is stabilised; thawed starts it again. */
const STABILISES: ReadonlySet<CustodyEventKind> = new Set(['drying-started', 'frozen', 'held-wet']);

/** Records that an item passed from one keeper to another. */
export async function recordPassing(stores: Stores, call: UseCaseCall, input: RecordPassingInput): Promise<{ item: ItemRecord; event: CustodyEvent }> {
  const item = await stores.items.lock(input.itemId);
  if (!item) throw notFound('item');
  if (input.personId !== null) await refuseStranger(stores, item, input.personId);
  await refuseUnconsented(stores, item, input.kind);
  if (input.kind === 'correction') await refuseUnknownTarget(stores, item, input.corrects?.seq ?? 0);
  await claimRoom(stores, item, input.to);
  const refs: Record<string, string> = {};
  if (input.personId !== null) refs['personId'] = input.personId;
  if (input.reason !== '') refs['reason'] = input.reason;
  if (input.kind === 'correction' && input.stage !== null) refs['stage'] = input.stage;
  const { corrects } = input;
  const passed = await recordCustody(stores, call, item, {
    kind: input.kind, from: input.from, to: input.to, refs, occurredAtMs: input.occurredAtMs ?? call.env.nowMs, ...(corrects ? { corrects } : {}),
  });
  return { event: passed.event, item: await saveClock(stores, call, passed.item, input.kind) };
}

async function saveClock(stores: Stores, call: UseCaseCall, item: ItemRecord, kind: CustodyEventKind): Promise<ItemRecord> {
  if (!STABILISES.has(kind) && kind !== 'thawed') return item;
  const stabilisedAtMs = kind === 'thawed' ? null : (item.stabilisedAtMs ?? call.env.nowMs);
  if (stabilisedAtMs === item.stabilisedAtMs) return item;
  return { ...item, stabilisedAtMs, version: await stores.items.saveWork(item.id, { stabilisedAtMs }, call.env.nowMs) };
}

async function refuseStranger(stores: Stores, item: ItemRecord, personId: string): Promise<void> {
  const person = await stores.places.person(personId);
  if (!person || person.incidentId !== item.incidentId) throw new Problem('reference_unknown', 'There is no person with this id in the incident.', { errors: [{ detail: 'names nobody of this incident', code: 'reference_unknown', pointer: '#/personId' }] });
}

/**
 * A refusal of the owner binds; silence does not stop first aid, it is asked for by triage. What is not to be treated may
 * still be taken in hand: to be looked at, wrapped for the freezer, or packed.
 */
async function refuseUnconsented(stores: Stores, item: ItemRecord, kind: PassingKind): Promise<void> {
  const treats = kind === 'drying-started' || (kind === 'work-started' && comesToTreatment(item));
  const scope = kind === 'frozen' ? 'freeze' : treats ? 'treat' : null;
  if (scope === null) return;
  const { consents } = await stores.consents.inForce(item.householdId, item.id);
  if (consents[scope] === false) throw new Problem('consent_missing', `The owner has refused to let us ${scope} it. Ask again, or follow what triage offers instead.`, { members: { scope } });
}

async function refuseUnknownTarget(stores: Stores, item: ItemRecord, seq: number): Promise<void> {
  const target = await stores.custody.chain(item.id, seq - 1, 1);
  if (target[0]?.seq !== seq) throw new Problem('command_refused', `The item has no custody event ${seq}. Name the event that was wrong.`, { errors: [{ detail: 'names no event of this item', code: 'reference_unknown', pointer: '#/corrects/seq' }] });
}
