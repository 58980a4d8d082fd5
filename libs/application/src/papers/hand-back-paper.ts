/** What the papers of a hand-back need beside the receipt that was stored. */
import type { UseCaseCall } from '../call.js';
import type { Receipt } from '../care/receipt.js';
import { personalField } from '../ports/personal-store.js';
import type { HandBackRecord } from '../ports/hand-back-store.js';
import type { Stores } from '../ports/work.js';
import { getHandBack } from '../queries/hand-backs.js';

/** Lines of a pen on a field of 1,000 by 400: points one after the other, x and y in turn. */
export type Strokes = readonly (readonly number[])[];

export interface HandBackPaper {
  receipt: Receipt;
  householdLanguage: string;
  incidentName: string;
  timeZone: string;
  receiver: HandBackRecord['receiver'];
  identityCheck: HandBackRecord['identityCheck'];
  /** Whoever stood at the counter, as the layout names them; null where nobody was noted. */
  handedBy: string | null;
  handedAtMs: number;
  recordedAtMs: number;
  /** What the receiver had to say against it; null when nothing was said, or when the household was erased. */
  reservations: string | null;
  signature: Strokes | null;
  codeUsed: boolean;
}

/** Field names of what is sealed for the household. */
export const RESERVATIONS_FIELD = 'hand_back.reservations';
export const SIGNATURE_FIELD = 'hand_back.signature';

/** @throws Problem not_found */
export async function handBackPaper(stores: Stores, call: UseCaseCall, input: { handBackId: string }): Promise<HandBackPaper> {
  const record = await getHandBack(stores, call, input);
  const household = await stores.households.find(record.householdId);
  const [reservations = null, signature = null] = await stores.personal.openAll([
    { householdId: record.householdId, field: personalField(RESERVATIONS_FIELD, record.id), sealed: record.reservationsSealed },
    { householdId: record.householdId, field: personalField(SIGNATURE_FIELD, record.id), sealed: record.signatureSealed },
  ]);
  return {
    receipt: record.receipt as Receipt, householdLanguage: household?.language ?? 'en', incidentName: (await stores.labelTemplates.incidentName(record.incidentId)) ?? '', timeZone: await stores.imports.timeZone(),
    receiver: record.receiver, identityCheck: record.identityCheck, handedBy: await nameOf(stores, record.personId), handedAtMs: record.handedAtMs, recordedAtMs: record.recordedAtMs,
    reservations, signature: signature === null ? null : (JSON.parse(signature) as Strokes), codeUsed: record.codeUsed,
  };
}

async function nameOf(stores: Stores, personId: string | null): Promise<string | null> {
  const person = personId === null ? null : await stores.places.person(personId);
  if (!person) return null;
  return (await stores.places.siteMembers(person.siteId)).find(({ id }) => id === person.id)?.name ?? null;
}
