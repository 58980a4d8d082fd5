import { dehumidifierFactor, type CalibrationValues, type Dehumidifier } from '#climate';
import type { CourseMachine, MachineState } from './inputs.js';

/** Nobody states the kind of machine at the door; the curve of refrigerant machines is the cautious one in cool rooms. */
export function machineOf(label: Pick<CourseMachine, 'ratedLPerDay' | 'ratedTempC' | 'ratedRelativeHumidityPct'>): Dehumidifier {
  return { kind: 'refrigerant', ratedLitresPerDay: label.ratedLPerDay, ratedAtTempC: label.ratedTempC, ratedAtRelativeHumidityPct: label.ratedRelativeHumidityPct };
}

/** One label that makes no sense must not cost the room its other machines. */
export function isReckonable(machine: Dehumidifier, values: CalibrationValues): boolean {
  try {
    dehumidifierFactor(machine, { airTempC: 20, relativeHumidityPct: 60 }, true, values);
    return true;
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
}

/** As a machine was at a moment: by the last change on record; before the first change it ran. */
export function stateAt({ changes, state }: Pick<CourseMachine, 'changes' | 'state'>, atMs: number): MachineState {
  if (changes.length === 0) return state;
  return changes.findLast((change) => change.atMs <= atMs)?.state ?? 'running';
}

/** The machines that ran at a moment and can be reckoned with. */
export function runningAt(machines: readonly CourseMachine[], atMs: number, values: CalibrationValues): Dehumidifier[] {
  return machines.filter((machine) => stateAt(machine, atMs) === 'running').map(machineOf).filter((machine) => isReckonable(machine, values));
}
