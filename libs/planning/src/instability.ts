/**
 * Calm: what a new plan changes of the plan that people are working to. Work that was to begin soon counts most; the weight
 * of a change halves with every five and a half hours until it. The numbers are our own calibration.
 */
import type { Disposition } from '#care';
import type { CompiledStep } from './compile.js';
import type { Placement } from './place-item.js';
import type { Resources } from './resources.js';
import { NONE } from './free-slots.js';
import type { PlanStepKind, PreviousStep } from './types.js';

/** The weight of a change to work that begins now. */
const MOST = 1024;
const HALVES_EACH_MINUTES = 330;
/** A station, place or freezer that is no part of the problem any more. */
const GONE = -2;

/** One step of the plan in force, not yet begun, in index form. */
export interface PreviousUse {
  disposition: Disposition;
  kind: PlanStepKind;
  start: number;
  end: number;
  /** Rows; `NONE` where there is none, less where it is no part of the problem any more. */
  station: number;
  place: number;
  freezer: number;
  /** The same of the courier or specialist; null where it is not known and any will do. */
  service: number | null;
  /** The people who are still there, by index, and their pools. */
  people: readonly number[];
  crew: readonly number[];
  /** Whether something or somebody it named is no part of the problem any more. */
  isBroken: boolean;
  cost: number;
}

interface PreviousCrew { people: readonly number[]; crew: readonly number[]; isBroken: boolean }

const NO_CREW: PreviousCrew = { people: [], crew: [], isBroken: false };

/** Crews of the plan in force. Most work is one person's, and equal crews of one are one: a plan has tens of thousands of steps. */
export class PreviousCrews {
  private readonly alone = new Map<string, PreviousCrew>();

  constructor(private readonly resources: Resources) {}

  of(personIds: readonly string[]): PreviousCrew {
    const [id] = personIds;
    if (id === undefined) return NO_CREW;
    if (personIds.length > 1) return this.read(personIds);
    let known = this.alone.get(id);
    if (known === undefined) this.alone.set(id, (known = this.read(personIds)));
    return known;
  }

  private read(personIds: readonly string[]): PreviousCrew {
    const { indexOf, row, poolOf } = this.resources;
    const people = personIds.flatMap((id) => indexOf.person.get(id) ?? []);
    return { people, crew: people.map((person) => row.pool + poolOf[person]!), isBroken: people.length < personIds.length };
  }
}

/** The steps of one item that had not begun, in the order of their starts. */
export function previousUses(steps: readonly PreviousStep[], slotMinutes: number, { indexOf, row }: Resources, crews: PreviousCrews): PreviousUse[] {
  const rowOf = (ids: ReadonlyMap<string, number>, base: number, id: string | null): number => {
    const index = id === null ? undefined : ids.get(id);
    return index === undefined ? (id === null ? NONE : GONE) : base + index;
  };
  return steps
    .filter(({ startSlot }) => startSlot >= 0)
    .map((step) => {
      const { people, crew, isBroken: lacksSomebody } = crews.of(step.personIds);
      const [station, place, freezer] = [rowOf(indexOf.station, row.station, step.stationId), rowOf(indexOf.place, row.place, step.dryingPlaceId), rowOf(indexOf.freezer, row.freezer, step.freezerId)];
      const service = step.serviceId === undefined ? null : rowOf(indexOf.service, row.service, step.serviceId);
      const isBroken = lacksSomebody || service === GONE || station === GONE || place === GONE || freezer === GONE;
      return { disposition: step.disposition, kind: step.step, start: step.startSlot, end: step.endSlot, station, place, freezer, service, people, crew, isBroken, cost: costAt(step.startSlot, slotMinutes) };
    })
    .sort((a, b) => a.start - b.start || a.end - b.end);
}

/** What a change to work that was to begin at the slot counts. */
function costAt(startSlot: number, slotMinutes: number): number {
  const halvings = Math.floor(startSlot / Math.max(1, Math.round(HALVES_EACH_MINUTES / slotMinutes)));
  return halvings >= 31 ? 0 : MOST >> halvings;
}

/** Whether a step takes the courier or specialist that it took before. */
export function keepsService({ services }: Pick<CompiledStep, 'services'>, { service }: Pick<PreviousUse, 'service'>): boolean {
  return service === null || (services?.[0]?.row ?? NONE) === service;
}

/** What a placement changes of what the item was to do. */
export function movedCost(previous: readonly PreviousUse[], disposition: Disposition, { steps }: Placement, toleranceSlots: number): number {
  let cost = 0;
  for (const use of previous) {
    const kept = disposition === use.disposition && steps.some(({ step, start, station, place }) =>
      step.kind === use.kind && station === use.station && place === use.place && keepsService(step, use) && Math.abs(start - use.start) <= toleranceSlots);
    if (!kept) cost += use.cost;
  }
  return cost;
}
