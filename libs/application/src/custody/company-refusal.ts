import { render, say, type Message } from '#care';
import { formatTagCode, type Keeper, type KeeperKind } from '#custody';
import { Problem } from '#contracts';
import type { PlaceRecord } from '../ports/place-store.js';
import type { Stores } from '../ports/work.js';
import type { Clash } from './company.js';

/** Things that a refusal names; it counts them all. Own choice. */
const NAMED = 10;
/** Other places that are looked at, so that a refusal can name some; a refusal is no search. Own choice. */
const OTHERS_LOOKED_AT = 12;
/** Other places that are named. Own choice. */
const OTHERS_NAMED = 3;

/** What was to come, and where. */
interface Turned {
  incidentId: string;
  siteId: string;
  areaDm2: number;
  volumeL: number;
  to: Keeper;
  /** The place where it would have been in the end; null where none is known. */
  place: PlaceRecord | null;
}

/** The refusal: why, with whom, where else there is room in better company, and what a lead may do. Advice in English and in `inWords`. */
export async function companyRefused(stores: Stores, turned: Turned, clashes: readonly Clash[], fits: (place: PlaceRecord) => Promise<boolean>): Promise<Problem> {
  const because = [...new Map(clashes.map((clash) => [clash.because.text, clash.because])).values()];
  const others = [...new Map(clashes.flatMap(({ ruleId, with: there }) => there.map(({ tagCode }): [string, Named] => [`${tagCode} ${ruleId}`, { tag: formatTagCode(tagCode), ruleId }]))).values()];
  const places = turned.to.kind === 'container' || turned.place === null ? [] : await roomElsewhere(stores, turned, turned.place, fits);
  // Not to where it just could not go.
  const waiting = await stores.places.holdingArea(turned.place?.siteId ?? turned.siteId, clashes.some(({ ruleId }) => ruleId === 'apart.mould') ? 'quarantine' : 'dirty');
  const alternatives = [...places, ...(waiting === null || waiting.keeper.id === turned.to.id ? [] : [waiting])].map(({ keeper, name }) => ({ keeper, name }));
  const inWords = [...because, ...whoIsThere(others), elsewhere(turned.to.kind, places), ...(waiting === null ? [] : [say('Until then it may wait in {place}.', { place: waiting.name })]), byALead(turned)];
  return new Problem('company_refused', inWords.map((message) => render(message, 'en')).join(' '), { members: { place: turned.to, because, inWords, with: others.slice(0, NAMED), alternatives } });
}

interface Named {
  tag: string;
  ruleId: string | null;
}

function whoIsThere(others: readonly Named[]): Message[] {
  const tags = [...new Set(others.map(({ tag }) => tag))];
  if (tags.length === 0) return [];
  const [named, more] = [tags.slice(0, NAMED).join(', '), tags.length - NAMED];
  return [more > 0 ? say('There already: {tags} and {more} more.', { tags: named, more }) : say('There already: {tags}.', { tags: named })];
}

/** Places of the same kind that have room and where it would be in better company. */
async function roomElsewhere(stores: Stores, turned: Turned, place: PlaceRecord, fits: (place: PlaceRecord) => Promise<boolean>): Promise<PlaceRecord[]> {
  const found: PlaceRecord[] = [];
  for (const other of await stores.places.othersLike(turned.incidentId, place, OTHERS_LOOKED_AT)) {
    if (found.length === OTHERS_NAMED) break;
    if ((await hasRoom(stores, turned, other)) && (await fits(other))) found.push(other);
  }
  return found;
}

async function hasRoom(stores: Stores, { areaDm2, volumeL }: Turned, { keeper, capacity }: PlaceRecord): Promise<boolean> {
  if (capacity === null) return true;
  const taken = await stores.places.takenBy(keeper);
  return keeper.kind === 'drying-place' ? taken.areaDm2 + areaDm2 <= capacity : taken.volumeL + volumeL <= capacity;
}

function elsewhere(kind: KeeperKind, places: readonly PlaceRecord[]): Message {
  if (places.length > 0) return say('There is room for it in better company: {places}.', { places: places.map(({ name }) => name).join(', ') });
  switch (kind) {
    case 'drying-place': return say('No other drying place of this site has room for it in better company. Free one for it, or hang it on a screen, line or table by itself.');
    case 'freezer': return say('Wrap it first and record the step `wrap`, or put it into a freezer with its like.');
    case 'vehicle': return say('Put it into a box or a bag that closes and load that, or take it on another trip.');
    case 'station': return say('Wait until a bath is free and its water is changed, or rinse it with its like.');
    case 'holding': return say('Put it into the quarantine zone.');
    default: return say('Put it into a container or onto a shelf with its like.');
  }
}

function byALead({ to }: Turned): Message {
  return to.kind === 'freezer'
    ? say('If it has to be there all the same, a lead records the custody event `frozen` with `personId` and a `reason`.')
    : say('If it has to be there all the same, a lead records the move as a custody event with `personId` and a `reason`.');
}
