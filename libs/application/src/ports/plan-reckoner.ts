import type { PlanGround } from './plan-ground-store.js';
import type { PlanLoad, PlanLoadParts } from '../queries/plan-charts.js';
import type { PlanDeadlines } from '../planning/progress/plan-progress.js';
import type { PlanExplanation, PlanExplanationGround } from '../queries/plan-explanation.js';

/**
 * Thinks plans through somewhere else: what a plan was made from takes a tenth of a second to read for two thousand things, and as long again to
 * lay out (measured, see `planning/README.md`), in which nobody else may wait. All reject with a Problem: what the question itself refuses, or `unavailable` when there is no room for one more question of
 * the network, or no time.
 */
export interface PlanReckoner {
  /** `explained`. */
  explain(networkId: string, read: PlanExplanationGround): Promise<PlanExplanation>;
  /** `planLoad`. */
  load(networkId: string, parts: PlanLoadParts): Promise<PlanLoad>;
  /** `groundOfStation` of a ground as it is kept. */
  station(networkId: string, read: { packed: Uint8Array; stationId: string }): Promise<PlanGround>;
  /** `deadlinesOf` a ground as it is kept. */
  deadlines(networkId: string, read: { packed: Uint8Array }): Promise<PlanDeadlines>;
}
