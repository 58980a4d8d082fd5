import type { Plan, PlanProblem } from '#planning';
import type { NotPlanned } from './plan-store.js';

/** What a revision was made from and what came of it, so that it can be explained as it was meant. */
export interface PlanGround {
  problem: PlanProblem;
  plan: Plan;
  /** Items that waited for people and were no part of the problem. */
  leftOut: readonly NotPlanned[];
}

export interface PlanGroundStore {
  /** Keeps the ground of a revision, and drops that of revisions whose detail is dropped. */
  save(incidentId: string, revisionId: string, ground: PlanGround): Promise<void>;
  /** As it is kept, to be read by `unpackGround` in a thread; null for a revision whose ground is not kept (any more). */
  findPacked(revisionId: string): Promise<Uint8Array | null>;
}
