import type { Consents, Disposition, StepKind } from '#care';
import { notFound, Problem } from '#contracts';
import { TERMINAL_STAGES } from '#custody';
import type { UseCaseCall } from '../call.js';
import { consentsNow } from '../care/owner-word.js';
import { retriage } from '../care/retriage.js';
import { chosenBy, standingOf, workSoFar, type Standing } from '../care/standing.js';
import type { ConsentRecord } from '../ports/consent-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';
import { toRecord, type ConsentInput } from './take-in-household.js';

export interface RecordConsentInput extends ConsentInput {
  householdId: string;
  itemId: string | null;
}

const OPEN_BATCH = 500;

/** Records what the owner decided, for one item or for all of the household, and triages the items it touches anew. */
export async function recordConsent(stores: Stores, call: UseCaseCall, input: RecordConsentInput): Promise<ConsentRecord> {
  const household = await stores.households.find(input.householdId);
  if (!household) throw notFound('household');
  if (input.itemId !== null) {
    const item = await stores.items.find(input.itemId);
    if (!item || item.householdId !== household.id) throw new Problem('reference_unknown', 'The item is not one of this household.', { errors: [{ detail: 'is not an item of this household', code: 'reference_unknown', pointer: '#/itemId' }] });
  }
  const consent = toRecord(call, household, input.itemId, input);
  await stores.consents.insert([consent]);
  if (input.scope !== 'photograph') await retriageTouched(stores, call, household.incidentId, household.id, input.itemId);
  return consent;
}

async function retriageTouched(stores: Stores, call: UseCaseCall, incidentId: string, householdId: string, itemId: string | null): Promise<void> {
  const ids = itemId !== null ? [itemId] : (await stores.items.page(incidentId, { householdId }, OPEN_BATCH, null)).map((item) => item.id);
  for (const item of await stores.items.lockMany(ids)) {
    if (TERMINAL_STAGES.includes(item.stage)) continue;
    const standing = await standingOf(stores, item);
    const consents = await consentsNow(stores, item, standing);
    const chosen = chosenBy(standing) ?? wayBegun(item, standing, consents);
    await retriage(stores, call, item, { ...standing.assessment.observed, consents }, { origin: 'consent', assessedAtMs: call.env.nowMs, ...workSoFar(standing), chosen });
  }
}

/** Steps after which every way is still open. */
const COMMITS_TO_NOTHING: ReadonlySet<StepKind> = new Set(['tag', 'photograph', 'assess', 'colour-test']);
const CONSENT_FOR = { treat: 'treat', 'hold-wet': 'treat', 'hold-frozen': 'freeze', refer: 'refer', release: 'release' } as const satisfies Record<Disposition, keyof Consents>;

/** Work that has begun stays on its way when an owner allows more; a no to that very way ends it. */
function wayBegun(item: ItemRecord, { done }: Standing, consents: Consents): Disposition | null {
  const begun = item.stage === 'drying' || item.stage === 'in-work' || [...done].some((step) => !COMMITS_TO_NOTHING.has(step));
  return begun && item.disposition !== null && consents[CONSENT_FOR[item.disposition]] !== false ? item.disposition : null;
}
