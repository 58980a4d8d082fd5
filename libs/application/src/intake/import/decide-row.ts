/** What becomes of one row: decided before anything is written, so that a bad row never has to be undone. */
import { formatTagCode, isTagFault, parseTagCode } from '#custody';
import type { Problem } from '#contracts';
import type { HouseholdRecord } from '../../ports/household-store.js';
import type { Stores } from '../../ports/work.js';
import { nearestReserved } from '../take-in.js';
import type { RowRemarks } from './row-remarks.js';
import type { RowReading } from './row-values.js';
import { foldWords } from './word-table.js';

/** The verdict on a row; the remarks of a refusal or a repair are added to the row's. */
export type Verdict = { verdict: 'take-in'; tagCode: string } | { verdict: 'already-there'; itemId: string } | { verdict: 'refused' };

/** What is known about where the row belongs. */
export interface RowPlace {
  incidentId: string;
  /** The household on record, null when the code is new. */
  household: HouseholdRecord | null;
}

/** Decides a row whose own cells are in order; it reads the stores and writes nothing. */
export async function decideRow(stores: Stores, reading: RowReading, remarks: RowRemarks, place: RowPlace): Promise<Verdict> {
  if (remarks.refusals.length > 0) {
    await addTagHint(stores, reading, remarks, place);
    return { verdict: 'refused' };
  }
  const typed = reading.values.tag;
  const parsed = parseTagCode(typed);
  if (isTagFault(parsed)) return refuse(remarks, 'tag', 'tag_invalid', parsed.text + (await hint(stores, typed, place)), typed);
  // Locked, so that a tablet which ties it at this moment is waited for and then seen.
  const tag = await stores.tags.lock(parsed.code);
  // A tag of another incident is answered like one that nobody reserved.
  if (tag === null || tag.incidentId !== place.incidentId) return refuse(remarks, 'tag', 'tag_unknown', `No one reserved this tag for the incident.${await hint(stores, typed, place)}`, typed);
  if (tag.kind !== 'item') return refuse(remarks, 'tag', 'tag_kind_wrong', `This is the tag of a ${tag.kind}, not of an item.`, typed);
  if (typed !== parsed.code && typed !== formatTagCode(parsed.code)) remarks.repair('tag', 'tag_spelling', 'The tag was written in another form; its check digits fit.', typed, formatTagCode(parsed.code));
  if (tag.itemId === null) return { verdict: 'take-in', tagCode: parsed.code };
  return tiedAlready(stores, reading, remarks, place, tag.itemId);
}

/** The same thing of the same household is there already; anything else on the tag is a mix-up that a person must look at. */
async function tiedAlready(stores: Stores, reading: RowReading, remarks: RowRemarks, place: RowPlace, itemId: string): Promise<Verdict> {
  const item = await stores.items.find(itemId);
  if (item === null) throw new Error('a tag is tied to an item that cannot be read');
  const sameThing = foldWords(item.description) === foldWords(reading.values.object);
  if (place.household?.id === item.householdId && sameThing) return { verdict: 'already-there', itemId };
  const owner = place.household?.id === item.householdId ? 'another thing of this household' : 'a thing of another household';
  return refuse(remarks, 'tag', 'tag_taken', `This tag is tied to ${owner} already. Look at both things; give this one a fresh tag, or write the description as it stands on record if it is the same thing.`, reading.values.tag);
}

/** A row refused for other cells is told about its tag as well, so that it is mended once and not twice. */
async function addTagHint(stores: Stores, reading: RowReading, remarks: RowRemarks, place: RowPlace): Promise<void> {
  const typed = reading.values.tag;
  const parsed = parseTagCode(typed);
  if (typed === '' || !isTagFault(parsed) || remarks.refusals.some(({ column }) => column === 'tag' || column === '')) return;
  remarks.refuse('tag', 'tag_invalid', parsed.text + (await hint(stores, typed, place)), typed);
}

/** Reserved tags of the incident that are one slip away; offered, never chosen. */
async function hint(stores: Stores, typed: string, place: RowPlace): Promise<string> {
  const nearest = await nearestReserved(stores, typed, place.incidentId);
  return nearest.length === 0 ? '' : ` Reserved tags close to it: ${nearest.join(', ')}. Look at the tag itself before you write one of them.`;
}

function refuse(remarks: RowRemarks, column: string, code: string, text: string, was: string): Verdict {
  remarks.refuse(column, code, text, was);
  return { verdict: 'refused' };
}

/** A refusal by the intake itself, as a remark: the row met something that changed while it was being taken in. */
export function refuseBy(problem: Problem, remarks: RowRemarks, typed: string): Verdict {
  return refuse(remarks, problem.code.startsWith('tag_') ? 'tag' : '', problem.code, problem.detail, typed);
}
