/** Which resources can serve a step: found once per distinct need and shared by all steps that have it. */
import type { PlanStep } from './types.js';
import { nextOpenTable } from './calendar.js';
import type { Resources } from './resources.js';

/** Resources that can serve a need, in order of preference at equal times, and how much they hold in all. */
export interface Candidates {
  members: number[];
  /** Free amount times slots over the horizon. */
  amount: number;
}

/** Drying places of a site with the air of their rooms. */
export interface PlaceCandidates extends Candidates {
  rooms: number[];
  airAmount: number;
}

/** People who may do a kind of step on a site. */
export interface CrewClass extends Candidates {
  /** Next slot at or after each slot with at least one of them on shift. */
  nextOnShift: Int32Array;
}

/** Lookup of candidates by need. The site id ends each key, as it alone may hold a slash. */
export class CandidateIndex {
  private readonly stationSets = new Map<string, Candidates>();
  private readonly crewClasses = new Map<string, CrewClass>();
  private readonly placeSets = new Map<string, PlaceCandidates>();
  private readonly freezerSets = new Map<string, Candidates>();

  constructor(private readonly resources: Resources) {}

  /** Stations of the site that do the step in its zone; the most specialised first. */
  stations(siteId: string, step: PlanStep): Candidates {
    return cached(this.stationSets, `${step.zone}/${step.step}/${siteId}`, () => {
      const { stations, stationFree } = this.resources;
      const members = indices(stations.length)
        .filter((i) => stations[i]!.siteId === siteId && stations[i]!.zone === step.zone && stations[i]!.steps.includes(step.step))
        .sort((a, b) => stations[a]!.steps.length - stations[b]!.steps.length || a - b);
      return { members, amount: total(members, stationFree) };
    });
  }

  /** People of the site with the skill and without a barred restriction; the least versatile first, so that rare skills stay free. */
  crew(siteId: string, step: PlanStep): CrewClass {
    return cached(this.crewClasses, `${step.skill ?? ''}/${[...step.barredRestrictions].sort().join()}/${siteId}`, () => {
      const { people, personOnShift, personRun, horizon } = this.resources;
      const { skill, barredRestrictions } = step;
      const members = indices(people.length)
        .filter((i) => people[i]!.siteId === siteId && (skill === null || people[i]!.skills.includes(skill)))
        .filter((i) => !people[i]!.restrictions.some((restriction) => barredRestrictions.includes(restriction)))
        .sort((a, b) => people[a]!.skills.length - people[b]!.skills.length || people[b]!.restrictions.length - people[a]!.restrictions.length || a - b);
      const onShift = new Uint8Array(horizon);
      let amount = 0;
      for (const person of members) {
        personOnShift[person]!.forEach((on, slot) => { if (on === 1) onShift[slot] = 1; });
        for (let slot = 0; slot < horizon; slot += 1) if (personRun[slot * people.length + person]! > 0) amount += 1;
      }
      return { members, amount, nextOnShift: nextOpenTable(onShift) };
    });
  }

  /** Drying places of the site; the smallest first, so that large places stay free for large things. */
  places(siteId: string): PlaceCandidates {
    return cached(this.placeSets, siteId, () => {
      const { places, placeRoom, roomSite, placeFree, roomFree } = this.resources;
      const members = indices(places.length)
        .filter((i) => roomSite[placeRoom[i]!] === siteId)
        .sort((a, b) => places[a]!.areaDm2 - places[b]!.areaDm2 || a - b);
      const rooms = [...new Set(members.map((place) => placeRoom[place]!))].sort((a, b) => a - b);
      return { members, rooms, amount: total(members, placeFree), airAmount: total(rooms, roomFree) };
    });
  }

  /** Freezers of the site; the smallest first. */
  freezers(siteId: string): Candidates {
    return cached(this.freezerSets, siteId, () => {
      const { freezers, freezerFree } = this.resources;
      const members = indices(freezers.length)
        .filter((i) => freezers[i]!.siteId === siteId)
        .sort((a, b) => freezers[a]!.volumeCl - freezers[b]!.volumeCl || a - b);
      return { members, amount: total(members, freezerFree) };
    });
  }
}

function cached<T>(map: Map<string, T>, id: string, make: () => T): T {
  const known = map.get(id);
  if (known !== undefined) return known;
  const made = make();
  map.set(id, made);
  return made;
}

function indices(length: number): number[] {
  return Array.from({ length }, (_, index) => index);
}

/** Free amount over all slots; closed and overdrawn slots count nothing. */
function total(members: readonly number[], free: readonly Int32Array[]): number {
  let sum = 0;
  for (const member of members) for (const amount of free[member]!) sum += Math.max(0, amount);
  return sum;
}
