import type { StandardItemKind } from '#climate';
import type { EstimateAcceptance } from '#contracts';
import type { AcceptanceEstimate, AirQuestion } from '../queries/climate-estimates-air.js';
import type { AcceptanceParts, KindAcceptance } from '../queries/room-climate.js';

/**
 * Reckons somewhere else how much a room can take: a large question takes half a minute, in which nobody else may wait.
 * Both reject with a Problem: what the sum itself refuses, or `unavailable` when there is no room for one more question of the network, or no time.
 */
export interface AcceptanceReckoner {
  /** `acceptanceOf`. */
  ofRoom(networkId: string, parts: AcceptanceParts, kinds: readonly StandardItemKind[], withinH: number): Promise<KindAcceptance[]>;
  /** `acceptanceEstimate`. */
  estimate(networkId: string, question: AirQuestion<EstimateAcceptance>): Promise<AcceptanceEstimate>;
}
