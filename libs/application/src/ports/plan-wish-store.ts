import type { Message } from '#care';
import type { Wish } from './plan-input.js';

/** Something that a person wants of the plan, with its end where it has one. */
export interface PlanWishRecord extends Wish {
  id: string;
  incidentId: string;
  /** The station whose lead wants it; null for a coordinator. */
  askedAtStationId: string | null;
  reason: string;
  wishedBy: string;
  wishedAtMs: number;
}

/** As it is read: with the names of what it is about. */
export interface PlanWishView extends PlanWishRecord {
  tagCode: string;
  wishedByName: string;
  stationCode: string | null;
  withdrawn: { atMs: number; by: string; byName: string; reason: string } | null;
  /** The planner found that it cannot hold any more. */
  lapsed: { atMs: number; why: Message } | null;
}

/** A wish that cannot hold any more, and why. */
export interface LapsedWish {
  wishId: string;
  why: Message;
}

export interface WishFilter {
  itemId?: string;
  state: 'stands' | 'ended' | 'all';
}

export interface PlanWishStore {
  /** False, and nothing is written, when the same wish stands already. */
  insert(wish: PlanWishRecord): Promise<boolean>;
  find(wishId: string): Promise<PlanWishView | null>;
  /** Newest first; `before` is the id of the last of the page before. */
  page(incidentId: string, filter: WishFilter, limit: number, before: string | null): Promise<PlanWishView[]>;
  /** False, and nothing changes, when it has ended already. */
  withdraw(wishId: string, withdrawal: { atMs: number; by: string; reason: string }): Promise<boolean>;
  /** Ends wishes that cannot hold any more; those that have ended meanwhile stay as they are. */
  lapse(wishes: readonly LapsedWish[], nowMs: number): Promise<void>;
}
