import type { CareStep, DispositionOption, StepKind, Zone } from '#care';
import { sameKeeper, type CustodyEventKind, type Keeper } from '#custody';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { claimRoom } from '../custody/capacity.js';
import { holdCompany, refuseCompany } from '../custody/company.js';
import { recordCustody } from '../custody/record-custody.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { PlaceRecord } from '../ports/place-store.js';
import type { StepOutcome } from '../ports/step-store.js';
import type { Stores } from '../ports/work.js';
import { wrongStage } from './step-order.js';

/** A step that has ended, as far as it decides where the item goes. */
export interface EndedWork {
  step: StepKind;
  outcome: StepOutcome;
  way: DispositionOption;
  next: CareStep | null;
  /** Where it was put, as reported; null for the waiting area where it belongs. */
  to: Keeper | null;
  personId: string;
  stepResultId: string;
  endedAtMs: number;
  /** The station that had it in hand, if one had. */
  station: PlaceRecord | null;
  /** When its drying last ceased to count as done; null when it never did. */
  dryUndoneAtMs: number | null;
}

/** Where the item went; `null` when the report moves nothing. */
export interface Put {
  item: ItemRecord;
  place: PlaceRecord | null;
}

/** Records what the end of a step means for custody: work or drying ended, frozen, thawed, held wet, or brought to quarantine. */
export async function putAfterStep(stores: Stores, call: UseCaseCall, item: ItemRecord, ended: EndedWork): Promise<Put> {
  const kind = await eventFor(stores, item, ended);
  if (kind === null) return { item, place: null };
  // A waiting area has room for everything; a place that was named is looked up and must have some.
  const place = ended.to === null ? await waitingArea(stores, item, kind, ended) : await roomAt(stores, item, ended.to);
  const to = ended.to ?? place?.keeper ?? item.keeper;
  if (kind === 'moved' && sameKeeper(item.keeper, to)) return { item, place: null };
  const refs = { personId: ended.personId, step: ended.step, stepResultId: ended.stepResultId };
  const passed = await recordCustody(stores, call, item, { kind, from: item.keeper, to, refs, occurredAtMs: ended.endedAtMs });
  return { item: await saveClock(stores, call, passed.item, kind, ended.endedAtMs), place };
}

/** The place that was named, which must have room, and where it must not lie with what it harms or what harms it. */
async function roomAt(stores: Stores, item: ItemRecord, to: Keeper): Promise<PlaceRecord | null> {
  await holdCompany(stores, item, to);
  const place = await claimRoom(stores, item, to);
  if (!sameKeeper(item.keeper, to)) await refuseCompany(stores, item, to, place);
  return place;
}

/** The kind of custody event that a report stands for; null when the item stays where it is. */
async function eventFor(stores: Stores, item: ItemRecord, ended: EndedWork): Promise<CustodyEventKind | null> {
  const { step, outcome, way, to } = ended;
  if (outcome === 'done') {
    if (step === 'freeze') return item.stage === 'held-frozen' ? null : freezing(to);
    if (step === 'thaw' && item.stage === 'held-frozen') return 'thawed';
    if (step === 'stabilise' && way.disposition === 'hold-wet') return item.stage === 'held-wet' ? null : 'held-wet';
    if (step === 'dry' && item.stage !== 'drying') await refuseNeverHung(stores, item, ended.dryUndoneAtMs ?? -Infinity);
  }
  if (item.stage === 'held-frozen') return null;
  if (item.stage === 'in-work') return 'work-ended';
  const leaves = to !== null || outcome === 'mould-found';
  if (item.stage === 'drying') return leaves || (step === 'dry' && outcome === 'done') ? 'drying-ended' : null;
  return leaves ? 'moved' : null;
}

function freezing(to: Keeper | null): 'frozen' {
  if (to?.kind === 'freezer') return 'frozen';
  throw new Problem('command_refused', 'Name the freezer that it lies in: `to` with the kind `freezer` and its id from the layout.', { errors: [{ detail: 'must name a freezer for this step', code: 'freezer_missing', pointer: '#/to' }] });
}

/** Drying ends where it began: a drying that no rack ever held has not happened, or its start was not recorded. */
async function refuseNeverHung(stores: Stores, item: ItemRecord, sinceMs: number): Promise<void> {
  if (await hasHung(stores, item.id, item.seq, sinceMs)) return;
  throw wrongStage({ item }, 'The step `dry` ends what began on a drying place. Record `drying-started` with POST /v1/items/{itemId}/custody-events when it is hung or laid out; its clock stops with that.');
}

/** In this round of work. A part of a lot hung when the lot did. */
async function hasHung(stores: Stores, itemId: string, seq: number, sinceMs: number): Promise<boolean> {
  const chain = await stores.custody.chain(itemId, 0, seq);
  if (chain.some((event) => event.recordedAtMs >= sinceMs && (event.stage === 'drying' || event.kind === 'drying-ended'))) return true;
  const [first] = chain;
  const lotId = first?.kind === 'split-off' ? first.refs['splitFrom'] : undefined;
  const lot = lotId === undefined ? null : await stores.items.find(lotId);
  if (!first || !lot) return false;
  const before = (await stores.custody.chain(lot.id, 0, lot.seq)).findLast((event) => event.refs['splitTo'] === itemId);
  return before !== undefined && hasHung(stores, lot.id, before.seq, sinceMs);
}

/** The waiting area of the zone where it goes on, at the site where it is now; else the one of the zone where it is. */
async function waitingArea(stores: Stores, item: ItemRecord, kind: CustodyEventKind, ended: EndedWork): Promise<PlaceRecord> {
  const here = ended.station ?? (await stores.places.find(item.incidentId, item.keeper));
  const siteId = here?.siteId ?? item.siteId;
  const zones: (Zone | null | undefined)[] = [ended.outcome === 'mould-found' ? 'quarantine' : null, kind === 'held-wet' ? stepZone(ended) : ended.next?.zone, stepZone(ended), here?.zone];
  for (const zone of zones) {
    if (!zone) continue;
    const area = await stores.places.holdingArea(siteId, zone);
    if (area) return area;
  }
  throw new Problem('command_refused', 'The site has no waiting area where it could go on. Name the place where it was put down in `to`.', { errors: [{ detail: 'is needed here', code: 'place_missing', pointer: '#/to' }] });
}

function stepZone(ended: EndedWork): Zone | undefined {
  return ended.way.steps.find((care) => care.step === ended.step)?.zone;
}

/** Frozen or held wet is stabilised from then on; thawed starts the clock again. */
async function saveClock(stores: Stores, call: UseCaseCall, item: ItemRecord, kind: CustodyEventKind, atMs: number): Promise<ItemRecord> {
  if (kind !== 'frozen' && kind !== 'held-wet' && kind !== 'thawed') return item;
  const stabilisedAtMs = kind === 'thawed' ? null : (item.stabilisedAtMs ?? atMs);
  return { ...item, stabilisedAtMs, version: await stores.items.saveWork(item.id, { stabilisedAtMs }, call.env.nowMs) };
}
