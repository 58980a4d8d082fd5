/** What a coordinator would usually ask for, where the plan is short of it. */
import type { Skill } from '#care';
import { bindingResources, type BindingResources } from './binding-resources.js';
import type { Interval, Plan, PlanPerson, PlanProblem } from './types.js';
import type { ProblemChange, WhatIf } from './what-if.js';

/** What the problem itself does not know about what could come. */
export interface SuggestionMeans {
  /** Slots in which volunteers would come, such as tomorrow morning. */
  volunteers: Interval;
  /** Grams that one more dehumidifier would take from the air of each room in a slot, by the physics; none is offered for rooms left out. */
  dehumidifierGPerSlot: ReadonlyMap<string, number>;
}

/** Amounts that are offered: what a call for help usually names. Our own choice. */
export const SUGGESTED = Object.freeze({
  people: 1,
  stationUnits: 1,
  /** 10 m2 of screens. */
  dryingAreaDm2: 1_000,
  /** A freezer of 500 L. */
  freezerVolumeCl: 50_000,
  serviceUnits: 1,
  volunteers: 2,
  /** What volunteers are shown on the spot. */
  volunteerSkills: ['blotting', 'drying', 'rinsing'] as const satisfies readonly Skill[],
  /** At most so many suggestions: each costs several plans. */
  most: 8,
});

/** A resource counts as tight where one period uses this much of it or more, per thousand. Our own calibration. */
const TIGHT_PERMILLE = 800;

interface Short { siteId: string; kind: string; what: string }

/**
 * One what-if for each resource that keeps weight out of the plan, the greatest weight first, then for what is used to its limit, and two
 * volunteers for the site that is shortest; at most `SUGGESTED.most`. Empty when the plan keeps nothing waiting and nothing is tight.
 * Which of them saves anything is not known before it is tried (`marginalValues`).
 */
export function suggestChanges(problem: PlanProblem, plan: Plan, means: SuggestionMeans): WhatIf[] {
  const binding = bindingResources(problem, plan);
  const short = shortOf(binding);
  const found = new Map<string, ProblemChange>();
  for (const one of short) {
    const change = suggestionFor(problem, one, means);
    if (change !== null && !found.has(JSON.stringify(change))) found.set(JSON.stringify(change), change);
  }
  const volunteers = volunteersFor(problem, short, means);
  const most = volunteers === null ? SUGGESTED.most : SUGGESTED.most - 1;
  return [...[...found.values()].slice(0, most), ...(volunteers === null ? [] : [volunteers])].map((change) => [change]);
}

function shortOf({ unplanned, use }: BindingResources): Short[] {
  const lost = unplanned.filter(({ lostWeight }) => lostWeight > 0).map(({ siteId, blockedBy }) => ({ siteId, ...blockedBy }));
  const tight = use
    .map(({ siteId, kind, what, periods }) => ({ siteId, kind, what, permille: Math.max(0, ...periods.map(({ permille }) => permille)) }))
    .filter(({ permille }) => permille >= TIGHT_PERMILLE)
    .sort((a, b) => b.permille - a.permille)
    .map(({ siteId, kind, what }) => ({ siteId, kind, what }));
  return [...lost, ...tight];
}

function suggestionFor(problem: PlanProblem, { siteId, kind, what }: Short, { dehumidifierGPerSlot }: SuggestionMeans): ProblemChange | null {
  switch (kind) {
    case 'crew':
    case 'restriction':
    case 'respirator-fit':
      return personFor(problem, siteId, what, kind === 'respirator-fit');
    case 'station': {
      const station = problem.stations.find((entry) => entry.siteId === siteId && entry.steps.some((step) => step === what));
      return station === undefined ? null : { kind: 'station-units', stationId: station.id, units: SUGGESTED.stationUnits };
    }
    case 'drying-area': {
      const room = roomFor(problem, siteId, what);
      return room === undefined ? null : { kind: 'drying-area', roomId: room, areaDm2: SUGGESTED.dryingAreaDm2 };
    }
    case 'room-air': {
      const room = roomFor(problem, siteId, what);
      const gPerSlot = room === undefined ? 0 : (dehumidifierGPerSlot.get(room) ?? 0);
      return room === undefined || gPerSlot === 0 ? null : { kind: 'room-air', roomId: room, gPerSlot, during: { from: 0, to: problem.horizonSlots } };
    }
    case 'company': {
      // A place of its own, in the room or beside the freezer in which the others lie.
      const room = problem.rooms.find(({ id }) => id === what)?.id;
      return room !== undefined ? { kind: 'drying-area', roomId: room, areaDm2: SUGGESTED.dryingAreaDm2 } : { kind: 'freezer', siteId, volumeCl: SUGGESTED.freezerVolumeCl, fromSlot: 0 };
    }
    case 'freezer':
      return { kind: 'freezer', siteId, volumeCl: SUGGESTED.freezerVolumeCl, fromSlot: 0 };
    case 'service':
      return (problem.services ?? []).some(({ id }) => id === what) ? { kind: 'service-units', serviceId: what, units: SUGGESTED.serviceUnits } : null;
    default:
      return null;
  }
}

function roomFor(problem: PlanProblem, siteId: string, what: string): string | undefined {
  return problem.rooms.find((room) => (what === '' ? room.siteId === siteId : room.id === what))?.id;
}

/** One more like those who do it already, in the hours of the one of them who is there most; hours that nobody works are not invented. */
function personFor(problem: PlanProblem, siteId: string, what: string, isFitted: boolean): ProblemChange | null {
  const there = problem.people.filter((person) => person.siteId === siteId);
  const able = there.filter(({ skills }) => what === '' || skills.some((skill) => skill === what));
  const shifts = longestShifts(able) ?? longestShifts(there);
  if (shifts === null) return null;
  const fit = isFitted ? { fitUntilSlot: problem.horizonSlots } : {};
  return { kind: 'people', siteId, count: SUGGESTED.people, skills: what === '' ? [] : [what as Skill], restrictions: [], shifts, ...fit };
}

function longestShifts(people: readonly PlanPerson[]): Interval[] | null {
  const lengthOf = ({ shifts }: PlanPerson): number => shifts.reduce((sum, { from, to }) => sum + to - from, 0);
  const [longest] = people.filter((person) => lengthOf(person) > 0).sort((a, b) => lengthOf(b) - lengthOf(a) || (a.id < b.id ? -1 : 1));
  return longest?.shifts.map((shift) => ({ ...shift })) ?? null;
}

function volunteersFor({ horizonSlots }: PlanProblem, short: readonly Short[], { volunteers }: SuggestionMeans): ProblemChange | null {
  // A service is on no site.
  const shortest = short.find(({ siteId }) => siteId !== '');
  const shift = { from: Math.max(0, volunteers.from), to: Math.min(horizonSlots, volunteers.to) };
  if (shortest === undefined || shift.to <= shift.from) return null;
  return { kind: 'people', siteId: shortest.siteId, count: SUGGESTED.volunteers, skills: [...SUGGESTED.volunteerSkills], restrictions: [], shifts: [shift] };
}
