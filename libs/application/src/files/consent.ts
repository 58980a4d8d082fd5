import type { ConsentRecord } from '../ports/consent-store.js';
import type { Stores } from '../ports/work.js';

/** The owner's newest word on photographs: an item's own before the household's. Null where nobody asked. */
async function wordOnPhotographs(stores: Stores, householdId: string, itemId: string | null): Promise<boolean | null> {
  const words = (await stores.consents.ofHousehold(householdId)).filter(({ scope }) => scope === 'photograph');
  const newest = (of: (word: ConsentRecord) => boolean) => words.filter(of).at(-1);
  return (newest((word) => itemId !== null && word.itemId === itemId) ?? newest((word) => word.itemId === null))?.given ?? null;
}

/** True when the owner said no: then none is taken. Nobody has to be asked before the salvage documents its own work. */
export async function photographsRefused(stores: Stores, householdId: string, itemId: string | null): Promise<boolean> {
  return (await wordOnPhotographs(stores, householdId, itemId)) === false;
}

/** True when the owner said yes: without that, no photograph is shown to anybody but the salvage and the family. */
export async function photographsAllowed(stores: Stores, householdId: string, itemId: string | null): Promise<boolean> {
  return (await wordOnPhotographs(stores, householdId, itemId)) === true;
}
