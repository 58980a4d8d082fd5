/** Care routes of synthetic items as steps of the planning model. */
import type { Disposition, Skill } from '#care';
import type { PlanOption, PlanStep } from '#planning';
import { slotsOf, type Settings } from './settings.js';

/**
 * The first, second and third bath of a thing. A route of care holds each kind of step once, so the later baths go by other names
 * of wet work; all are done at one kind of station by one crew.
 */
export const BATHS = ['rinse', 'stabilise', 'surface-clean'] as const;

/** Who does a hands-on step; everybody of these crews has one skill. */
export const SKILL_OF = {
  assess: 'assessment', photograph: 'assessment', 'colour-test': 'colour-testing', rinse: 'rinsing', stabilise: 'rinsing', 'surface-clean': 'rinsing', blot: 'rinsing', check: 'drying', pack: 'drying', freeze: 'freezer-wrapping',
} as const satisfies Record<string, Skill>;
export type HandsOn = keyof typeof SKILL_OF;
export const ZONE_OF = { assess: 'dirty', photograph: 'dirty', 'colour-test': 'dirty', rinse: 'dirty', stabilise: 'dirty', 'surface-clean': 'dirty', blot: 'clean', check: 'clean', pack: 'clean', freeze: 'cold' } as const;
/** Stations by the step that names them; the station of baths does all baths. */
export const STATIONS = ['assess', 'photograph', 'colour-test', 'rinse', 'blot', 'check', 'pack', 'freeze'] as const satisfies readonly HandsOn[];

/** Slots a thing lies frozen at least and thaws, in quarter hours; those of our miniature instances. */
const LEAST_FROZEN_QUARTERS = 4;
const THAW_QUARTERS = 4;
const MOST_IN_BATH = 6;

/** What was drawn for an item; durations in slots. */
export interface Draft {
  name: string;
  treat: { kind: HandsOn | 'dry'; slots: number }[];
  areaDm2: number;
  loadGPerSlot: number;
  volumeCl: number;
  freezable: boolean;
  /** Part of the drying time that the second route takes; none when null. */
  secondRoute: number | null;
}

/** Makes steps; equal ones are one object, which keeps large incidents small in memory. Nothing may change a step in place. */
export class StepMaker {
  private readonly made = new Map<string, PlanStep>();

  constructor(private readonly settings: Settings) {}

  /** Routes in order of preference. */
  optionsOf(draft: Draft): PlanOption[] {
    const treat = draft.treat.map(({ kind, slots }) => (kind === 'dry' ? this.dry(draft, slots) : this.handsOn(kind, slots, draft)));
    const options: PlanOption[] = [{ disposition: 'treat', steps: treat }];
    if (draft.freezable && this.settings.freezing !== 'none') options.push(this.frozen(draft, treat));
    if (draft.secondRoute !== null) options.push(this.second(draft, draft.secondRoute));
    return options;
  }

  private handsOn(kind: HandsOn, slots: number, draft: Draft): PlanStep {
    const batch = this.settings.batches && isBath(kind) ? batchOf(draft, slots) : undefined;
    return this.once(`${kind}/${slots}/${batch?.group ?? ''}/${batch?.units ?? ''}`, () => ({
      step: kind, zone: ZONE_OF[kind], durationSlots: slots, ...(batch && { batch }), crew: 1, skill: SKILL_OF[kind], barredRestrictions: [], drying: null, freezer: null, stabilises: null,
    }));
  }

  /** Stabilised when drying begins. */
  private dry({ areaDm2, loadGPerSlot }: Draft, slots: number): PlanStep {
    return this.once(`dry/${slots}/${areaDm2}/${loadGPerSlot}`, () => {
      const falling = this.settings.falling && slots > 1 ? [{ fromSlot: Math.floor(slots / 2), loadGPerSlot: Math.floor(loadGPerSlot / 2) }] : undefined;
      return { step: 'dry', zone: 'clean', durationSlots: slots, crew: 0, skill: null, barredRestrictions: [], drying: { areaDm2, loadGPerSlot, ...(falling && { falling }) }, freezer: null, stabilises: 'start' };
    });
  }

  /** Wrapped and frozen as it comes; then either thawed later and treated with its clock where it stood, or kept frozen for good. */
  private frozen({ volumeCl }: Draft, treat: PlanStep[]): PlanOption {
    const { quarter } = slotsOf(this.settings);
    const hold = this.settings.freezing === 'hold';
    const freeze = this.once(`freeze/${volumeCl}`, () => ({
      step: 'freeze', zone: ZONE_OF.freeze, durationSlots: quarter, crew: 1, skill: SKILL_OF.freeze, barredRestrictions: [], drying: null,
      freezer: { volumeCl, leastSlots: hold ? 1 : LEAST_FROZEN_QUARTERS * quarter }, stabilises: hold ? 'end' : null,
    }));
    if (hold) return { disposition: 'hold-frozen', steps: [freeze] };
    const thaw = this.once('thaw', () => ({
      step: 'thaw', zone: 'cold', durationSlots: THAW_QUARTERS * quarter, noStation: true, crew: 0, skill: null, barredRestrictions: [], drying: null, freezer: null, stabilises: null,
    }));
    return { disposition: 'hold-frozen', steps: [freeze, thaw, ...treat] };
  }

  /** Dried without test and rinse, and sooner done. Named `refer` because a plan tells the routes of an item apart by their disposition. */
  private second(draft: Draft, part: number): PlanOption {
    const disposition: Disposition = 'refer';
    const kept = draft.treat.filter(({ kind }) => kind !== 'colour-test' && !isBath(kind));
    return { disposition, steps: kept.map(({ kind, slots }) => (kind === 'dry' ? this.dry(draft, Math.max(1, Math.round(slots * part))) : this.handsOn(kind, slots, draft))) };
  }

  private once(name: string, make: () => PlanStep): PlanStep {
    const known = this.made.get(name);
    if (known) return known;
    const step = make();
    this.made.set(name, step);
    return step;
  }
}

export function isBath(kind: string): boolean {
  return BATHS.some((bath) => bath === kind);
}

/** Small paper and photographs share a bath with their like and for the same time: six small pieces at most (ours). */
function batchOf({ name, volumeCl }: Draft, slots: number): PlanStep['batch'] {
  const SMALL_CL = 300;
  if ((name !== 'paper' && name !== 'photographs') || volumeCl > SMALL_CL) return undefined;
  return { group: `${name}-${slots}`, units: Math.max(1, Math.ceil(volumeCl / 100)), mostUnits: MOST_IN_BATH };
}
