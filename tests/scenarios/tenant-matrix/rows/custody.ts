import { ofIncident, type Table } from '../row.js';
import { keepers } from './intake.js';

export const custodyRows: Table = {
  recordPassing: {
    request: async (incident) => {
      const item = await incident.newItem();
      return {
        params: { itemId: item.id },
        body: { kind: 'moved', from: item['keeper'], to: { kind: 'holding', id: incident.places.holding('clean') }, personId: incident.places.person('P1') },
      };
    },
    references: {
      '#/personId': { values: (incident) => [incident.places.person('P1')] },
      '#/to': { values: keepers },
      // Who holds the item is told to whoever may see the item; what the sender believed is not looked up.
      '#/from': { values: (incident) => [{ kind: 'holding', id: incident.places.holding('dirty') }], answers: ['wrong_keeper'] },
    },
  },
  listCustodyEvents: { request: (incident) => ({ params: { itemId: incident.the('item') } }) },
  getSituationReport: ofIncident(),
  getReconciliation: ofIncident(),
};
