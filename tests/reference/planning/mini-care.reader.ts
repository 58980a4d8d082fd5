/**
 * Reads the mini-care instances (generated for this project; optima proved by an exact solver, see the README
 * in their folder) and maps them onto the planning model:
 *  - a station is a station, a crew pool of size n is n people with one skill, both with their calendars;
 *  - the one drying area is one place in one room, the moisture limit is the room's air;
 *  - the operation marked `stabilises` is the drying step, in time when it ENDS by the deadline;
 *  - freezing is a second route: laid into the freezer at its release, in passing, then thawed, then the same steps;
 *  - every item must be completed, late or not, so that late ones are planned too.
 */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Skill, StepKind } from '#care';
import type { Interval, PlanProblem, PlanStep } from '#planning';

interface Operation { op: string; st: number | null; dur: number; skill: string | null; area?: number; load?: number; stabilises?: boolean }
/** One row of the set's `instances.jsonl`. */
export interface MiniCareInstance {
  name: string;
  regime: string;
  horizon: number;
  stations: { id: string; cap: number; open: [number, number][] }[];
  crew: { skill: string; size: number; on: [number, number][] }[];
  dry: { area: number; loadProfile: [number, number][] };
  freezer: { vol: number; thaw: number; minLen: number };
  items: { id: number; r: number; d: number; w: number; freezable: boolean | number; vol: number; route: Operation[] }[];
}

/** One instance with the proved least late weight, and the least weighted tardiness among the plans that reach it. */
export interface MiniCareCase { name: string; regime: string; hasFreezer: boolean; problem: PlanProblem; totalWeight: number; leastLateWeight: number; leastTardiness: number }

const FOLDER = resolve(process.cwd(), 'tests/reference/planning/mini-care');
const STEP: Record<string, StepKind> = { inspect: 'assess', colourtest: 'colour-test', rinse: 'rinse', blot: 'blot', dry: 'dry', pack: 'pack' };
const SKILL: Record<string, Skill> = { colour: 'colour-testing', wet: 'rinsing' };

/** All cases in file order. */
export function readMiniCare(): MiniCareCase[] {
  const instances = read('instances.jsonl').map((line) => JSON.parse(line) as MiniCareInstance);
  const expected = new Map(read('expected.tsv').slice(1).map((line) => {
    const [name, , , sumW, sumWU, sumWT] = line.split('\t');
    return [name!, { sumW: Number(sumW), sumWU: Number(sumWU), sumWT: Number(sumWT) }];
  }));
  return instances.map((instance) => {
    const { sumW, sumWU, sumWT } = expected.get(instance.name)!;
    return { name: instance.name, regime: instance.regime, hasFreezer: instance.freezer.vol > 0, problem: toProblem(instance), totalWeight: sumW, leastLateWeight: sumWU, leastTardiness: sumWT };
  });
}

function read(file: string): string[] {
  return readFileSync(resolve(FOLDER, file), 'utf8').trim().split('\n');
}

/** The instance in the planning model; see above. */
export function toProblem(instance: MiniCareInstance): PlanProblem {
  const always = [{ from: 0, to: instance.horizon }];
  const { loadProfile } = instance.dry;
  const { vol: volume } = instance.freezer;
  return {
    originMs: 0, slotMinutes: 15, horizonSlots: instance.horizon, fixed: [], late: 'plan', tardinessCapSlots: instance.horizon,
    freezers: volume > 0 ? [{ id: 'freezer', siteId: 'hall', volumeCl: volume, open: always }] : [],
    stations: instance.stations.map(({ id, cap, open }, index) => ({
      id, siteId: 'hall', zone: 'clean', capacity: cap, open: intervals(open),
      steps: [...new Set(instance.items.flatMap(({ route }) => route.filter(({ st }) => st === index).map(({ op }) => STEP[op]!)))],
    })),
    people: instance.crew.flatMap(({ skill, size, on }) => Array.from({ length: size }, (_, i) => ({
      id: `${skill}-${i}`, siteId: 'hall', skills: [SKILL[skill]!], restrictions: [], shifts: intervals(on),
    }))),
    rooms: [{ id: 'room', siteId: 'hall', removalGPerSlot: loadProfile.map(([from, limit], i) => ({ from, to: loadProfile[i + 1]?.[0] ?? instance.horizon, limit })) }],
    places: [{ id: 'area', roomId: 'room', areaDm2: instance.dry.area, open: always }],
    items: instance.items.map((item) => ({
      id: `item-${item.id}`, siteId: 'hall', releaseSlot: item.r, deadlineSlot: item.d, weight: item.w, stabilised: false,
      options: [
        { disposition: 'treat' as const, steps: item.route.map(toStep) },
        ...(item.freezable && item.vol <= volume ? [{ disposition: 'treat' as const, steps: [...freezingAtRelease(item, instance.freezer), ...item.route.map(toStep)] }] : []),
      ],
    })),
  };
}

/** Laid into the freezer at the release, or never; the thaw takes nobody's time. */
function freezingAtRelease({ r, vol }: MiniCareInstance['items'][number], { thaw, minLen }: MiniCareInstance['freezer']): PlanStep[] {
  const inPassing = { zone: 'clean', crew: 0, skill: null, barredRestrictions: [], drying: null, stabilises: null, noStation: true } as const;
  return [
    { ...inPassing, step: 'freeze', durationSlots: 0, notAfterSlot: r, freezer: { volumeCl: vol, leastSlots: minLen }, barredRestrictions: [] },
    { ...inPassing, step: 'thaw', durationSlots: thaw, freezer: null, barredRestrictions: [] },
  ];
}

function toStep({ op, dur, skill, area, load, stabilises }: Operation): PlanStep {
  return {
    step: STEP[op]!, zone: 'clean', durationSlots: dur, barredRestrictions: [], freezer: null,
    crew: skill === null ? 0 : 1,
    skill: skill === null ? null : SKILL[skill]!,
    drying: op === 'dry' ? { areaDm2: area!, loadGPerSlot: load! } : null,
    stabilises: stabilises === true ? 'end' : null,
  };
}

function intervals(pairs: readonly [number, number][]): Interval[] {
  return pairs.map(([from, to]) => ({ from, to }));
}
