import type { Consents } from '#care';
import type { Money } from './owner-question-store.js';

export type ConsentScope = 'treat' | 'freeze' | 'refer' | 'release' | 'photograph';

export interface ConsentRecord {
  id: string;
  incidentId: string;
  householdId: string;
  /** null: for all things of the household. */
  itemId: string | null;
  scope: ConsentScope;
  given: boolean;
  manner: 'spoken' | 'written' | 'link';
  note: string;
  recordedBy: string;
  recordedAtMs: number;
  /** Up to how much a referral may cost; only with a yes to `refer`, and null where no limit was named. */
  limit?: Money | null;
}

export interface ConsentStore {
  insert(consents: readonly ConsentRecord[]): Promise<void>;
  ofHousehold(householdId: string): Promise<ConsentRecord[]>;
  /**
   * The consents in force for one item: the newest word per scope, an item's own word before the household's. Letting go is
   * agreed item by item: a general yes to `release` counts for no item, a general no ends an earlier yes for one.
   */
  inForce(householdId: string, itemId: string): Promise<{ consents: Consents; ids: Partial<Record<ConsentScope, string>>; referLimit: Money | null }>;
}
