import type { Consents } from '#care';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';
import type { Standing } from './standing.js';

/**
 * The consents in force, except where a station has put a question to the owner that nobody has answered: there the old
 * yes does not count until the owner has spoken again. An old no stays a no.
 */
export async function consentsNow(stores: Stores, item: ItemRecord, standing: Standing): Promise<Consents> {
  const { consents } = await stores.consents.inForce(item.householdId, item.id);
  if (!standing.ownerAsked) return consents;
  const asked = standing.assessment.observed.consents;
  const open = (scope: keyof Consents): boolean | null => (consents[scope] === true ? asked[scope] : consents[scope]);
  return { treat: open('treat'), freeze: open('freeze'), refer: open('refer'), release: open('release') };
}
