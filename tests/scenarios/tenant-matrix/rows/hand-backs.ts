import type { PreparedIncident } from '#testing';
import type { Table } from '../row.js';

const ofHandBack = (incident: PreparedIncident) => ({ params: { handBackId: incident.the('handBack') } });

export const handBackBody = (incident: PreparedIncident, itemId: string) => ({
  items: [{ itemId, conditionNote: incident.text('Dry, one seam open') }], receiver: 'contact', identityCheck: 'document-seen', signatureRef: incident.text('receipts'),
});

export const handBackRows: Table = {
  handBack: {
    request: async (incident) => ({ params: { householdId: incident.the('household') }, body: handBackBody(incident, (await incident.newItem()).id) }),
    references: { '#/items/0/itemId': { values: (incident) => [incident.the('item')] } },
  },
  getHandBack: { request: ofHandBack },
  getHandBackReceipt: { request: ofHandBack },
};
