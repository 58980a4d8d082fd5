/** Which resources can serve a step: found once per distinct need and shared by all steps that have it. */
import type { PlanPerson, PlanStep } from './types.js';
import type { Resources } from './resources.js';

/** Rows of resources that can serve a need, in order of preference at equal times, and how much they hold in all. */
export interface Candidates {
  /** Rows of the free slots. */
  rows: number[];
  /** Free amount times slots over the horizon. */
  amount: number;
}

/** Drying places of a site with the air of their rooms. */
export interface PlaceCandidates extends Candidates {
  /** Row of the room of each place, in step with `rows`. */
  airRows: number[];
  /** Area of each place, in step with `rows`. */
  areas: number[];
  /** Rooms of the places, each once. */
  rooms: number[];
  airAmount: number;
}

/** People who may do a kind of step on a site, as pools of people who are alike. */
export interface CrewClass extends Candidates {
  /** First slot, of each pool, in which the step may not begin any more. */
  until: number[];
  /** People in all. */
  size: number;
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

/** Lookup of candidates by need. */
export class CandidateIndex {
  private readonly stationSets = new Map<string, Candidates>();
  private readonly crewChoices = new Map<string, CrewChoice>();
  private readonly crewClasses = new Map<string, CrewClass>();
  private readonly placeSets = new Map<string, PlaceCandidates>();
  private readonly freezerSets = new Map<string, Candidates>();
  private readonly amounts = new Map<number, number>();

  constructor(private readonly resources: Resources) {}

  /** Stations of the site that do the step in its zone and are not ruled out; the most specialised first. */
  stations(siteId: string, { zone, step, barredStationIds = [] }: PlanStep): Candidates {
    const usual = `${zone}/${step}/${siteId}`;
    return cached(this.stationSets, barredStationIds.length === 0 ? usual : JSON.stringify([usual, ...[...barredStationIds].sort()]), () => {
      const { stations, row } = this.resources;
      const members = indices(stations.length)
        .filter((i) => {
          const { id, siteId: site, zone: there, steps } = stations[i]!;
          return site === siteId && there === zone && steps.some((kind) => kind === step) && !barredStationIds.includes(id);
        })
        .sort((a, b) => stations[a]!.steps.length - stations[b]!.steps.length || a - b);
      return this.toCandidates(members.map((i) => row.station + i));
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
      const { pools, row, horizon } = this.resources;
      const members = indices(pools.length)
        .filter((i) => pools[i]!.siteId === siteId && mayJoin(pools[i]!.like, need))
        .sort((a, b) => byVersatility(pools[a]!.like, pools[b]!.like) || pools[a]!.members[0]! - pools[b]!.members[0]!);
      return {
        ...this.toCandidates(members.map((i) => row.pool + i)),
        until: members.map((i) => (needsFit ? Math.min(horizon, fitUntil(pools[i]!.like)) : horizon)),
        size: members.reduce((sum, i) => sum + pools[i]!.members.length, 0),
      };
    });
  }

  /**
   * Drying places of the site; the smallest first, so that large places stay free for large things. The largest first for companies that
   * are not the usual one, so that each begins from its own end and they seldom meet: our own calibration.
   */
  places(siteId: string, largestFirst: boolean): PlaceCandidates {
    return cached(this.placeSets, `${largestFirst ? 'large' : 'small'}/${siteId}`, () => {
      const { places, placeRoom, roomSite, row } = this.resources;
      const members = indices(places.length)
        .filter((i) => roomSite[placeRoom[i]!] === siteId)
        .sort((a, b) => places[a]!.areaDm2 - places[b]!.areaDm2 || a - b);
      if (largestFirst) members.reverse();
      const rooms = [...new Set(members.map((place) => placeRoom[place]!))].sort((a, b) => a - b);
      return {
        ...this.toCandidates(members.map((i) => row.place + i)),
        airRows: members.map((i) => row.room + placeRoom[i]!), areas: members.map((i) => places[i]!.areaDm2),
        rooms, airAmount: this.amountOf(rooms.map((room) => row.room + room)),
      };
    });
  }

  /** Freezers of the site; the smallest first. */
  freezers(siteId: string): Candidates {
    return cached(this.freezerSets, siteId, () => {
      const { freezers, row } = this.resources;
      const members = indices(freezers.length)
        .filter((i) => freezers[i]!.siteId === siteId)
        .sort((a, b) => freezers[a]!.volumeCl - freezers[b]!.volumeCl || a - b);
      return this.toCandidates(members.map((i) => row.freezer + i));
    });
  }

  /** Free amount of a row over all slots; closed and overdrawn slots count nothing. */
  amountOf(rows: readonly number[]): number {
    return rows.reduce((sum, row) => sum + this.amountOfRow(row), 0);
  }

  private toCandidates(rows: number[]): Candidates {
    return { rows, amount: this.amountOf(rows) };
  }

  private amountOfRow(row: number): number {
    const known = this.amounts.get(row);
    if (known !== undefined) return known;
    let sum = 0;
    for (let slot = 0; slot < this.resources.horizon; slot += 1) sum += Math.max(0, this.resources.free.at(row, slot));
    this.amounts.set(row, sum);
    return sum;
  }
}

/** The site id ends each key, as it alone may hold a slash. */
function crewKey(siteId: string, { skill, barredRestrictions, needsFit = false }: CrewNeed): string {
  const barred = barredRestrictions.length < 2 ? (barredRestrictions[0] ?? '') : [...barredRestrictions].sort().join();
  return `${skill ?? ''}/${needsFit ? 'fit' : ''}/${barred}/${siteId}`;
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
