/** From the open routes of an item to the steps of the planner. */
import type { StepKind } from '#care';
import type { PlanOption, PlanStep } from '#planning';
import type { InputItem, InputStep } from '../ports/plan-input.js';
import { bathOf } from './baths.js';
import type { Benches } from './benches.js';
import { dryingLoad, loadWithin, type DryingLoad } from './drying-load.js';
import type { AirNow, DryingOutlooks, ThingToDry } from './drying-outlook.js';
import type { Companies } from './companies.js';
import type { HandsOfSteps } from './hands.js';
import type { OpenRoute } from './item-standing.js';
import { amount, type SlotGrid } from './slots.js';

/** The planner's largest crew. */
const MOST_CREW = 1_000;

/** What steps are reckoned with: time, how things dry, and what is asked of people. */
export interface Reckoning {
  grid: SlotGrid;
  outlooks: DryingOutlooks;
  hands: HandsOfSteps;
  /** Small prints that one bath takes. */
  bathTakes: number;
  /** What must not lie together. */
  companies: Companies;
  /** What specialists can take. */
  benches: Benches;
}

/** One route of an item as the planner takes it; `air` is that of the site's drying rooms. */
export function toPlanOption(item: InputItem, route: OpenRoute, air: AirNow, by: Reckoning): PlanOption {
  const steps = route.steps.map((step, position) => toPlanStep(item, route, { step, position }, air, by));
  return { disposition: route.disposition, steps };
}

function toPlanStep(item: InputItem, route: OpenRoute, { step, position }: { step: InputStep; position: number }, air: AirNow, by: Reckoning): PlanStep {
  const company = step.step === 'dry' || step.step === 'freeze' ? by.companies.of(item, route.steps.slice(0, position)) : undefined;
  const common = { step: step.step, zone: step.zone, stabilises: route.safe?.position === position ? route.safe.at : null, ...(company !== undefined && { company }) };
  if (step.step === 'dry') {
    const { slots, ...drying } = dryingUse(item, { blotted: route.blotted, damp: isDamp(item, route.steps) }, air, by);
    return { ...common, durationSlots: slots, crew: 0, skill: null, barredRestrictions: [], drying, freezer: null };
  }
  if (step.step === 'refer' && route.specialistId !== undefined) return { ...common, ...by.benches.stepAt(route.specialistId, item) };
  const { crew, barredRestrictions, needsFit, coolFromSlot, longer } = by.hands.of(item, step);
  const batch = step.step === 'rinse' ? bathOf(item, by.bathTakes) : null;
  return {
    ...common,
    durationSlots: by.grid.taking(handsOnMinutes(item, step, route.steps[position + 1]) * longer),
    crew: Math.min(MOST_CREW, amount(crew)),
    skill: step.skill,
    barredRestrictions: barredRestrictions.sort(),
    needsFit,
    coolFromSlot,
    drying: null,
    freezer: step.step === 'freeze' ? { volumeCl: volumeCl(item) } : null,
    ...(batch !== null && { batch }),
  };
}

/** Minutes of the whole lot; the hands that lay it out to dry afterwards are counted here, as a drying step has none. */
function handsOnMinutes(item: InputItem, step: InputStep, next: InputStep | undefined): number {
  const layingOut = next?.step === 'dry' ? (next.minutesPerPiece * next.crew) / Math.max(1, step.crew) : 0;
  return (step.minutesPerPiece + layingOut) * item.count;
}

const WETTING: ReadonlySet<StepKind> = new Set(['rinse', 'thaw']);

/** Found damp, or dry by touch, and neither wetted in this round of work nor on the way to it. */
export function isDamp({ wetState, doneSteps }: Pick<InputItem, 'wetState' | 'doneSteps'>, ahead: readonly Pick<InputStep, 'step'>[]): boolean {
  return (wetState === 'damp' || wetState === 'dry') && !doneSteps.some((step) => WETTING.has(step)) && !ahead.some(({ step }) => WETTING.has(step));
}

/** What an item takes while it dries: slots, area, and the water of each slot; hours of nominal air where this air dries nothing. */
export function dryingUse(item: InputItem, water: Pick<ThingToDry, 'blotted' | 'damp'>, air: AirNow, { grid, outlooks }: Reckoning): { slots: number; areaDm2: number } & DryingLoad {
  const thing = { sizeClass: item.sizeClass, ...(item.material === undefined ? {} : { material: item.material }), ...water };
  const outlook = outlooks.of(thing, air) ?? outlooks.of(thing, outlooks.nominalAir);
  const hours = outlook?.planHours ?? outlooks.longestH;
  const slots = Math.min(grid.horizonSlots, grid.taking(hours * 60));
  const load = outlook === null ? { loadGPerSlot: 0 } : dryingLoad({ ...outlook, dryMassG: item.dryMassG }, hours, grid);
  return { slots, areaDm2: Math.max(1, amount(item.areaDm2)), ...loadWithin(load, 0, slots) };
}

/** Freezer volume of the whole lot. */
export function volumeCl(item: InputItem): number {
  return Math.max(1, amount(item.volumeL * 100));
}
