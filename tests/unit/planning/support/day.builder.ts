/** A large invented salvage day for speed and determinism: one hall, day shifts, more items than it can save. */
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { Skill, StepKind, Zone } from '#care';
import type { Interval, PlanItem, PlanOption, PlanProblem, PlanStep, PlanStepKind } from '#planning';

const DAY = 96;
const ROUTE: { step: StepKind; zone: Zone; skill: Skill | null; least: number; most: number }[] = [
  { step: 'assess', zone: 'dirty', skill: 'assessment', least: 1, most: 1 },
  { step: 'colour-test', zone: 'dirty', skill: 'colour-testing', least: 1, most: 2 },
  { step: 'rinse', zone: 'dirty', skill: 'rinsing', least: 1, most: 3 },
  { step: 'blot', zone: 'clean', skill: 'blotting', least: 1, most: 2 },
];

/** One step with nothing special about it; tests override what they look at. */
export function step(kind: PlanStepKind, overrides: Partial<PlanStep> = {}): PlanStep {
  return { step: kind, zone: 'clean', durationSlots: 1, crew: 1, skill: null, barredRestrictions: [], drying: null, freezer: null, stabilises: null, ...overrides };
}

/** Working hours of every day: 8-12 and 13-18 o'clock in quarter hours. */
export function dayShifts(days: number): Interval[] {
  return Array.from({ length: days }, (_, day) => [
    { from: day * DAY + 32, to: day * DAY + 48 },
    { from: day * DAY + 52, to: day * DAY + 72 },
  ]).flat();
}

/** `count` items of six steps each (assess, test, rinse, blot, dry, pack) that may be frozen instead. */
export function salvageDay(count: number, seed: number): PlanProblem {
  const rng = xoroshiro128plus(seed);
  const draw = (from: number, to: number): number => uniformInt(rng, from, to);
  const days = 5;
  const shifts = dayShifts(days);
  const skills: Skill[] = ['assessment', 'colour-testing', 'rinsing', 'blotting', 'freezer-wrapping'];
  const kinds: [StepKind, Zone, number][] = [['assess', 'dirty', 24], ['colour-test', 'dirty', 24], ['rinse', 'dirty', 30], ['blot', 'clean', 24], ['pack', 'clean', 16], ['freeze', 'cold', 4]];
  return {
    originMs: 0, slotMinutes: 15, horizonSlots: days * DAY, fixed: [],
    stations: kinds.flatMap(([kind, zone, total]) => [0, 1].map((half) => ({ id: `${kind}-${half}`, siteId: 'hall', zone, steps: [kind], capacity: total / 2, open: shifts }))),
    people: Array.from({ length: 60 }, (_, i) => ({
      id: `person-${i}`, siteId: 'hall', shifts,
      skills: [...new Set([skills[i % 5]!, skills[draw(0, 4)]!])],
      restrictions: i % 7 === 0 ? ['no-wet-work' as const] : [],
    })),
    rooms: [0, 1, 2, 3].map((i) => ({ id: `room-${i}`, siteId: 'hall', removalGPerSlot: [{ from: 0, to: 200, limit: 4000 }, { from: 200, to: days * DAY, limit: 2500 }] })),
    places: Array.from({ length: 60 }, (_, i) => ({ id: `rack-${i}`, roomId: `room-${i % 4}`, areaDm2: 200 + 40 * (i % 5), open: [{ from: 0, to: days * DAY }] })),
    freezers: [0, 1].map((i) => ({ id: `freezer-${i}`, siteId: 'hall', volumeCl: 60_000, open: [{ from: 0, to: days * DAY }] })),
    items: Array.from({ length: count }, (_, i) => item(i, draw)),
  };
}

function item(index: number, draw: (from: number, to: number) => number): PlanItem {
  const releaseSlot = draw(0, 150);
  const hands = ROUTE.map(({ step: kind, zone, skill, least, most }) => step(kind, { zone, skill, durationSlots: draw(least, most), barredRestrictions: kind === 'rinse' ? ['no-wet-work'] : [] }));
  const dry = step('dry', { durationSlots: draw(24, 120), crew: 0, drying: { areaDm2: draw(4, 40), loadGPerSlot: draw(5, 60) }, stabilises: 'start' });
  const treat: PlanOption = { disposition: 'treat', steps: [...hands, dry, step('pack')] };
  const freeze: PlanOption = { disposition: 'hold-frozen', steps: [step('assess', { zone: 'dirty', skill: 'assessment' }), step('freeze', { zone: 'cold', skill: 'freezer-wrapping', freezer: { volumeCl: draw(40, 900) }, stabilises: 'end' })] };
  return {
    id: `item-${String(index).padStart(5, '0')}`, siteId: 'hall', releaseSlot, deadlineSlot: releaseSlot + draw(40, 220),
    weight: [1, 2, 3, 5, 8, 13, 21][draw(0, 6)]!, stabilised: index % 10 === 0,
    options: index % 3 === 0 ? [treat, freeze] : [treat],
  };
}
