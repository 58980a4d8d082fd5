/**
 * What must not be together in one place: the rules of the rule book that keep a thing apart, asked of two things and of how they lie.
 * The rules and their sources are those of `rule-book/mixed-and-mended.rules.ts`: `apart.mould` (own: quarantine carried to what is shared),
 * `apart.black-water` (published: CDC flood water; Washington State Department of Health), `apart.bleeding` (own: "never fold it on
 * itself" carried to its neighbours), `apart.stop-hazard` (own: "stop, isolate" carried to bags and freezers). That a rule speaks of two
 * things when it holds for one and not for the other, and which rule holds at which kind of place, is our own reading; see `holds`.
 */
import { MATERIALS, type Family } from './materials.js';
import { say, type Message } from './messages/message.js';
import { stopHazards } from './facts.js';
import type { Apart, Hazard, MaterialClass } from './types.js';

/** Rules that two things may break together. */
export const COMPANY_RULES = ['apart.mould', 'apart.black-water', 'apart.bleeding', 'apart.stop-hazard'] as const;
export type CompanyRule = (typeof COMPANY_RULES)[number];

/**
 * How things are together at a place. `pressed`: they touch or lie over each other, as in a container, on a shelf or on a vehicle.
 * `tiers`: over each other with air between, so that water drips from one onto another (a rack). `side-by-side`: each on area of its own
 * (screen, line, table). `frozen`: parcels in a freezer.
 */
export const CLOSENESSES = ['pressed', 'tiers', 'side-by-side', 'frozen'] as const;
export type Closeness = (typeof CLOSENESSES)[number];

/** What is between a thing and others at a place: nothing, a container that is open at the top, or one that closes. */
export const WALLS = ['none', 'open', 'closed'] as const;
export type Wall = (typeof WALLS)[number];

/** Which containers close; a lid that lies beside its box is for people to see. Our own judgement. */
export const WALL_OF_CONTAINER: Readonly<Record<'box' | 'bag' | 'tub' | 'crate', Wall>> = { box: 'closed', bag: 'closed', tub: 'open', crate: 'open' };

/** The closer of two walls, one inside the other. */
export function outerWall(one: Wall, other: Wall): Wall {
  return WALLS.indexOf(one) > WALLS.indexOf(other) ? one : other;
}

/** A thing by its latest triage and what was done to it. */
export interface Companion {
  materialClass: MaterialClass;
  apartFrom: readonly Pick<Apart, 'ruleId'>[];
  /** Rinsed here in its present round of work, so that the dirt of the flood is off it. False when left out. */
  rinsed?: boolean;
  /** Wrapped here for the freezer: a closed parcel of its own. False when left out. */
  sealed?: boolean;
  /** Hazards that were seen; those of its kind need not be among them. */
  hazards?: readonly Hazard[];
  /** What is between it and the place; nothing when left out. */
  wall?: Wall;
}

export interface CompanyFault<T extends Companion> {
  ruleId: CompanyRule;
  because: Message;
  /** Those already there that it must not lie with. */
  with: T[];
}

const BECAUSE: Readonly<Record<CompanyRule, Message>> = {
  'apart.mould': say('Mould stays by itself: what has mould, or may have it, is not put together with what is free of it.'),
  'apart.black-water': say('Unrinsed things from flood or sewage water are not put together with rinsed and clean ones.'),
  'apart.bleeding': say('A thing whose colour moves lies with nothing that could take its colour.'),
  'apart.stop-hazard': say('What can hurt people is kept alone, closed and marked.'),
};

/** Surfaces that take up no dye: glass, metal, ceramics, and carriers of sound and picture. Our own judgement. */
const TAKES_NO_COLOUR: ReadonlySet<Family> = new Set<Family>(['inorganic', 'audio-visual']);

/** Why a thing must not come to those that are there; empty when it may. Each rule once, with all whom it concerns. */
export function companyFaults<T extends Companion>(comer: Companion, lying: readonly T[], closeness: Closeness = 'pressed'): CompanyFault<T>[] {
  return COMPANY_RULES.flatMap((ruleId) => {
    const against = lying.filter((other) => holds(ruleId, comer, other, closeness) && keepsApart(ruleId, comer, other, closeness));
    return against.length === 0 ? [] : [{ ruleId, because: BECAUSE[ruleId], with: against }];
  });
}

/**
 * Whether a rule holds between two things as they lie. What separates contaminated from clean (mould, flood water) holds everywhere, unless
 * a closed container is between them; dye and hazards only where things touch or drip on each other. In a freezer a closed parcel is the
 * barrier: for mould both are closed (`apart.mould`: "its own stays sealed", and no unsealed parcels beside it), for dirt of the flood
 * the dirty one is, for dye one of them is (textiles are frozen singly, with a barrier: Ellis, and the National Park Service's Saving Wet
 * Textiles); what can hurt people shares a freezer only with what is marked for the same hazard, parcel or not.
 */
function holds(ruleId: CompanyRule, one: Companion, other: Companion, closeness: Closeness): boolean {
  const wall = outerWall(one.wall ?? 'none', other.wall ?? 'none');
  const contaminates = ruleId === 'apart.mould' || ruleId === 'apart.black-water';
  if (wall === 'closed' || (wall === 'open' && !contaminates)) return false;
  if (closeness === 'frozen') return ruleId === 'apart.stop-hazard' || !sealedOff(ruleId, one, other);
  return contaminates || closeness === 'pressed' || (closeness === 'tiers' && ruleId === 'apart.bleeding');
}

function sealedOff(ruleId: CompanyRule, one: Companion, other: Companion): boolean {
  if (ruleId === 'apart.mould') return one.sealed === true && other.sealed === true;
  if (ruleId === 'apart.black-water') return [one, other].every((thing) => thing.sealed === true || !keptApartBy(ruleId, thing));
  return one.sealed === true || other.sealed === true;
}

function keepsApart(ruleId: CompanyRule, one: Companion, other: Companion, closeness: Closeness): boolean {
  if (ruleId === 'apart.bleeding') return (keptApartBy(ruleId, one) && takesColour(other)) || (keptApartBy(ruleId, other) && takesColour(one));
  if (ruleId !== 'apart.stop-hazard') return keptApartBy(ruleId, one) !== keptApartBy(ruleId, other);
  const [hurts, otherHurts] = [keptApartBy(ruleId, one), keptApartBy(ruleId, other)];
  if (!hurts && !otherHurts) return false;
  return closeness !== 'frozen' || hurts !== otherHurts || markOf(one) !== markOf(other);
}

/** The hazards that a thing is marked for, as one word; empty when there are none. */
function markOf({ materialClass, hazards = [] }: Companion): string {
  return [...new Set(stopHazards({ materialClass, hazards: [...hazards] }))].sort().join(' ');
}

/** True when the rule keeps the thing apart: by its triage, and as long as the reason is not rinsed off. */
export function keptApartBy(ruleId: CompanyRule, thing: Companion): boolean {
  return thing.apartFrom.some((apart) => apart.ruleId === ruleId) && !(ruleId === 'apart.black-water' && thing.rinsed === true);
}

/** Equal for things that are alike in all that the rules ask, whatever else they are: `companyFaults` answers for one as for the other. */
export function companyKeyOf(thing: Companion): string {
  const kept = COMPANY_RULES.filter((ruleId) => keptApartBy(ruleId, thing));
  return [...kept, ...(kept.includes('apart.stop-hazard') ? [markOf(thing)] : []), takesColour(thing) ? 'takes-colour' : 'takes-none', thing.sealed === true ? 'sealed' : 'open', thing.wall ?? 'none'].join(' ');
}

function takesColour({ materialClass }: Companion): boolean {
  return !TAKES_NO_COLOUR.has(MATERIALS[materialClass].family);
}

/** Things that are rinsed at the same time, each with the group that may share its bath; null for a bath of its own. */
export interface Bather {
  bathGroup: string | null;
}

/**
 * Those in the way when one more thing comes to baths of which each takes one group (`bathGroupOf`) or one thing alone; null when there is
 * a bath for it: one with its like, or a free one. Which thing lies in which bath nobody records, so only what certainly cannot go is said.
 * @param baths how many there are, 1 or more
 */
export function bathsTaken<T extends Bather>(comer: Bather, there: readonly T[], baths: number): T[] | null {
  const groups = new Set(there.flatMap(({ bathGroup }) => bathGroup ?? []));
  if (comer.bathGroup !== null && groups.has(comer.bathGroup)) return null;
  return there.filter(({ bathGroup }) => bathGroup === null).length + groups.size < baths ? null : [...there];
}
