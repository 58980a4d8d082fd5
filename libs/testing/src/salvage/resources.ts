/** Resources of a synthetic incident, as large as their load targets ask. */
import type { FixedUse, Interval, PlanFreezer, PlanItem, PlanPerson, PlanProblem, PlanStation } from '#planning';
import { GrowingCrew, openingOf } from './calendar.js';
import { lengthBefore, loadSlots, workOf } from './load.js';
import { BATHS, SKILL_OF, STATIONS, ZONE_OF, type HandsOn } from './routes.js';
import { LOADED, slotsOf, type Loaded, type Settings } from './settings.js';
import type { Streams } from './streams.js';
import { airOf } from './weather.js';

export const SITE = 'hall';
/** One of these is the bottleneck where no load is named. Ours; the study says only that there is one. */
const USUAL_BOTTLENECKS = ['crew/rinsing', 'station/rinse', 'crew/colour-testing', 'drying/area', 'drying/air'] as const satisfies readonly Loaded[];
const BOTTLENECK_LOAD = 0.9;
const OTHER_LOADS = [0.4, 0.8] as const;
/** One drying area is a few large places: the planner looks for room in each, and thousands of screens would be another problem. */
const MOST_PLACES = 4;
/** A capacity may be off by so much for being a whole number. */
const ROUNDING = 0.01;
/** The largest amount that the planning model takes. */
const MOST_AMOUNT = 100_000_000;

export type Resources = Pick<PlanProblem, 'stations' | 'people' | 'rooms' | 'places' | 'freezers' | 'fixed'>;

/** Load targets, overload included. */
export function targetsOf(streams: Streams, { loads, otherLoads, overload }: Settings): Record<Loaded, number> {
  const dice = streams('loads');
  const bottleneck = USUAL_BOTTLENECKS[dice.below(USUAL_BOTTLENECKS.length)]!;
  const isNamed = Object.keys(loads).length > 0;
  return Object.fromEntries(LOADED.map((name) => {
    const drawn = OTHER_LOADS[0] + (OTHER_LOADS[1] - OTHER_LOADS[0]) * dice.unit();
    const target = loads[name] ?? otherLoads ?? (name === bottleneck && !isNamed ? BOTTLENECK_LOAD : drawn);
    return [name, target * overload];
  })) as Record<Loaded, number>;
}

/** All resources; every single item fits into the largest place, the driest hour and, if it may freeze, the freezer. */
export function resourcesOf(streams: Streams, settings: Settings, items: readonly PlanItem[], targets: Record<Loaded, number>): Resources {
  const horizonSlots = settings.days * slotsOf(settings).day;
  const until = loadSlots({ slotMinutes: settings.slotMinutes, horizonSlots });
  const work = workOf(items);
  const wanted = Object.fromEntries(LOADED.map((name) => [name, settings.unitCapacity ? 0 : work[name] / targets[name]])) as Record<Loaded, number>;
  const always = [{ from: 0, to: horizonSlots }];
  const needs = largestNeeds(items);
  const [freezer, fixed] = freezerOf(streams, settings, items, horizonSlots);
  const area = Math.max(needs.areaDm2, Math.round(wanted['drying/area'] / until));
  return {
    stations: STATIONS.flatMap((kind) => stationOf(streams, settings, kind, wanted[`station/${kind}`], until)),
    people: [...new Set(STATIONS.map((kind) => SKILL_OF[kind]))].flatMap((skill) => crewOf(streams, settings, skill, wanted[`crew/${skill}`], until)),
    rooms: [{ id: 'room', siteId: SITE, removalGPerSlot: airOf(streams, settings, horizonSlots, until, wanted['drying/air'], needs.loadGPerSlot) }],
    places: parts(area, Math.max(1, Math.min(MOST_PLACES, Math.floor(area / needs.areaDm2)))).map((areaDm2, i) => ({ id: `area-${i + 1}`, roomId: 'room', areaDm2, open: always })),
    freezers: [freezer],
    fixed,
  };
}

function largestNeeds(items: readonly PlanItem[]): { areaDm2: number; loadGPerSlot: number } {
  const needs = { areaDm2: 1, loadGPerSlot: 1 };
  for (const { options } of items) {
    for (const { steps } of options) {
      for (const { drying } of steps) {
        if (!drying) continue;
        needs.areaDm2 = Math.max(needs.areaDm2, drying.areaDm2);
        needs.loadGPerSlot = Math.max(needs.loadGPerSlot, drying.loadGPerSlot);
      }
    }
  }
  return needs;
}

/** One station of each kind; where the load asks for a part of a unit more, a second one with one unit that is open for that part of each shift. */
function stationOf(streams: Streams, settings: Settings, kind: (typeof STATIONS)[number], wantedSlots: number, until: number): PlanStation[] {
  const open = openingOf(streams, settings, `station/${kind}`);
  const each = lengthBefore(open, until);
  const units = each === 0 ? 1 : Math.max(1, wantedSlots / each);
  const station: PlanStation = { id: kind, siteId: SITE, zone: ZONE_OF[kind], steps: kind === 'rinse' ? [...BATHS] : [kind], capacity: Math.round(units), open };
  if (Math.abs(station.capacity / units - 1) <= ROUNDING) return [station];
  const whole = Math.floor(units);
  const shifts = open.map(({ from, to }) => ({ from, to: from + Math.round((units - whole) * (to - from)) })).filter(({ from, to }) => to > from);
  return [{ ...station, capacity: whole }, { ...station, id: `${kind}-part`, capacity: 1, open: shifts }];
}

/** As many people as come nearest to the wanted person-slots. */
function crewOf(streams: Streams, settings: Settings, skill: (typeof SKILL_OF)[HandsOn], wantedSlots: number, until: number): PlanPerson[] {
  const size = crewSize(streams, settings, `crew/${skill}`, wantedSlots, until);
  const crew = new GrowingCrew(streams, settings, `crew/${skill}`);
  while (crew.size < size) crew.grow();
  return crew.shifts().map((shifts, i) => ({ id: `${skill}-${String(i + 1).padStart(4, '0')}`, siteId: SITE, skills: [skill], restrictions: [], shifts }));
}

function crewSize(streams: Streams, settings: Settings, resource: Loaded, wantedSlots: number, until: number): number {
  if (settings.neverOpen.includes(resource)) return 1;
  const crew = new GrowingCrew(streams, settings, resource);
  crew.grow();
  for (let before = crew.slotsBefore(until); before < wantedSlots;) {
    crew.grow();
    const now = crew.slotsBefore(until);
    if (now >= wantedSlots) return now - wantedSlots <= wantedSlots - before ? crew.size : crew.size - 1;
    before = now;
  }
  return crew.size;
}

/** The freezer, and what lies in it already with its thaw dates. */
function freezerOf(streams: Streams, settings: Settings, items: readonly PlanItem[], horizonSlots: number): [PlanFreezer, FixedUse[]] {
  const volumes = items.flatMap(({ options }) => options.flatMap(({ steps }) => steps.flatMap(({ freezer }) => (freezer ? [freezer.volumeCl] : []))));
  const sum = volumes.reduce((a, b) => a + b, 0);
  const largest = volumes.reduce((a, b) => Math.max(a, b), 1);
  const wanted = settings.unitCapacity ? largest : Math.max(largest / (1 - Math.min(0.99, settings.prefilled)), settings.freezerShare * sum);
  const volumeCl = Math.min(MOST_AMOUNT, Math.ceil(wanted));
  const freezer = { id: 'freezer', siteId: SITE, volumeCl, open: [{ from: 0, to: horizonSlots }] };
  return [freezer, prefilledOf(streams, settings, volumeCl, horizonSlots)];
}

/** Boxes of up to 60 litres (ours) until the wanted part is full. */
function prefilledOf(streams: Streams, { prefilled }: Settings, volumeCl: number, horizonSlots: number): FixedUse[] {
  const dice = streams('prefilled');
  const BOX_CL = 6_000;
  const fixed: FixedUse[] = [];
  for (let left = Math.floor(prefilled * volumeCl); left > 0;) {
    const volume = Math.min(left, BOX_CL);
    const interval: Interval = { from: 0, to: 1 + dice.below(horizonSlots) };
    fixed.push({ itemId: `stored-${fixed.length + 1}`, step: 'freeze', stationId: null, personIds: [], dryingPlaceId: null, areaDm2: 0, loadGPerSlot: 0, freezerId: 'freezer', volumeCl: volume, interval });
    left -= volume;
  }
  return fixed;
}

/** A whole number in nearly equal whole parts, the largest first. */
function parts(whole: number, count: number): number[] {
  return Array.from({ length: count }, (_, i) => Math.floor(whole / count) + (i < whole % count ? 1 : 0));
}
