import type { DemoHousehold, DemoThing } from '../world/types.js';

/** Columns that the desks fill in; `shelf` is theirs and means nothing to the program. */
export const FILE_COLUMNS = [
  'tag', 'household', 'contactName', 'contactPhone', 'contactEmail', 'contactAddress', 'language', 'object', 'familyWords', 'photograph', 'count', 'material',
  'size', 'significance', 'wettedAt', 'arrivedAt', 'water', 'consentTreat', 'consentFreeze', 'consentRefer', 'shelf',
] as const;
export type FileColumn = (typeof FILE_COLUMNS)[number];
export type Cells = Record<FileColumn, string>;

/** How a desk writes a moment. */
export type DateForm = 'rfc-3339' | 'dotted' | 'plain';

/** A thing as a careful volunteer would write it down. */
export function cellsOf(thing: DemoThing, household: DemoHousehold, tag: string, dates: DateForm): Cells {
  const { contact, consents } = household;
  return {
    tag, household: household.code, contactName: contact.name, contactPhone: contact.phone, contactEmail: contact.email, contactAddress: contact.address, language: household.language,
    object: thing.object, familyWords: thing.familyWords, photograph: thing.photographRef, count: thing.count === 1 ? '' : String(thing.count),
    material: thing.materialWord, size: thing.sizeClass, significance: thing.significance, wettedAt: writeMoment(thing.wettedAtMs, dates), arrivedAt: writeMoment(thing.arrivedAtMs, dates), water: 'river',
    consentTreat: yesNo(consents.treat), consentFreeze: yesNo(consents.freeze), consentRefer: yesNo(consents.refer), shelf: `Shelf ${(thing.count % 7) + 1}`,
  };
}

function yesNo(answer: boolean | null): string {
  return answer === null ? '' : answer ? 'yes' : 'no';
}

function writeMoment(ms: number, form: DateForm): string {
  const iso = new Date(ms).toISOString();
  const [date = '', time = ''] = iso.split('T');
  const [year = '', month = '', day = ''] = date.split('-');
  if (form === 'rfc-3339') return `${date}T${time.slice(0, 8)}Z`;
  return form === 'dotted' ? `${day}.${month}.${year} ${time.slice(0, 5)}` : `${date} ${time.slice(0, 5)}`;
}
