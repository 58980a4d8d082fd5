/** What becomes of one row: decided before anything is written, so that a bad row never has to be undone. */
import { say, type Message } from '#care';
import { formatTagCode, isTagFault, parseTagCode } from '#custody';
import type { Problem, ProblemCode } from '#contracts';
import type { HouseholdRecord } from '../../ports/household-store.js';
import type { TagRecord } from '../../ports/tag-store.js';
import type { Stores } from '../../ports/work.js';
import { nearestReserved } from '../../tags/checked-tag.js';
import type { RowRemarks } from './row-remarks.js';
import type { RowReading } from './row-values.js';
import { tagFaultInWords, withNearest, wrongKindInWords } from './tag-words.js';
import { foldWords } from './word-table.js';

/** The verdict on a row; the remarks of a refusal or a repair are added to the row's. */
export type Verdict = { verdict: 'take-in'; tagCode: string } | { verdict: 'already-there'; itemId: string } | { verdict: 'refused' };

/** What is known about where the row belongs. */
export interface RowPlace {
  incidentId: string;
  /** The household on record, null when the code is new. */
  household: HouseholdRecord | null;
}

/** Decides a row; it reads the stores and writes nothing. A row that other cells have refused is told what is wrong with its tag as well, so that it is mended once and not twice. */
export async function decideRow(stores: Stores, reading: RowReading, remarks: RowRemarks, place: RowPlace): Promise<Verdict> {
  const refused = new Set(remarks.refusals.map(({ column }) => column));
  const typed = reading.values.tag;
  if (refused.size > 0 && (typed === '' || refused.has('tag') || refused.has(''))) return { verdict: 'refused' };
  const tag = await itemTag(stores, typed, remarks, place);
  if (tag === null) return { verdict: 'refused' };
  // Whose thing it is tied to can be said only where the row can be read.
  const tied = tag.itemId === null || refused.has('household') || refused.has('object') ? null : await tiedAlready(stores, reading, remarks, place, tag.itemId);
  if (refused.size > 0) return { verdict: 'refused' };
  if (typed !== tag.code && typed !== formatTagCode(tag.code)) remarks.repair('tag', 'tag_spelling', say('The tag was written in another form; its check digits fit.'), typed, formatTagCode(tag.code));
  return tied ?? { verdict: 'take-in', tagCode: tag.code };
}

/** The tag of the row, reserved for items of the incident; null, with the refusal in the remarks, when it is none. */
async function itemTag(stores: Stores, typed: string, remarks: RowRemarks, place: RowPlace): Promise<TagRecord | null> {
  const parsed = parseTagCode(typed);
  if (isTagFault(parsed)) return refusedTag(remarks, 'tag_invalid', await hinted(tagFaultInWords(parsed, typed), stores, typed, place), typed);
  // Locked, so that a tablet which ties it at this moment is waited for and then seen.
  const tag = await stores.tags.lock(parsed.code);
  // A tag of another incident is answered like one that nobody reserved.
  if (tag === null || tag.incidentId !== place.incidentId) return refusedTag(remarks, 'tag_unknown', await hinted(UNRESERVED, stores, typed, place), typed);
  return tag.kind === 'item' ? tag : refusedTag(remarks, 'tag_kind_wrong', wrongKindInWords(tag.kind), typed);
}

function refusedTag(remarks: RowRemarks, code: string, said: Message, typed: string): null {
  remarks.refuse('tag', code, said, typed);
  return null;
}

/** The same thing of the same household is there already; anything else on the tag is a mix-up that a person must look at. */
async function tiedAlready(stores: Stores, reading: RowReading, remarks: RowRemarks, place: RowPlace, itemId: string): Promise<Verdict> {
  const item = await stores.items.find(itemId);
  if (item === null) throw new Error('a tag is tied to an item that cannot be read');
  const sameThing = foldWords(item.description) === foldWords(reading.values.object);
  if (place.household?.id === item.householdId && sameThing) return { verdict: 'already-there', itemId };
  const taken = place.household?.id === item.householdId
    ? say('This tag is tied to another thing of this household already. Look at both things; give this one a fresh tag, or write the description as it stands on record if it is the same thing.')
    : say('This tag is tied to a thing of another household already. Look at both things; give this one a fresh tag.');
  return refuse(remarks, 'tag', 'tag_taken', taken, reading.values.tag);
}

const UNRESERVED = say('No one reserved this tag for the incident. Look at the tag again, or reserve its block of tags first.');

/** With the reserved tags of the incident that are one slip away. */
async function hinted(fault: Message, stores: Stores, typed: string, place: RowPlace): Promise<Message> {
  return withNearest(fault, await nearestReserved(stores, typed, place.incidentId));
}

function refuse(remarks: RowRemarks, column: string, code: string, said: Message, was: string): Verdict {
  remarks.refuse(column, code, said, was);
  return { verdict: 'refused' };
}

/** What the intake itself refuses, which the decision before it saw otherwise. */
const CHANGED_MEANWHILE: Readonly<Partial<Record<ProblemCode, Message>>> = {
  tag_taken: say('This tag was tied to another thing while the file was worked through. Look at both things, and give this one a fresh tag.'),
  tag_unknown: UNRESERVED,
  reference_unknown: say('Something that the row needs was taken away while the file was worked through: a waiting area, or a household. Send the row again when it is there.'),
};
const REFUSED = say('The row could not be taken in as it stands, although each of its cells can be read. Look at its times and its tag, and send it again.');

/** A refusal by the intake itself, as a remark: the row met something that changed while it was being taken in. */
export function refuseBy(problem: Problem, remarks: RowRemarks, typed: string): Verdict {
  return refuse(remarks, problem.code.startsWith('tag_') ? 'tag' : '', problem.code, CHANGED_MEANWHILE[problem.code] ?? REFUSED, typed);
}
