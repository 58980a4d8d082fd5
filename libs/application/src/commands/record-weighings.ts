import { render, say } from '#care';
import { isTagFault, parseTagCode } from '#custody';
import { Problem, RecordWeighingRow } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { climateCalibrationInForce } from '../calibration/in-force.js';
import { keepWeighing, weighingConflict, type KeptWeighing } from '../climate/records/keep-weighing.js';
import { remark, weighingDoubtWords, type Remark } from '../climate/records/measurement-words.js';
import { openIncidentOf } from '../custody/open-incident.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';

export interface RecordWeighingsInput {
  incidentId: string;
  /** Members as they were sent. */
  weighings: readonly Readonly<Record<string, unknown>>[];
}

export const WEIGHING_OUTCOMES = ['accepted', 'doubtful', 'duplicate', 'conflicting', 'refused'] as const;

/** What became of one row. */
export interface WeighingOutcome {
  row: number;
  outcome: (typeof WEIGHING_OUTCOMES)[number];
  /** The thing; null where the row names none of the incident. */
  itemId: string | null;
  /** The weighing that is kept, of a duplicate or a conflict the one that was there; null for what was refused. */
  id: string | null;
  remarks: Remark[];
}

/**
 * Takes many weighings at once, as a scale beside the racks writes them. Each is judged as if it had come alone, in the order in
 * which they were sent; a bad row is refused with its reasons and does not hold up the others.
 * @throws Problem measurement_refused or measurement_conflicts when nothing could be kept, and nothing was there already
 */
export async function recordWeighings(stores: Stores, call: UseCaseCall, { incidentId, weighings }: RecordWeighingsInput): Promise<WeighingOutcome[]> {
  const incident = await openIncidentOf(stores, incidentId);
  const calibration = await climateCalibrationInForce(stores);
  const rows = weighings.map((sent, at) => ({ row: at + 1, read: RecordWeighingRow.safeParse(sent) }));
  const items = await lockedItems(stores, incident.id, rows.flatMap(({ read }) => (read.success ? [read.data.item] : [])));
  const outcomes: WeighingOutcome[] = [];
  for (const { row, read } of rows) {
    if (!read.success) {
      outcomes.push({ row, outcome: 'refused', itemId: null, id: null, remarks: malformed(read.error.issues) });
      continue;
    }
    const { item: named, ...weighing } = read.data;
    const item = items.get(named);
    outcomes.push(item === undefined ? { row, outcome: 'refused', itemId: null, id: null, remarks: [NO_ITEM] } : toOutcome(row, item, await keepWeighing(stores, call, item, weighing, calibration)));
  }
  if (outcomes.every(({ outcome }) => outcome === 'refused' || outcome === 'conflicting')) throw nothingKept(outcomes);
  return outcomes;
}

/** The items of the incident by what they are called in the rows: an id or a tag. Locked in the order of their ids, so that two scales never wait for each other. */
async function lockedItems(stores: Stores, incidentId: string, names: readonly string[]): Promise<Map<string, ItemRecord>> {
  const found = new Map<string, string>();
  for (const name of new Set(names)) {
    const tag = UUID.test(name) ? null : parseTagCode(name);
    const item = tag === null ? await stores.items.find(name) : isTagFault(tag) ? null : await stores.items.findByTag(tag.code);
    if (item?.incidentId === incidentId) found.set(name, item.id);
  }
  const locked = new Map<string, ItemRecord>();
  for (const id of [...new Set(found.values())].sort()) {
    const item = await stores.items.lock(id);
    if (item) locked.set(id, item);
  }
  return new Map([...found].flatMap(([name, id]) => { const item = locked.get(id); return item === undefined ? [] : [[name, item] as const]; }));
}

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i;
const NO_ITEM = remark('reference_unknown', 'item', say('No item with this tag or id belongs to the incident.'));

function malformed(issues: readonly { path: readonly PropertyKey[] }[]): Remark[] {
  const members = [...new Set(issues.map(({ path }) => String(path[0] ?? '')))];
  return members.map((member) => remark('malformed', member, member === '' ? say('The row has members that a weighing does not take.') : say('{member} is missing, or is not as a weighing takes it.', { member })));
}

function toOutcome(row: number, { id: itemId }: ItemRecord, became: KeptWeighing): WeighingOutcome {
  switch (became.outcome) {
    case 'created': {
      const { id, state, doubt } = became.weighing;
      return { row, outcome: state, itemId, id, remarks: doubt === null ? [] : [remark(doubt, 'scaleKg', weighingDoubtWords(doubt))] };
    }
    case 'duplicate':
      return { row, outcome: 'duplicate', itemId, id: became.weighing.id, remarks: [] };
    case 'conflicting':
      return { row, outcome: 'conflicting', itemId, id: became.weighing.id, remarks: [weighingConflict(became.weighing, became.sent)] };
    case 'unknown':
      return { row, outcome: 'refused', itemId, id: null, remarks: [remark('reference_unknown', became.member, became.what === 'person' ? say('No person with this id belongs to the incident.') : say('No drying place with this id belongs to the incident.'))] };
    case 'refused':
      return { row, outcome: 'refused', itemId, id: null, remarks: became.remarks };
  }
}

/** Every weighing was bad: whoever looks only at the status must learn it. */
function nothingKept(outcomes: readonly WeighingOutcome[]): Problem {
  const errors = outcomes.flatMap(({ row, remarks }) => remarks.map(({ code, member, text }) => ({ detail: render(text, 'en'), code, pointer: member === '' ? `#/weighings/${row - 1}` : `#/weighings/${row - 1}/${member}` })));
  const code = outcomes.every(({ outcome }) => outcome === 'conflicting') ? 'measurement_conflicts' : 'measurement_refused';
  const detail = outcomes.length === 1 ? errors.map((error) => error.detail).join(' ') : `None of the ${outcomes.length} weighings can be kept; see errors.`;
  return new Problem(code, `${detail} Nothing was changed.`, { errors, members: { rows: outcomes } });
}
