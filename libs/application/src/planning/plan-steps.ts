/** From the open routes of an item to the steps of the planner. */
import type { PlanOption, PlanStep } from '#planning';
import type { InputItem, InputStep } from '../ports/plan-input.js';
import { type AirNow, DRYING_CALIBRATION, type DryingOutlooks } from './drying-outlook.js';
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
}

/** One route of an item as the planner takes it; `air` is that of the site's drying rooms. */
export function toPlanOption(item: InputItem, route: OpenRoute, air: AirNow, by: Reckoning): PlanOption {
  const steps = route.steps.map((step, position) => toPlanStep(item, route, { step, position }, air, by));
  return { disposition: route.disposition, steps };
}

function toPlanStep(item: InputItem, route: OpenRoute, { step, position }: { step: InputStep; position: number }, air: AirNow, by: Reckoning): PlanStep {
  const common = { step: step.step, zone: step.zone, stabilises: route.safe?.position === position ? route.safe.at : null };
  if (step.step === 'dry') {
    const { slots, areaDm2, loadGPerSlot } = dryingUse(item, route.blotted, air, by);
    return { ...common, durationSlots: slots, crew: 0, skill: null, barredRestrictions: [], drying: { areaDm2, loadGPerSlot }, freezer: null };
  }
  const { crew, barredRestrictions, needsFit, coolFromSlot, longer } = by.hands.of(item, step);
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
  };
}

/** Minutes of the whole lot; the hands that lay it out to dry afterwards are counted here, as a drying step has none. */
function handsOnMinutes(item: InputItem, step: InputStep, next: InputStep | undefined): number {
  const layingOut = next?.step === 'dry' ? (next.minutesPerPiece * next.crew) / Math.max(1, step.crew) : 0;
  return (step.minutesPerPiece + layingOut) * item.count;
}

/** What an item takes while it dries: slots, area, and water an average slot; hours of nominal air where this air dries nothing. */
export function dryingUse(item: InputItem, blotted: boolean, air: AirNow, { grid, outlooks }: Reckoning): { slots: number; areaDm2: number; loadGPerSlot: number } {
  const outlook = outlooks.of(item.sizeClass, blotted, air) ?? outlooks.of(item.sizeClass, blotted, DRYING_CALIBRATION.nominalAir);
  const hours = outlook?.planHours ?? DRYING_CALIBRATION.longestHours;
  const waterG = (outlook?.waterX ?? 0) * item.dryMassG;
  return {
    slots: Math.min(grid.horizonSlots, grid.taking(hours * 60)),
    areaDm2: Math.max(1, amount(item.areaDm2)),
    loadGPerSlot: amount((waterG / (hours * 60)) * grid.slotMinutes),
  };
}

/** Freezer volume of the whole lot. */
export function volumeCl(item: InputItem): number {
  return Math.max(1, amount(item.volumeL * 100));
}
