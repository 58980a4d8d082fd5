import type { Consents, Disposition, StepKind } from '#care';
import type { ItemRecord } from '../ports/item-store.js';

/** Steps after which every way is still open. */
const COMMITS_TO_NOTHING: ReadonlySet<StepKind> = new Set(['tag', 'photograph', 'assess', 'colour-test']);
const CONSENT_FOR = { treat: 'treat', 'hold-wet': 'treat', 'hold-frozen': 'freeze', refer: 'refer', release: 'release' } as const satisfies Record<Disposition, keyof Consents>;

/** The way on which work has begun: it stays on it when something changes around it. A no of the owner to that very way ends it. */
export function wayBegun(item: Pick<ItemRecord, 'stage' | 'disposition'>, done: ReadonlySet<StepKind>, consents: Consents): Disposition | null {
  const begun = item.stage === 'drying' || item.stage === 'in-work' || [...done].some((step) => !COMMITS_TO_NOTHING.has(step));
  return begun && item.disposition !== null && consents[CONSENT_FOR[item.disposition]] !== false ? item.disposition : null;
}
