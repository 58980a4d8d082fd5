import type { PlanLoad, PlanLoadParts } from '../queries/plan-charts.js';
import type { PlanExplanation, PlanExplanationGround } from '../queries/plan-explanation.js';

/**
 * Thinks plans through somewhere else: what one of ten thousand things was made from takes a second to read and to lay out, in which nobody
 * else may wait. Both reject with a Problem: what the question itself refuses, or `unavailable` when there is no room for one more question of
 * the network, or no time.
 */
export interface PlanReckoner {
  /** `explained`. */
  explain(networkId: string, read: PlanExplanationGround): Promise<PlanExplanation>;
  /** `planLoad`. */
  load(networkId: string, parts: PlanLoadParts): Promise<PlanLoad>;
}
