/** Keepers: how to make one, compare two, and name one in a sentence. */
import type { Keeper, KeeperKind } from './types.js';

/** What a person calls each kind of keeper in a sentence, with its article; `disposed` reads as an end, not a holder. */
const KEEPER_PHRASE: Record<KeeperKind, string> = {
  household: 'the household',
  station: 'the crew at a station',
  'drying-place': 'a drying place',
  freezer: 'a freezer',
  container: 'a container',
  holding: 'a holding area',
  shelf: 'a shelf',
  vehicle: 'a vehicle',
  courier: 'a courier',
  specialist: 'a specialist',
  'partner-network': 'a partner network',
  disposed: 'disposal',
  'same-thing': 'the other record of the same thing',
};

/**
 * Makes keepers without spelling the kind as text. The id is the identifier of the thing or party itself;
 * for `disposed` it is the identifier of the owner's recorded agreement or, where nobody knew the owner, of the decision, because nobody holds the item any more;
 * for `same-thing` it is the identifier of the item whose record goes on.
 */
export const keeper = {
  household: (id: string): Keeper => ({ kind: 'household', id }),
  station: (id: string): Keeper => ({ kind: 'station', id }),
  dryingPlace: (id: string): Keeper => ({ kind: 'drying-place', id }),
  freezer: (id: string): Keeper => ({ kind: 'freezer', id }),
  container: (id: string): Keeper => ({ kind: 'container', id }),
  holding: (id: string): Keeper => ({ kind: 'holding', id }),
  shelf: (id: string): Keeper => ({ kind: 'shelf', id }),
  vehicle: (id: string): Keeper => ({ kind: 'vehicle', id }),
  courier: (id: string): Keeper => ({ kind: 'courier', id }),
  specialist: (id: string): Keeper => ({ kind: 'specialist', id }),
  partnerNetwork: (id: string): Keeper => ({ kind: 'partner-network', id }),
  disposed: (id: string): Keeper => ({ kind: 'disposed', id }),
  sameThing: (id: string): Keeper => ({ kind: 'same-thing', id }),
};

/** True when both are the same keeper: same kind and same id. `null` (not taken in yet) equals only `null`. */
export function sameKeeper(a: Keeper | null, b: Keeper | null): boolean {
  if (a === null || b === null) return a === b;
  return a.kind === b.kind && a.id === b.id;
}

/** A kind of keeper as words inside a sentence, for example `a drying place`. */
export function keeperPhrase(kind: KeeperKind): string {
  return KEEPER_PHRASE[kind];
}

/** One sentence that says who or what holds the item now; kinds only, so that no id or name leaks into a message. */
export function describeKeeper(holder: Keeper | null): string {
  if (holder === null) return 'Nobody holds it on record: it has not been taken in yet.';
  if (holder.kind === 'disposed') return "It was disposed of with the owner's recorded agreement, or let go by decision where nobody knew the owner.";
  if (holder.kind === 'same-thing') return 'Its record was joined to another one of the same thing, which says where the thing is.';
  const phrase = KEEPER_PHRASE[holder.kind];
  return `${phrase.charAt(0).toUpperCase()}${phrase.slice(1)} holds it now.`;
}
