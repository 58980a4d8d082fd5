/** Which resources can serve a step: found once per distinct need and shared by all steps that have it. */
import type { PlanPerson, PlanStep } from './types.js';
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
  /** First slot, of each member, in which the step may not begin any more. */
  until: Int32Array;
  /** Next slot at or after each slot with at least one of them on shift who may begin. */
  nextOnShift: Int32Array;
}

/** What is asked of the people of a step. */
export type CrewNeed = Pick<PlanStep, 'skill' | 'barredRestrictions' | 'needsFit'>;

/** The people of a step, and those there would be if less were asked of them: for saying what is missing. */
export interface CrewChoice {
  able: CrewClass;
  /** The same whether or not a respirator was fitted; null where none must be. */
  unfitted: CrewClass | null;
  /** The same whatever they have declared, and fitted or not; null where nothing is barred. */
  undeclared: CrewClass | null;
}

/** Lookup of candidates by need. The site id ends each key, as it alone may hold a slash. */
export class CandidateIndex {
  private readonly stationSets = new Map<string, Candidates>();
  private readonly crewChoices = new Map<string, CrewChoice>();
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

  /** Who may do the step, and who could if less were asked. */
  crewChoice(siteId: string, { skill, barredRestrictions, needsFit = false }: CrewNeed): CrewChoice {
    return cached(this.crewChoices, crewKey(siteId, { skill, barredRestrictions, needsFit }), () => ({
      able: this.crew(siteId, { skill, barredRestrictions, needsFit }),
      unfitted: needsFit ? this.crew(siteId, { skill, barredRestrictions, needsFit: false }) : null,
      undeclared: barredRestrictions.length > 0 ? this.crew(siteId, { skill, barredRestrictions: [], needsFit: false }) : null,
    }));
  }

  /**
   * People of the site with the skill, without a barred restriction, and fitted where that is asked; the least versatile first,
   * so that rare skills and fitted respirators stay free.
   */
  private crew(siteId: string, need: CrewNeed): CrewClass {
    const { needsFit = false } = need;
    return cached(this.crewClasses, crewKey(siteId, need), () => {
      const { people, personOnShift, personRun, horizon } = this.resources;
      const members = indices(people.length)
        .filter((i) => people[i]!.siteId === siteId && mayJoin(people[i]!, need))
        .sort((a, b) => byVersatility(people[a]!, people[b]!) || a - b);
      const until = Int32Array.from(members, (person) => (needsFit ? Math.min(horizon, fitUntil(people[person]!)) : horizon));
      const onShift = new Uint8Array(horizon);
      let amount = 0;
      members.forEach((person, i) => {
        for (let slot = 0; slot < until[i]!; slot += 1) {
          if (personOnShift[person]![slot] === 1) onShift[slot] = 1;
          if (personRun[slot * people.length + person]! > 0) amount += 1;
        }
      });
      return { members, until, amount, nextOnShift: nextOpenTable(onShift) };
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

function crewKey(siteId: string, { skill, barredRestrictions, needsFit = false }: CrewNeed): string {
  return `${skill ?? ''}/${[...barredRestrictions].sort().join()}/${needsFit}/${siteId}`;
}

function mayJoin(person: PlanPerson, { skill, barredRestrictions, needsFit = false }: CrewNeed): boolean {
  const has = skill === null || person.skills.includes(skill);
  return has && !person.restrictions.some((restriction) => barredRestrictions.includes(restriction)) && (!needsFit || fitUntil(person) > 0);
}

function byVersatility(a: PlanPerson, b: PlanPerson): number {
  return a.skills.length - b.skills.length || Math.sign(fitUntil(a)) - Math.sign(fitUntil(b)) || b.restrictions.length - a.restrictions.length;
}

function fitUntil({ fitUntilSlot = 0 }: PlanPerson): number {
  return fitUntilSlot;
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
