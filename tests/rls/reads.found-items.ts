/** Found things and claims on them, for the drill; see `reads.ts`. */
import type { OwnershipClaimRecord, Stores } from '#application';
import type { Foreign, Read } from './reads.js';

const AT_MS = Date.parse('2026-05-09T08:00:00Z');
const of = (foreign: Foreign, name: string) => foreign.incident.the(name);
const NO_CLAIM: OwnershipClaimRecord = { id: '', incidentId: '', foundItemId: '', householdId: '', state: 'withdrawn', reason: 'taken-back', answersSealed: null, takenBy: '', takenWith: '', takenAtMs: 0, endedAtMs: 1, version: 1 };

export const FOUND_ITEM_READS: Record<string, Read<Stores>> = {
  'ownership.page': (stores, foreign) => stores.ownership.page(foreign.incident.id, null, 50, null),
  'ownership.findByItem': (stores, foreign) => stores.ownership.findByItem(of(foreign, 'foundItem')),
  'ownership.lockFound': (stores, foreign) => stores.ownership.lockFound(of(foreign, 'foundRecord')),
  'ownership.marks': (stores, foreign) => stores.ownership.marks(of(foreign, 'foundRecord')),
  'ownership.findClaim': (stores, foreign) => stores.ownership.findClaim(of(foreign, 'ownershipClaim')),
  'ownership.claims': (stores, foreign) => stores.ownership.claims(of(foreign, 'foundRecord')),
  'ownership.decisions': (stores, foreign) => stores.ownership.decisions(of(foreign, 'ownershipClaim')),
  'ownership.looks': (stores, foreign) => stores.ownership.looks(of(foreign, 'foundRecord')),
};

export const FOUND_ITEM_WRITES: Record<string, Read<Stores>> = {
  'ownership.endClaim': (stores, foreign) => stores.ownership.endClaim({ ...NO_CLAIM, id: of(foreign, 'ownershipClaim') }),
  'ownership.endClaimsOf': (stores, foreign) => stores.ownership.endClaimsOf(of(foreign, 'claimant'), 'household-erased', AT_MS),
  'ownership.saveGranted': (stores, foreign) => stores.ownership.saveGranted(of(foreign, 'foundRecord'), of(foreign, 'ownershipClaim')),
};
