/** What things that are done together must have in common, for the validator. */
import type { PlanAssignment, PlanBatch, PlanStep } from './types.js';

/** Whether an assignment takes a station unit and a crew of its own, or shares those of another; and what is wrong with its sharing. */
export interface Sharing { shares: boolean; rule?: 'batch-unsuited' | 'batch-groups' | 'batch-mixed'; what?: string }

interface Open { first: PlanAssignment; firstStep: PlanStep; group: string; units: number; mostUnits: number }

const ALONE: Sharing = { shares: false };
const SHARED: Sharing = { shares: true };

/** The batches of one plan, entered one assignment at a time. */
export class Batches {
  private readonly open = new Map<string, Open>();

  /** The first of a batch brings station and crew; one that does not belong to it brings its own and is reported. */
  enter(assignment: PlanAssignment, step: PlanStep): Sharing {
    const { batchId } = assignment;
    if (batchId === null) return ALONE;
    if (step.batch === undefined) return { shares: false, rule: 'batch-unsuited', what: `is in batch ${batchId} although it is done alone` };
    const batch = this.open.get(batchId);
    if (batch === undefined) {
      this.open.set(batchId, { first: assignment, firstStep: step, ...step.batch });
      return ALONE;
    }
    if (batch.group !== step.batch.group) return { shares: false, rule: 'batch-groups', what: `of group ${step.batch.group} is in batch ${batchId}, which is of group ${batch.group}` };
    const differs = difference(batch, assignment, step);
    if (differs !== null) return { shares: false, rule: 'batch-mixed', what: `is in batch ${batchId} with another ${differs}` };
    add(batch, step.batch);
    return SHARED;
  }

  /** Batches with more units than the least that one of their things allows. */
  overfull(): { batchId: string; first: PlanAssignment; units: number; mostUnits: number }[] {
    return [...this.open].filter(([, { units, mostUnits }]) => units > mostUnits).map(([batchId, { first, units, mostUnits }]) => ({ batchId, first, units, mostUnits }));
  }
}

function add(batch: Open, { units, mostUnits }: PlanBatch): void {
  batch.units += units;
  batch.mostUnits = Math.min(batch.mostUnits, mostUnits);
}

function difference({ first, firstStep }: Open, assignment: PlanAssignment, step: PlanStep): string | null {
  if (assignment.step !== first.step) return 'step';
  if (assignment.stationId !== first.stationId) return 'station';
  if (assignment.startSlot !== first.startSlot || assignment.endSlot !== first.endSlot) return 'time';
  if (step.crew !== firstStep.crew || !samePeople(assignment.personIds, first.personIds)) return 'crew';
  return null;
}

/** Equal as sets: in which order a crew is named says nothing. */
function samePeople(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((id) => b.includes(id));
}
