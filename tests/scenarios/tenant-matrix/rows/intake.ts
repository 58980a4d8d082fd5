import type { PreparedIncident } from '#testing';
import { ofIncident, type Table } from '../row.js';

const ofHousehold = (incident: PreparedIncident) => ({ params: { householdId: incident.the('household') } });
const ofItem = (incident: PreparedIncident) => ({ params: { itemId: incident.the('item') } });
const ofImport = (incident: PreparedIncident) => ({ params: { importId: incident.the('import') } });
const site = { values: (incident: PreparedIncident) => [incident.places.site()] };
const household = { values: (incident: PreparedIncident) => [incident.the('household')] };

/** Waiting places where something can be put down. */
export const shelves = (incident: PreparedIncident) => [
  { kind: 'holding', id: incident.places.holding('dirty') },
  { kind: 'station', id: incident.places.station('RINSE') },
  { kind: 'container', id: incident.the('container') },
];

/** One keeper of every kind that is looked up. */
export const keepers = (incident: PreparedIncident) => [
  ...shelves(incident),
  { kind: 'drying-place', id: incident.places.place('R1') },
  { kind: 'freezer', id: incident.places.freezer('F1') },
  { kind: 'specialist', id: incident.places.specialist('SP1') },
  { kind: 'household', id: incident.the('household') },
  { kind: 'courier', id: incident.places.person('P1') },
];

/** A file of arrivals: the worker takes its first row and refuses the second, whose tag is no tag. */
export async function arrivals(incident: PreparedIncident): Promise<string> {
  const row = (tag: string) => `${tag},HH-${incident.marker},${incident.text('Contact')},${incident.text('Christening gown')}\n`;
  return `tag,household,contactName,object\n${row(await incident.newTag())}${row('KKKK-KKK-00')}`;
}

/** Starts a run by the numbers in force. */
export async function retentionBody(incident: PreparedIncident): Promise<object> {
  const { body } = await incident.network.get(`/v1/incidents/${incident.id}/retention-preview`).expect(200);
  return { personId: incident.places.person('P1'), policyRevision: body.policyRevision };
}

export const intakeRows: Table = {
  takeInHousehold: ofIncident({ body: (incident) => ({ code: `N${Math.random().toString(36).slice(2)}`, contact: { name: incident.text('Contact') } }) }),
  listHouseholds: ofIncident(),
  getHousehold: { request: ofHousehold },
  getHouseholdData: { request: ofHousehold },
  eraseHousehold: {
    request: async (incident) => ({ params: { householdId: (await incident.newHousehold()).id }, body: { personId: incident.places.person('P1'), reason: 'owner-asked' } }),
    references: { '#/personId': { values: (incident) => [incident.places.person('P1')] } },
  },
  previewRetention: ofIncident(),
  listRetentionRuns: ofIncident(),
  getRetentionRun: { request: (incident) => ({ params: { retentionRunId: incident.the('retentionRun') } }) },
  startRetention: {
    request: async (incident) => ({ params: { incidentId: incident.id }, body: await retentionBody(incident) }),
    references: { '#/personId': { values: (incident) => [incident.places.person('P1')] } },
  },
  placeLegalHold: {
    request: async (incident) => ({ params: { householdId: (await incident.newHousehold()).id }, body: { personId: incident.places.person('P1'), reason: incident.text('A claim is announced') } }),
    references: { '#/personId': { values: (incident) => [incident.places.person('P1')] } },
  },
  liftLegalHold: {
    request: async (incident) => ({
      params: { legalHoldId: (await incident.create(`/v1/households/${(await incident.newHousehold()).id}/legal-holds`, { personId: incident.places.person('P1'), reason: incident.text('A claim is announced') })).id },
      body: { personId: incident.places.person('P1') },
    }),
    references: { '#/personId': { values: (incident) => [incident.places.person('P1')] } },
  },
  recordConsent: {
    request: (incident) => ({ ...ofHousehold(incident), body: { scope: 'treat', given: true, manner: 'spoken', note: incident.text('Said again') } }),
    references: { '#/itemId': { values: (incident) => [incident.the('item')] } },
  },
  getHouseholdReport: { request: ofHousehold },
  takeInItem: {
    request: async (incident) => ({
      params: { incidentId: incident.id },
      body: { householdId: incident.the('household'), siteId: incident.places.site(), tag: await incident.newTag(), description: incident.text('Letters'), sizeClass: 'double-quilt' },
    }),
    references: {
      '#/householdId': household,
      '#/siteId': site,
      '#/to': { values: keepers },
      // Not an id, but the tag of somebody else must be as unknown as one that nobody reserved.
      '#/tag': { values: async (incident) => [await incident.newTag()], answers: ['tag_unknown'] },
    },
  },
  listItems: {
    request: (incident) => ({ params: { incidentId: incident.id }, query: { householdId: incident.the('household'), keeperKind: 'holding', keeperId: incident.places.holding('dirty') } }),
    references: {
      '?householdId': { ...household, answers: ['nothing found'] },
      '?keeperId': { values: (incident) => [incident.places.holding('dirty')], answers: ['nothing found'] },
    },
  },
  getItem: { request: ofItem },
  changeItemWords: {
    request: async (incident) => ({ ...ofItem(incident), body: { familyWords: incident.text('More words') }, ifMatch: await incident.etagOf(`/v1/items/${incident.the('item')}`) }),
  },
  splitLot: {
    // A lot for all requests, and one piece each time: making a lot for every request would be seen as a write of the stranger.
    request: async (incident) => ({
      params: { incidentId: incident.id, itemId: incident.the('lot') }, body: { count: 1, tag: await incident.newTag(), personId: incident.places.person('P1') }, ifMatch: await incident.etagOf(`/v1/items/${incident.the('lot')}`),
    }),
    references: {
      '#/personId': { values: (incident) => [incident.places.person('P1')] },
      '#/tag': { values: async (incident) => [await incident.newTag()], answers: ['tag_unknown'] },
    },
  },
  reserveTags: ofIncident({ body: (incident) => ({ kind: 'item', count: 2, reservedFor: incident.text('Team') }) }),
  lookUpTag: { request: async (incident) => ({ params: { tag: (await incident.newItem())['tag'] as string } }) },
  registerContainer: {
    request: async (incident) => ({ params: { incidentId: incident.id }, body: { siteId: incident.places.site(), tag: await incident.newTag('container'), kind: 'box', description: incident.text('Box') } }),
    references: { '#/siteId': site, '#/to': { values: shelves }, '#/tag': { values: async (incident) => [await incident.newTag('container')], answers: ['tag_unknown'] } },
  },
  submitIntakeImport: {
    request: async (incident) => ({ params: { incidentId: incident.id }, query: { siteId: incident.places.site(), fileName: incident.text('slips') }, body: await arrivals(incident), contentType: 'text/csv' }),
    references: { '?siteId': site },
  },
  getIntakeImport: { request: ofImport },
  listIntakeImportRows: { request: ofImport },
  getRefusedRows: { request: ofImport },
};
