import { newId } from '#platform';
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
  listItemSightings: { request: (incident) => ({ params: { itemId: incident.the('seen') } }) },
  recordScans: ofIncident({
    body: (incident) => ({ scans: [{ scanId: newId(), itemTag: incident.the('itemTag'), place: { kind: 'holding', id: incident.places.holding('clean') }, seenAt: '2026-05-09T07:00:00Z', personId: incident.places.person('P1') }] }),
    notReferences: {
      '#/scans/0/scanId': 'made by the device, and one of its incident: tests/api/recordScans/200.again.spec.ts',
      '#/scans/0/itemTag': 'a scan is refused by itself: tests/api/recordScans/404.spec.ts',
      '#/scans/0/containerTag': 'a scan is refused by itself: tests/api/recordScans/404.spec.ts',
      '#/scans/0/placeTag': 'a scan is refused by itself: tests/api/recordScans/404.spec.ts',
      '#/scans/0/place': 'a scan is refused by itself: tests/api/recordScans/404.spec.ts',
      '#/scans/0/place/id': 'a scan is refused by itself: tests/api/recordScans/404.spec.ts',
      '#/scans/0/personId': 'a scan is refused by itself: tests/api/recordScans/404.spec.ts',
    },
  }),
  searchItems: { request: (incident) => ({ params: { incidentId: incident.id }, query: { q: incident.the('itemTag') } }) },
  listContents: {
    request: (incident) => ({ params: { incidentId: incident.id }, query: { placeKind: 'holding', placeId: incident.places.holding('dirty') } }),
    references: { '?placeId': { values: (incident) => [incident.places.holding('dirty')] } },
  },
  listUnseenItems: ofIncident(),
  listCustodyRoots: { request: () => ({}), unbound: { otherNetwork: 'own rows', otherIncident: 'own rows' } },
  getCustodyRoot: { request: () => ({ params: { rootNo: '1' } }), unbound: { otherNetwork: 'own rows', otherIncident: 'own rows' } },
  printCustodyRoot: { request: () => ({ params: { rootNo: '1' } }), unbound: { otherNetwork: 'own rows', otherIncident: 'own rows' } },
  listCustodyKeys: { request: () => ({}), unbound: { otherNetwork: 'own rows', otherIncident: 'own rows' } },
  listCustodyProofs: { request: (incident) => ({ params: { itemId: incident.the('item') } }) },
  verifyCustody: { request: (incident) => ({ params: { itemId: incident.the('item') } }) },
  listCustodyEvents: { request: (incident) => ({ params: { itemId: incident.the('item') } }) },
  getSituationReport: ofIncident(),
  getReconciliation: ofIncident(),
};
