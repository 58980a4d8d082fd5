import { TERMINAL_STAGES } from '#custody';
import { notFound, Problem, type ProblemError } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { momentOf, personOf } from '../care/claims.js';
import { refuseUnknownOwner } from '../claims/unknown-owner.js';
import { writeReceipt, type HandedItem } from '../care/receipt.js';
import { triageContextOf } from '../care/retriage.js';
import { standingOf } from '../care/standing.js';
import { recordCustody } from '../custody/record-custody.js';
import { noteNews } from '../families/news.js';
import { endPathWhereAllIsFetched } from '../hand-back/uncollected-path.js';
import { RESERVATIONS_FIELD, SIGNATURE_FIELD, type Strokes } from '../papers/hand-back-paper.js';
import type { AppointmentRecord, CodeHash } from '../ports/booking-store.js';
import type { HandBackRecord } from '../ports/hand-back-store.js';
import type { HouseholdRecord } from '../ports/household-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import { personalField } from '../ports/personal-store.js';
import type { Stores } from '../ports/work.js';
import { bookInForce } from '../rule-book/books.js';

export interface HandBackInput {
  householdId: string;
  items: { itemId: string; conditionNote: string }[];
  receiver: HandBackRecord['receiver'];
  identityCheck: HandBackRecord['identityCheck'];
  signatureRef: string;
  handedAtMs: number | null;
  /** Who stands at the counter. */
  personId: string | null;
  /** The appointment that is kept by it. */
  appointmentId: string | null;
  /** What the receiver has to say against it. */
  reservations: string;
  signature: Strokes | null;
  /** A one-time code was given; it is checked by `codeFits` and kept nowhere. */
  codeGiven: boolean;
}

/** Whether a code that somebody gave is the one of which this is kept. */
export type CodeFits = (kept: CodeHash) => Promise<boolean>;

/** Hands things of one household back, all or none of those named, with a receipt; what is not named stays with us. */
export async function handBack(stores: Stores, call: UseCaseCall, input: HandBackInput, codeFits: CodeFits = () => Promise.resolve(false)): Promise<HandBackRecord> {
  const household = await stores.households.find(input.householdId);
  if (!household) throw notFound('household');
  refuseUnknownOwner(household);
  const handedAtMs = momentOf(call, input.handedAtMs, '#/handedAt');
  if (input.personId !== null) await personOf(stores, household.incidentId, input.personId);
  const appointment = await keptAppointment(stores, household, input, codeFits);
  const items = await ownItems(stores, household, input);
  const id = call.env.newId();
  const handed = await withStanding(stores, items, input);
  const ground = { book: await bookInForce(stores), context: await triageContextOf(stores, call, household.incidentId) };
  const receipt = writeReceipt(id, household, handedAtMs, handed, ground);
  const { receiver, identityCheck, signatureRef, personId, appointmentId } = input;
  const record: HandBackRecord = {
    id, incidentId: household.incidentId, householdId: household.id, receiver, identityCheck, signatureRef, receipt,
    handedBy: call.context.principalId, handedAtMs, recordedAtMs: call.env.nowMs, items: input.items,
    personId, appointmentId, ...(await sealedWords(stores, household, id, input)), codeUsed: input.codeGiven,
  };
  await stores.handBacks.insert(record);
  for (const item of items) await giveBack(stores, call, item, record);
  if (appointment) await stores.bookings.save({ ...appointment, state: 'kept', code: null, check: { kind: identityCheck, result: 'matched' }, endedAtMs: handedAtMs, endedBy: call.context.principalId });
  await endPathWhereAllIsFetched(stores, call, household.id);
  await noteNews(stores, call, { incidentId: household.incidentId, householdId: household.id, kind: 'handed-back', subjectId: id });
  return record;
}

/** The appointment that is kept, locked. @throws Problem reference_unknown, wrong_stage, command_refused */
async function keptAppointment(stores: Stores, household: HouseholdRecord, input: HandBackInput, codeFits: CodeFits): Promise<AppointmentRecord | null> {
  const refused = (detail: string, code: string, pointer: string, text: string): Problem => new Problem('command_refused', text, { errors: [{ detail, code, pointer }] });
  if (input.appointmentId === null) {
    if (!input.codeGiven) return null;
    throw refused('is missing', 'appointment_missing', '#/appointmentId', 'A code belongs to an appointment: name the appointment, or take a signature. Nothing was handed back.');
  }
  const appointment = await stores.bookings.lock(input.appointmentId);
  if (appointment?.householdId !== household.id) throw new Problem('reference_unknown', 'The appointment is not one of this household. Nothing was handed back.', { errors: [{ detail: 'is not an appointment of this household', code: 'reference_unknown', pointer: '#/appointmentId' }] });
  if (appointment.state !== 'booked') throw new Problem('already_exists', 'The appointment is over already. Hand back without it, or book another one. Nothing was handed back.', { members: { state: appointment.state } });
  if (!input.codeGiven) return appointment;
  if (appointment.code === null || !(await codeFits(appointment.code))) throw refused('is not the code of this appointment', 'code_wrong', '#/code', 'The code is not the one that was given for this appointment. Check who it is in another way, or turn them away kindly. Nothing was handed back.');
  return appointment;
}

/** What names people in it, sealed for the household. */
async function sealedWords(stores: Stores, household: HouseholdRecord, id: string, { reservations, signature }: HandBackInput): Promise<Pick<HandBackRecord, 'reservationsSealed' | 'signatureSealed'>> {
  const seal = (field: string, text: string): Promise<Uint8Array> => stores.personal.seal(household.id, personalField(field, id), text);
  return {
    reservationsSealed: reservations === '' ? null : await seal(RESERVATIONS_FIELD, reservations),
    signatureSealed: signature === null ? null : await seal(SIGNATURE_FIELD, JSON.stringify(signature)),
  };
}

/** The named items, locked in id order so that two counters cannot block each other. @throws Problem reference_unknown, item_terminal, wrong_stage */
async function ownItems(stores: Stores, household: HouseholdRecord, input: HandBackInput): Promise<ItemRecord[]> {
  const items = await stores.items.lockMany(input.items.map(({ itemId }) => itemId));
  const faults = (test: (item: ItemRecord | undefined) => boolean, code: string, detail: string): ProblemError[] =>
    input.items.flatMap(({ itemId }, index) => (test(items.find((item) => item.id === itemId)) ? [{ detail, code, pointer: `#/items/${index}/itemId` }] : []));
  const strange = faults((item) => item?.householdId !== household.id, 'reference_unknown', 'is not an item of this household');
  if (strange.length > 0) throw new Problem('reference_unknown', 'Some items are not of this household; see errors. Nothing was handed back.', { errors: strange });
  const gone = faults((item) => item !== undefined && TERMINAL_STAGES.includes(item.stage), 'item_terminal', 'has left the network already');
  if (gone.length > 0) throw new Problem('item_terminal', 'Some items were handed back or released before; see errors. Nothing was handed back now. Leave them out, or tell the coordinator if one of them is in front of you.', { errors: gone });
  const busy = faults((item) => item?.stage === 'in-work', 'wrong_stage', 'is in work at a station');
  if (busy.length > 0) throw new Problem('wrong_stage', 'Some items are in work; see errors. Record how their step ended (or `work-ended`) first. Nothing was handed back.', { errors: busy });
  return items;
}

async function withStanding(stores: Stores, items: readonly ItemRecord[], input: HandBackInput): Promise<HandedItem[]> {
  const handed: HandedItem[] = [];
  for (const item of items) {
    const conditionNote = input.items.find(({ itemId }) => itemId === item.id)?.conditionNote ?? '';
    handed.push({ item, conditionNote, standing: await standingOf(stores, item) });
  }
  return handed;
}

async function giveBack(stores: Stores, call: UseCaseCall, item: ItemRecord, record: HandBackRecord): Promise<void> {
  await stores.steps.insert({
    id: call.env.newId(), incidentId: item.incidentId, itemId: item.id, step: 'hand-back', outcome: 'done', undoes: [], stationId: null, personId: null, note: '', startedAtMs: null, finishedAtMs: record.handedAtMs, recordedAtMs: call.env.nowMs,
  });
  await recordCustody(stores, call, item, { kind: 'handed-back', from: item.keeper, to: { kind: 'household', id: record.householdId }, refs: { handBackId: record.id }, occurredAtMs: record.handedAtMs });
  await stores.items.saveWork(item.id, { nextStep: null, waitingForOwner: false }, call.env.nowMs);
}
