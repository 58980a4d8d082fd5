import type { EstimateMoment, ThingToOrder } from '#application';
import type { Assessment, StepKind } from '#care';
import type { EstimatedAssessment, EstimateOrder } from '#contracts';
import { msOf } from '../../presenters/time.js';

/** The assessment of a body; members that were left out stay left out. */
export function toAssessment({ wettedAt, ...described }: EstimatedAssessment): Assessment {
  const said = Object.fromEntries(Object.entries(described).filter(([, value]) => value !== undefined)) as Omit<EstimatedAssessment, 'wettedAt'>;
  return { ...said, wettedAtMs: msOf(wettedAt) } as Assessment;
}

export function toMoment({ now, floodAt, airTempC }: Pick<EstimateOrder, 'now' | 'floodAt' | 'airTempC'>, doneSteps: StepKind[]): EstimateMoment {
  return { nowMs: msOf(now), floodAtMs: Date.parse(floodAt), airTempC, doneSteps };
}

export function toThing({ id, assessment, arrivedAt, doneSteps }: EstimateOrder['items'][number], index: number): ThingToOrder {
  return { id: id ?? String(index + 1), assessment: toAssessment(assessment), arrivedAtMs: msOf(arrivedAt), doneSteps };
}
