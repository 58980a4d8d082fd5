import type { PreparedIncident } from '#testing';
import { ofIncident, type Table } from '../row.js';
import { foundQuilt } from './found-items.js';

const ofHandBack = (incident: PreparedIncident) => ({ params: { handBackId: incident.the('handBack') } });

export const handBackBody = (incident: PreparedIncident, itemId: string) => ({
  items: [{ itemId, conditionNote: incident.text('Dry, one seam open') }], receiver: 'contact', identityCheck: 'document-seen', signatureRef: incident.text('receipts'),
});

const person = { values: (incident: PreparedIncident) => [incident.places.person('P1')] };

/** A household of its own with one thing that is still here. */
export async function waitingHousehold(incident: PreparedIncident): Promise<{ id: string; itemId: string }> {
  const household = await incident.newHousehold();
  return { id: household.id, itemId: (await incident.newItem({ householdId: household.id })).id };
}

let minutes = 0;
export async function slotOf(incident: PreparedIncident): Promise<string> {
  minutes += 30;
  const startsAt = new Date(Date.parse('2026-06-01T15:00:00Z') + minutes * 60_000).toISOString();
  const { body } = await incident.network.post(`/v1/sites/${incident.places.site()}/hand-back-slots`, { startsAt, minutes: 30, slots: 1, capacity: 5 }).expect(201);
  return body.opened[0].id as string;
}

export async function appointmentOf(incident: PreparedIncident, householdId?: string): Promise<string> {
  return (await incident.create(`/v1/hand-back-slots/${await slotOf(incident)}/appointments`, { householdId: householdId ?? (await waitingHousehold(incident)).id })).id;
}

/** Things that should have been decided about long ago. */
export async function uncollectedOf(incident: PreparedIncident): Promise<string> {
  const household = await waitingHousehold(incident);
  return (await incident.create(`/v1/households/${household.id}/uncollected`, { deciderId: incident.places.person('P1'), readyAt: '2026-01-01T00:00:00Z' })).id;
}

/** A found thing that should have been decided about long ago, and its path. */
export async function unclaimedOf(incident: PreparedIncident): Promise<{ id: string; itemId: string }> {
  const itemId = await foundQuilt(incident);
  const { path } = await incident.create(`/v1/items/${itemId}/unclaimed`, { deciderId: incident.places.person('P1'), noticedAt: '2024-01-01T00:00:00Z' }) as unknown as { path: { id: string } };
  return { id: path.id, itemId };
}

export const handBackRows: Table = {
  handBack: {
    request: async (incident) => {
      const household = await waitingHousehold(incident);
      return { params: { householdId: household.id }, body: { ...handBackBody(incident, household.itemId), personId: incident.places.person('P1'), appointmentId: await appointmentOf(incident, household.id) } };
    },
    references: { '#/items/0/itemId': { values: (incident) => [incident.the('item')] }, '#/personId': person, '#/appointmentId': { values: async (incident) => [await appointmentOf(incident)] } },
  },
  getHandBack: { request: ofHandBack },
  getHandBackReceipt: { request: ofHandBack },
  printHandBackReceipt: { request: ofHandBack },
  printCareSheet: { request: ofHandBack },
  openHandBackSlots: { request: (incident) => ({ params: { siteId: incident.places.site() }, body: { startsAt: '2026-07-01T15:00:00Z', minutes: 30, slots: 2, capacity: 3 } }) },
  listHandBackSlots: { request: (incident) => ({ params: { siteId: incident.places.site() } }) },
  bookAppointment: {
    request: async (incident) => ({ params: { slotId: await slotOf(incident) }, body: { householdId: (await waitingHousehold(incident)).id } }),
    references: { '#/householdId': { values: (incident) => [incident.the('household')] } },
  },
  endAppointment: {
    request: async (incident) => ({ params: { appointmentId: await appointmentOf(incident) }, body: { outcome: 'missed', deciderId: incident.places.person('P1') } }),
    references: { '#/deciderId': person },
  },
  openUncollected: {
    request: async (incident) => ({ params: { householdId: (await waitingHousehold(incident)).id }, body: { deciderId: incident.places.person('P1') } }),
    references: { '#/deciderId': person },
  },
  listUncollected: ofIncident(),
  openUnclaimed: {
    request: async (incident) => ({ params: { itemId: await foundQuilt(incident) }, body: { deciderId: incident.places.person('P1') } }),
    references: { '#/deciderId': person },
  },
  decideUnclaimed: {
    request: async (incident) => ({ params: { uncollectedId: (await unclaimedOf(incident)).id }, body: { personId: incident.places.person('P1'), decision: 'keep-longer', reason: incident.text('Somebody may come') } }),
    references: { '#/personId': person },
  },
  recordReminder: { request: async (incident) => ({ params: { uncollectedId: await uncollectedOf(incident) }, body: {} }) },
  decideUncollected: {
    request: async (incident) => ({ params: { uncollectedId: await uncollectedOf(incident) }, body: { personId: incident.places.person('P1'), decision: 'bring-to-them', reason: incident.text('No car') } }),
    references: { '#/personId': { ...person, answers: ['command_refused'] } },
  },
};
