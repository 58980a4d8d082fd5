import { MATERIALS, render } from '#care';
import { STANDARD_ITEM_KINDS, standardItem, weighingDoubts, weighingFaults, type WeighedThing } from '#climate';
import { notFound, Problem, type RecordWeighing } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { climateCalibrationInForce } from '../calibration/in-force.js';
import { weighingFaultRemark, type Remark } from '../climate/records/measurement-words.js';
import { ringPlaces } from '../climate/ring-room.js';
import { refuseClosed } from '../custody/open-incident.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { WeighingRecord } from '../ports/weighing-store.js';
import type { Stores } from '../ports/work.js';

export type RecordWeighingInput = RecordWeighing & { itemId: string };

/** Steps that put water into a thing on purpose. */
const WETTING_STEPS: ReadonlySet<string> = new Set(['rinse', 'surface-clean']);

/**
 * Keeps what a scale showed. What cannot be is refused; what is improbable is kept and asked about. The same weighing again is
 * kept once. A late slip is judged, and judges what was weighed after it, as if it had come in time.
 */
export async function recordWeighing(stores: Stores, call: UseCaseCall, input: RecordWeighingInput): Promise<{ weighing: WeighingRecord; created: boolean }> {
  // Locked, so that two scales at one thing come one after the other.
  const item = await stores.items.lock(input.itemId);
  if (!item) throw notFound('item');
  await refuseClosed(stores, item);
  await refuseUnknown(stores, item, input);
  const weighing = toRecord(call, item, input);
  const known = await stores.weighings.ofItem(item.id);
  const same = known.find(({ weighedAtMs }) => weighedAtMs === weighing.weighedAtMs);
  if (same !== undefined) return { weighing: repeated(same, weighing), created: false };
  const calibration = await climateCalibrationInForce(stores);
  const thing = weighedThing(item);
  const faults = weighingFaults(weighing, thing, call.env.nowMs, calibration).map((fault) => weighingFaultRemark(fault, weighing.massKg));
  if (faults.length > 0) throw refused(faults);
  const all = [...known, weighing].sort((a, b) => a.weighedAtMs - b.weighedAtMs);
  const wettedAtMs = (await stores.steps.ofItem(item.id)).filter(({ step, outcome }) => outcome === 'wetted-again' || (outcome === 'done' && WETTING_STEPS.has(step))).map(({ finishedAtMs }) => finishedAtMs);
  const doubts = weighingDoubts(all, thing, wettedAtMs, calibration);
  const doubt = doubts[all.indexOf(weighing)] ?? null;
  const kept: WeighingRecord = { ...weighing, doubt, state: doubt === null ? 'accepted' : 'doubtful' };
  await stores.weighings.insert(kept);
  await stores.weighings.saveDoubts(all.flatMap((one, at) => (one === weighing || one.doubt === (doubts[at] ?? null) ? [] : [{ id: one.id, doubt: doubts[at] ?? null }])));
  await ringPlaces(stores, call, item.incidentId, [item.keeper]);
  return { weighing: kept, created: true };
}

function toRecord(call: UseCaseCall, item: ItemRecord, input: RecordWeighingInput): WeighingRecord {
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

async function refuseUnknown(stores: Stores, item: ItemRecord, { personId, dryingPlaceId }: RecordWeighingInput): Promise<void> {
  const [person] = personId === null ? [] : await stores.places.crew(item.incidentId, [personId]);
  if (personId !== null && !person) throw unknownReference('person', 'personId');
  const place = dryingPlaceId === null ? null : await stores.places.find(item.incidentId, { kind: 'drying-place', id: dryingPlaceId });
  if (dryingPlaceId !== null && !place) throw unknownReference('drying place', 'dryingPlaceId');
}

function unknownReference(what: string, member: string): Problem {
  return new Problem('reference_unknown', `No ${what} with this id belongs to the incident. Take the id from the layout.`, { errors: [{ detail: `names no ${what} of this incident`, code: 'reference_unknown', pointer: `#/${member}` }] });
}

/** The weighing that is there, when this one says the same of the thing. */
function repeated(kept: WeighingRecord, sent: WeighingRecord): WeighingRecord {
  if (kept.scaleKg === sent.scaleKg && kept.tareKg === sent.tareKg) return kept;
  const words = ({ scaleKg, tareKg }: WeighingRecord) => `${scaleKg} kg on the scale with ${tareKg} kg of tare`;
  throw new Problem('measurement_conflicts', `The thing was weighed at this very moment already: kept are ${words(kept)}, sent were ${words(sent)}. The kept weighing stays; send another moment if it was weighed twice. Nothing was changed.`, {
    errors: [{ detail: `kept are ${words(kept)}`, code: 'conflicting', pointer: '#/scaleKg' }],
  });
}

function refused(remarks: readonly Remark[]): Problem {
  return new Problem('measurement_refused', `${remarks.map(({ text }) => render(text, 'en')).join(' ')} Nothing was changed.`, {
    errors: remarks.map(({ code, member, text }) => ({ detail: render(text, 'en'), code, pointer: `#/${member}` })), members: { remarks },
  });
}
