import type { PreparedIncident } from '#testing';
import { ofIncident, type Table } from '../row.js';
import { keepers } from './intake.js';

const person = (code: string) => ({ values: (incident: PreparedIncident) => [incident.places.person(code)] });

const foundBody = async (incident: PreparedIncident) => ({
  siteId: incident.places.site(), tag: await incident.newTag(), description: incident.text('Quilt'), materialClass: 'textile-quilt-padded', sizeClass: 'double-quilt', foundOn: '2026-05-08',
  foundPlace: incident.text('In the hedge'), finder: incident.text('A walker'), personId: incident.places.person('P4'), marks: [{ question: incident.text('What is in the hem?'), answer: incident.text('Bells') }],
});

/** A found quilt with one question, written down with a key of its own; answers the id of the item. */
export async function foundQuilt(incident: PreparedIncident): Promise<string> {
  const intake = incident.network.as(await incident.network.newKey());
  return (await intake.post(`/v1/incidents/${incident.id}/found-items`, await foundBody(incident)).expect(201)).body.itemId as string;
}

const markOf = async (incident: PreparedIncident, itemId: string): Promise<string> => (await incident.network.get(`/v1/items/${itemId}/found-record`).expect(200)).body.questions[0].markId as string;

/** An open claim, taken with a key of its own; two have looked at it, and nobody has decided. */
export async function openClaim(incident: PreparedIncident): Promise<{ id: string; itemId: string; foundRecord: string; claimant: string }> {
  const itemId = await foundQuilt(incident);
  const household = (await incident.newHousehold()).id;
  const desk = incident.network.as(await incident.network.newKey());
  const body = { householdId: household, takenBy: incident.places.person('P3'), statement: incident.text('Ours'), answers: [{ markId: await markOf(incident, itemId), answer: incident.text('Bells') }] };
  const { id } = (await desk.post(`/v1/items/${itemId}/ownership-claims`, body).expect(201)).body as { id: string };
  const lead = incident.network.as(await incident.network.newKey());
  for (const code of ['P1', 'P2']) await lead.get(`/v1/ownership-claims/${id}/comparison?personId=${incident.places.person(code)}`).expect(200);
  const foundRecord = (await incident.network.get(`/v1/items/${itemId}/found-record`).expect(200)).body.id as string;
  return { id, itemId, foundRecord, claimant: household };
}

const ofFound = (incident: PreparedIncident) => ({ params: { itemId: incident.the('foundItem') } });

export const foundItemRows: Table = {
  takeInFoundItem: {
    request: async (incident) => ({ params: { incidentId: incident.id }, body: await foundBody(incident) }),
    references: {
      '#/siteId': { values: (incident) => [incident.places.site()] },
      '#/to': { values: keepers },
      '#/personId': person('P4'),
      '#/tag': { values: async (incident) => [await incident.newTag()], answers: ['tag_unknown'] },
    },
  },
  listFoundItems: ofIncident(),
  getFoundRecord: { request: ofFound },
  getFoundNotice: { request: ofFound },
  recordOwnerMark: {
    request: async (incident) => ({ params: { itemId: await foundQuilt(incident) }, body: { question: incident.text('What is on the back?'), answer: incident.text('A name'), personId: incident.places.person('P4') } }),
    references: { '#/personId': person('P4') },
  },
  claimFoundItem: {
    request: async (incident) => {
      const itemId = await foundQuilt(incident);
      return { params: { itemId }, body: { householdId: (await incident.newHousehold()).id, takenBy: incident.places.person('P3'), statement: incident.text('Ours'), answers: [{ markId: await markOf(incident, itemId), answer: incident.text('Bells') }] } };
    },
    references: {
      '#/householdId': { values: (incident) => [incident.the('household')] },
      '#/takenBy': person('P3'),
      '#/answers/0/markId': { values: async (incident) => [await markOf(incident, incident.the('foundItem'))] },
    },
  },
  compareOwnershipClaim: {
    request: async (incident) => ({ params: { ownershipClaimId: (await openClaim(incident)).id }, query: { personId: incident.places.person('P1') } }),
    references: { '?personId': person('P1') },
  },
  decideOwnershipClaim: {
    request: async (incident) => ({ params: { ownershipClaimId: (await openClaim(incident)).id }, body: { personId: incident.places.person('P1'), accepts: true } }),
    references: { '#/personId': person('P1') },
  },
  withdrawOwnershipClaim: { request: async (incident) => ({ params: { ownershipClaimId: (await openClaim(incident)).id }, body: {} }) },
  lookUpHouseholds: ofIncident({ body: (incident) => ({ name: incident.text('Contact') }) }),
};
