import { bathsTaken, companyFaults, keptApartBy, outerWall, say, WALL_OF_CONTAINER, type Closeness, type CompanyRule, type Message, type Wall } from '#care';
import { sameKeeper, type Keeper, type KeeperKind } from '#custody';
import type { ContainerRecord } from '../ports/container-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { PlaceRecord } from '../ports/place-store.js';
import type { LyingCompanion } from '../ports/where-store.js';
import type { Stores } from '../ports/work.js';
import { companyRefused } from './company-refusal.js';
import { holdPath } from './containers.js';

/** Things of a place that are looked at; a place holds fewer. What lies openly is looked at first. Own choice. */
const LOOKED_AT = 2_000;

/** What must not be together, in words and by tag. */
export interface Clash {
  /** Null for baths, which stand in no rule of company. */
  ruleId: CompanyRule | null;
  because: Message;
  with: Pick<LyingCompanion, 'itemId' | 'tagCode'>[];
}

/**
 * How things are together, by the kind of place. A waiting area has a shelf or floor for each, a crew at a table has one thing at a time in
 * hand, and what a courier, a specialist or a family does with things is theirs: there nothing is checked but the clean zone and the baths.
 */
const CLOSENESS: Partial<Record<KeeperKind, Closeness>> = { container: 'pressed', shelf: 'pressed', vehicle: 'pressed', freezer: 'frozen' };

function closenessAt({ keeper, arrangement }: PlaceRecord): Closeness | undefined {
  if (keeper.kind === 'drying-place') return arrangement === 'rack' ? 'tiers' : 'side-by-side';
  return CLOSENESS[keeper.kind];
}

/** Places of which the zone says what may come. A drying place and a station say it themselves. */
const BY_ZONE: ReadonlySet<KeeperKind> = new Set(['shelf', 'holding']);

function isCleanZone(place: PlaceRecord | null): boolean {
  return place !== null && BY_ZONE.has(place.keeper.kind) && place.zone === 'clean';
}

const CLEAN_ZONE = say('What has mould, or may have it, does not go into the clean zone.');
const BATHS = say('No bath is free for it: in the ones that are taken lies what may not share its water.');

/**
 * Keeps a place as it is until the transaction ends, so that two things that must not be together cannot come at once: a container with
 * those around it, and the baths of a station; other places are locked where their room is counted.
 */
export async function holdCompany(stores: Stores, item: Pick<ItemRecord, 'incidentId' | 'nextStep'>, to: Keeper): Promise<void> {
  if (to.kind === 'container') await holdPath(stores, to.id, 'update');
  if (to.kind === 'station' && item.nextStep === 'rinse') await stores.places.lock(item.incidentId, to);
}

/**
 * Refuses a thing that must not be with what is at the place, or around the container, or not in its zone. The place must be held: what is
 * there is read now, without the thing itself. @throws Problem company_refused, with what is there, why, and where it may go instead
 */
export async function refuseCompany(stores: Stores, item: ItemRecord, to: Keeper, place: PlaceRecord | null): Promise<void> {
  const around = await surroundings(stores, item.incidentId, to, place, 'none');
  // Most moves are to a waiting area or a table, where nothing is asked.
  if (around.levels.length === 0 && !isCleanZone(around.end) && item.nextStep !== 'rinse') return;
  const comer = await stores.where.companion(item.id);
  if (!comer) return;
  const clashes = [...(await clashesAt(stores, [comer], around)), ...(await bathClash(stores, item, comer, place))];
  if (clashes.length > 0) throw await companyRefused(stores, { ...item, to, place: around.end }, clashes, async (other) => (await clashesAt(stores, [comer], await surroundings(stores, item.incidentId, other.keeper, other, 'none'))).length === 0);
}

/** The same for a container with all that is in it. */
export async function refuseCompanyOfContents(stores: Stores, container: ContainerRecord, to: Keeper, place: PlaceRecord | null): Promise<void> {
  if (sameKeeper(container.keeper, to)) return;
  const wall = WALL_OF_CONTAINER[container.kind];
  const around = await surroundings(stores, container.incidentId, to, place, wall);
  if (around.levels.length === 0 && !isCleanZone(around.end)) return;
  const comers = await stores.where.companions({ kind: 'container', id: container.id }, LOOKED_AT);
  const clashes = await clashesAt(stores, comers, around);
  const volumeL = async () => (await stores.containers.inside(container.id)).volumeL;
  if (clashes.length > 0) throw await companyRefused(stores, { ...container, areaDm2: 0, volumeL: await volumeL(), to, place: around.end }, clashes, async (other) => (await clashesAt(stores, comers, await surroundings(stores, container.incidentId, other.keeper, other, wall))).length === 0);
}

/** One of the places in which a thing would be, from the closest outwards, and what is between it and the others there. */
interface Level {
  keeper: Keeper;
  closeness: Closeness;
  wall: Wall;
}

interface Surroundings {
  levels: Level[];
  /** The place where it all stands; null where none is known. */
  end: PlaceRecord | null;
}

async function surroundings(stores: Stores, incidentId: string, to: Keeper, place: PlaceRecord | null, wall: Wall): Promise<Surroundings> {
  const path = to.kind === 'container' ? await stores.containers.path(to.id) : [];
  const levels: Level[] = [];
  let between = wall;
  for (const { id, kind } of path) {
    levels.push({ keeper: { kind: 'container', id }, closeness: 'pressed', wall: between });
    between = outerWall(between, WALL_OF_CONTAINER[kind]);
  }
  const stands = to.kind === 'container' ? (path.at(-1)?.keeper ?? null) : to;
  const end = to.kind === 'container' ? stands && (await stores.places.find(incidentId, stands)) : place;
  const closeness = end ? closenessAt(end) : undefined;
  if (end && closeness !== undefined) levels.push({ keeper: end.keeper, closeness, wall: between });
  return { levels, end };
}

async function clashesAt(stores: Stores, comers: readonly LyingCompanion[], { levels, end }: Surroundings): Promise<Clash[]> {
  const seen = new Set(comers.map(({ itemId }) => itemId));
  const clashes: Clash[] = [];
  for (const level of levels) {
    const open = comers.filter(({ wall }) => outerWall(wall ?? 'none', level.wall) !== 'closed');
    if (open.length === 0) break;
    // What shares a closer level was asked about there.
    const lying = (await stores.where.companions(level.keeper, LOOKED_AT)).filter(({ itemId }) => !seen.has(itemId));
    for (const { itemId } of lying) seen.add(itemId);
    for (const comer of ofEachSort(open)) clashes.push(...companyFaults({ ...comer, wall: outerWall(comer.wall ?? 'none', level.wall) }, lying, level.closeness));
  }
  const unclean = isCleanZone(end) && comers.some((comer) => keptApartBy('apart.mould', comer));
  return unclean ? [...clashes, { ruleId: 'apart.mould', because: CLEAN_ZONE, with: [] }] : clashes;
}

/** One of each sort: a thousand sheets that are alike in all that is asked need one answer. */
function ofEachSort(comers: readonly LyingCompanion[]): LyingCompanion[] {
  return [...new Map(comers.map((comer) => [JSON.stringify({ ...comer, itemId: '', tagCode: '', apartFrom: comer.apartFrom.map(({ ruleId }) => ruleId) }), comer])).values()];
}

/** At the baths of a station each thing has water of its own, or shares it with its like; the station says how many baths there are. */
async function bathClash(stores: Stores, item: ItemRecord, comer: LyingCompanion, place: PlaceRecord | null): Promise<Clash[]> {
  if (place?.keeper.kind !== 'station' || item.nextStep !== 'rinse' || !place.steps.includes('rinse') || place.capacity === null) return [];
  const there = (await stores.where.companions(place.keeper, LOOKED_AT)).filter(({ itemId, inBath }) => inBath && itemId !== item.id);
  const taken = bathsTaken(comer, there, place.capacity);
  return taken === null ? [] : [{ ruleId: null, because: BATHS, with: taken }];
}
