/** What steps ask of people in a plan, by the checks that judge their reports (care/suited.ts). */
import { barredFrom, clothingOf, isLifted, needsRespiratorFit, type HeatLimit, type LiftLimit, type PeopleCalibration, type Restriction } from '#care';
import type { CalibrationValues } from '#climate';
import { heatOf, liftOf } from '../care/hands-on.js';
import type { InputItem, InputStep, PlanInput } from '../ports/plan-input.js';
import type { SlotGrid } from './slots.js';

export interface StepHands {
  /** People together: what the rule book asks for, and more where a lift takes more. */
  crew: number;
  barredRestrictions: Restriction[];
  needsFit: boolean;
  /** First slot in which it is cool enough for people. */
  coolFromSlot: number;
  /** How much longer the work takes with the rests that the heat asks for; 1 for none. */
  longer: number;
}

/** What a network counts on in these checks. */
export interface PeopleNumbers {
  people: PeopleCalibration;
  climate: CalibrationValues;
}

/** Looks up what steps ask of people, each kind of step once: thousands of things share a few sizes and outfits. */
export class HandsOfSteps {
  private readonly fits = new Map<string, boolean>();
  private readonly lifts = new Map<string, LiftLimit | null>();
  private readonly heats = new Map<string, HeatLimit | null>();
  private readonly coolFromSlot: number;

  constructor(
    private readonly air: Pick<PlanInput, 'outdoorAirTempC' | 'outdoorRelativeHumidityPct'>,
    grid: SlotGrid,
    private readonly numbers: PeopleNumbers,
  ) {
    this.coolFromSlot = grid.ceil(grid.originMs + numbers.people.heatHoldsHours * 3_600_000);
  }

  of(item: InputItem, step: InputStep): StepHands {
    const lift = this.liftOf(item, step);
    const minutes = this.heatOf(step, lift)?.workMinutesPerHour ?? 60;
    return {
      // What no number of people may lift goes on a trolley or board; how many push that is the rule book's.
      crew: Math.max(step.crew, lift?.peopleNeeded ?? 0),
      barredRestrictions: barredFrom(step),
      needsFit: known(this.fits, step.ppe.join('\n'), () => needsRespiratorFit(step.ppe, this.numbers.people)),
      coolFromSlot: minutes <= 0 ? this.coolFromSlot : 0,
      longer: minutes > 0 && minutes < 60 ? 60 / minutes : 1,
    };
  }

  private liftOf(item: InputItem, { step }: InputStep): LiftLimit | null {
    if (!isLifted(step)) return null;
    const key = `${step === 'rinse'}/${item.wetState}/${item.dryMassG}/${item.count}/${item.sizeClass}`;
    return known(this.lifts, key, () => orUnknown(() => liftOf(step, item, item.wetState, this.numbers.climate)));
  }

  private heatOf({ step, ppe }: InputStep, lift: LiftLimit | null): HeatLimit | null {
    return known(this.heats, `${step}/${clothingOf(ppe)}/${lift === null || lift.peopleNeeded === 1}`, () => orUnknown(() => heatOf({ step, ppe }, lift, this.air, this.numbers.climate)));
  }
}

/** Null for numbers outside what the climate library answers for. */
function orUnknown<T>(reckon: () => T | null): T | null {
  try {
    return reckon();
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

function known<T>(map: Map<string, T>, key: string, make: () => T): T {
  const found = map.get(key);
  if (found !== undefined) return found;
  const made = make();
  map.set(key, made);
  return made;
}
