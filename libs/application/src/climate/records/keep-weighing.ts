/** Keeps one weighing of a thing, or says why not; a call with one and a call with many judge alike. */
import { MATERIALS, say } from '#care';
import { STANDARD_ITEM_KINDS, standardItem, weighingDoubts, weighingFaults, type CalibrationValues, type WeighedThing } from '#climate';
import type { RecordWeighing } from '#contracts';
import type { UseCaseCall } from '../../call.js';
import type { ItemRecord } from '../../ports/item-store.js';
import type { WeighingRecord } from '../../ports/weighing-store.js';
import type { Stores } from '../../ports/work.js';
import { ringPlaces } from '../ring-room.js';
import { remark, weighingFaultRemark, type Remark } from './measurement-words.js';

/** What became of a weighing. `duplicate` and `conflicting` name the one that was there; what is refused changes nothing. */
export type KeptWeighing =
  | { outcome: 'created' | 'duplicate'; weighing: WeighingRecord }
  | { outcome: 'conflicting'; weighing: WeighingRecord; sent: WeighingRecord }
  | { outcome: 'unknown'; what: 'person' | 'drying place'; member: string }
  | { outcome: 'refused'; remarks: Remark[] };

/** Steps that put water into a thing on purpose. */
const WETTING_STEPS: ReadonlySet<string> = new Set(['rinse', 'surface-clean']);

/**
 * Keeps what a scale showed of an item that is locked, so that two scales at one thing come one after the other. What cannot be is
 * refused; what is improbable is kept and asked about. The same weighing again is kept once. A late slip is judged, and judges what
 * was weighed after it, as if it had come in time.
 */
export async function keepWeighing(stores: Stores, call: UseCaseCall, item: ItemRecord, input: RecordWeighing, calibration: CalibrationValues): Promise<KeptWeighing> {
  const unknown = await unknownIn(stores, item, input);
  if (unknown !== null) return { outcome: 'unknown', ...unknown };
  const weighing = toRecord(call, item, input);
  const known = await stores.weighings.ofItem(item.id);
  const same = known.find(({ weighedAtMs }) => weighedAtMs === weighing.weighedAtMs);
  if (same !== undefined) return same.scaleKg === weighing.scaleKg && same.tareKg === weighing.tareKg ? { outcome: 'duplicate', weighing: same } : { outcome: 'conflicting', weighing: same, sent: weighing };
  const thing = weighedThing(item);
  const remarks = weighingFaults(weighing, thing, call.env.nowMs, calibration).map((fault) => weighingFaultRemark(fault, weighing.massKg));
  if (remarks.length > 0) return { outcome: 'refused', remarks };
  const all = [...known, weighing].sort((a, b) => a.weighedAtMs - b.weighedAtMs);
  const wettedAtMs = (await stores.steps.ofItem(item.id)).filter(({ step, outcome }) => outcome === 'wetted-again' || (outcome === 'done' && WETTING_STEPS.has(step))).map(({ finishedAtMs }) => finishedAtMs);
  const doubts = weighingDoubts(all, thing, wettedAtMs, calibration);
  const doubt = doubts[all.indexOf(weighing)] ?? null;
  const kept: WeighingRecord = { ...weighing, doubt, state: doubt === null ? 'accepted' : 'doubtful' };
  await stores.weighings.insert(kept);
  await stores.weighings.saveDoubts(all.flatMap((one, at) => (one === weighing || one.doubt === (doubts[at] ?? null) ? [] : [{ id: one.id, doubt: doubts[at] ?? null }])));
  await ringPlaces(stores, call, item.incidentId, [item.keeper]);
  return { outcome: 'created', weighing: kept };
}

/** The same moment with another weight; both are named, and the one that was there stays. */
export function weighingConflict(kept: WeighingRecord, sent: WeighingRecord): Remark {
  return remark('conflicting', 'scaleKg', say('The thing was weighed at this very moment already: kept are {keptKg} kg on the scale with {keptTareKg} kg of tare, sent were {sentKg} kg with {sentTareKg} kg. The kept weighing stays; send another moment if it was weighed twice.', {
    keptKg: kept.scaleKg, keptTareKg: kept.tareKg, sentKg: sent.scaleKg, sentTareKg: sent.tareKg,
  }));
}

function toRecord(call: UseCaseCall, item: ItemRecord, input: RecordWeighing): WeighingRecord {
  const { scaleKg, tareKg, resolutionKg, personId, dryingPlaceId, note } = input;
  return {
    id: call.env.newId(), incidentId: item.incidentId, itemId: item.id, scaleKg, tareKg, massKg: Math.round((scaleKg - tareKg) * 1e6) / 1e6, resolutionKg, weighedAtMs: Date.parse(input.weighedAt),
    personId, dryingPlaceId, note, state: 'accepted', doubt: null, recordedAtMs: call.env.nowMs,
  };
}

/** A thing as its weight is judged: its class is rough, so cloth that is not known to be thin counts as what holds most. */
export function weighedThing(item: Pick<ItemRecord, 'sizeClass' | 'materialClass' | 'dryMassG' | 'arrivedAtMs'>): WeighedThing {
  return { dryMassKg: item.dryMassG / 1_000, takenInAtMs: item.arrivedAtMs, build: buildOf(item) };
}

function buildOf({ sizeClass, materialClass }: Pick<ItemRecord, 'sizeClass' | 'materialClass'>): WeighedThing['build'] {
  const { family } = MATERIALS[materialClass];
  if (family === 'paper' || family === 'book' || family === 'photo' || family === 'film') return 'paper';
  if (family !== 'textile') return 'unknown';
  const kind = STANDARD_ITEM_KINDS.find((one) => one === sizeClass);
  const padded = materialClass === 'textile-quilt-padded' || materialClass === 'textile-stuffed' || (kind !== undefined && standardItem(kind).padded);
  return padded ? 'padded' : 'thin';
}

async function unknownIn(stores: Stores, item: ItemRecord, { personId, dryingPlaceId }: RecordWeighing): Promise<{ what: 'person' | 'drying place'; member: string } | null> {
  const [person] = personId === null ? [] : await stores.places.crew(item.incidentId, [personId]);
  if (personId !== null && !person) return { what: 'person', member: 'personId' };
  const place = dryingPlaceId === null ? null : await stores.places.find(item.incidentId, { kind: 'drying-place', id: dryingPlaceId });
  return dryingPlaceId !== null && !place ? { what: 'drying place', member: 'dryingPlaceId' } : null;
}
