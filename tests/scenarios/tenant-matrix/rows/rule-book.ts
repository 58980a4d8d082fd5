import { ofIncident, type Table } from '../row.js';

const described = { materialClass: 'textile-quilt-padded', wetState: 'wet' };
const floodAt = '2026-05-08T18:00:00Z';
const everybodysOwn = { otherNetwork: 'own rows', otherIncident: 'own rows' } as const;

export const ruleBookRows: Table = {
  getRuleBook: { request: () => ({}), unbound: everybodysOwn },
  listRules: { request: () => ({}), unbound: everybodysOwn },
  listRuleBookReleases: { request: () => ({}), unbound: everybodysOwn },
  listRuleBookChoices: { request: () => ({}), unbound: everybodysOwn },
  chooseRuleBook: {
    request: async (incident) => ({ body: { choices: {}, reason: 'As it was.', personId: incident.places.person('P1') }, ifMatch: await incident.etagOf('/v1/rulebook') }),
    references: { '#/personId': { values: (incident) => [incident.places.person('P1')], ofNetwork: true } },
    // Both networks have decided as often when the stranger asks; the lead is none of theirs.
    unbound: { otherNetwork: 'reference_unknown', otherIncident: 'scope_missing' },
    limitedKeyRefused: 'scope_missing',
  },
  compareRuleBooks: {
    request: (incident) => ({ body: { to: { choices: { 'mould-clock': '24h' } }, incidentId: incident.id } }),
    references: { '#/incidentId': { values: (incident) => [incident.id], ofNetwork: true } },
    unbound: { otherNetwork: 'not_found', otherIncident: 'not_found' },
  },
  estimateTriage: { request: () => ({ body: { assessment: described, floodAt } }), unbound: everybodysOwn },
  estimateOrder: { request: () => ({ body: { items: [{ assessment: described }], floodAt } }), unbound: everybodysOwn },
  listTriageHistory: { request: (incident) => ({ params: { itemId: incident.the('worked') } }) },
  getPrecedence: {
    request: (incident) => ({ params: { itemId: incident.the('item') }, query: { over: incident.the('worked') } }),
    references: { '?over': { values: (incident) => [incident.the('item')], ofNetwork: true } },
  },
  listDispositionOverrides: ofIncident(),
};
