import type { PreparedIncident, TestServer, TestNetwork, IncidentOnTest } from '#testing';
import { ofIncident, type Row, type Table } from '../row.js';

const VALID_TO = '2026-06-30T00:00:00Z';

/** A third network that the prepared incident has an agreement with in each direction. */
interface Partner {
  network: TestNetwork;
  incident: IncidentOnTest;
  /** The partner gives to us by the first, we to the partner by the second. */
  toUs: string;
  toThem: string;
}

const PARTNERS = new WeakMap<PreparedIncident, Partner>();

function partnerOf(incident: PreparedIncident): Partner {
  const partner = PARTNERS.get(incident);
  if (!partner) throw new Error('the prepared incident has no partner');
  return partner;
}

async function created(network: TestNetwork, path: string, body: object): Promise<Record<string, unknown> & { id: string }> {
  const answer = await network.post(path, body);
  if (answer.status !== 201) throw new Error(`${path}: ${answer.status} ${JSON.stringify(answer.body)}`);
  return answer.body;
}

async function invitation(network: TestNetwork, incidentId: string): Promise<string> {
  return (await created(network, `/v1/incidents/${incidentId}/aid-agreements`, { partnerName: 'A partner', validTo: VALID_TO }))['invitation'] as string;
}

/** What the rows below need, and what makes it. */
export async function befriend(incident: PreparedIncident, server: TestServer): Promise<Record<string, string>> {
  const network = await server.network();
  const theirs = await network.incident();
  const join = async (by: TestNetwork, incidentId: string, text: string) => (await created(by, `/v1/incidents/${incidentId}/aid-agreements/joinings`, { invitation: text })).id;
  const toUs = await join(incident.network, incident.id, await invitation(network, theirs.id));
  const toThem = await join(network, theirs.id, await invitation(incident.network, incident.id));
  PARTNERS.set(incident, { network, incident: theirs, toUs, toThem });
  const { offerId, itemId } = await lent(incident);
  return { aidAgreement: toThem, aidOffer: await offerOfUs(incident), lentOffer: offerId, lentItem: itemId };
}

async function offerOfUs(incident: PreparedIncident): Promise<string> {
  return (await incident.create(`/v1/aid-agreements/${partnerOf(incident).toThem}/offers`, { itemId: (await incident.newItem()).id })).id;
}

async function offerToUs(incident: PreparedIncident): Promise<string> {
  const { network, incident: theirs, toUs } = partnerOf(incident);
  const consents = ['treat', 'refer'].map((scope) => ({ scope, given: true, manner: 'spoken' }));
  const household = await created(network, `/v1/incidents/${theirs.id}/households`, { code: `HH-${Date.now()}-${Math.floor(performance.now() * 1000)}`, contact: { name: 'Somebody' }, consents });
  const { tags } = await created(network, `/v1/incidents/${theirs.id}/tag-blocks`, { kind: 'item', count: 1, reservedFor: 'a team' }) as unknown as { tags: string[] };
  const item = await created(network, `/v1/incidents/${theirs.id}/items`, { householdId: household.id, siteId: theirs.site(), tag: tags[0], description: 'Sampler', materialClass: 'textile-quilt-padded', sizeClass: 'double-quilt', photographRef: 'p' });
  return (await created(network, `/v1/aid-agreements/${toUs}/offers`, { itemId: item.id })).id;
}

async function accepted(incident: PreparedIncident): Promise<string> {
  const offerId = await offerToUs(incident);
  await incident.create(`/v1/aid-offers/${offerId}/acceptances`, { siteId: incident.places.site(), tag: await incident.newTag() });
  return offerId;
}

/** A thing of ours that the partner holds. */
async function lent(incident: PreparedIncident): Promise<{ offerId: string; itemId: string }> {
  const { network, incident: theirs, toThem } = partnerOf(incident);
  const itemId = (await incident.newItem()).id;
  const offerId = (await incident.create(`/v1/aid-agreements/${toThem}/offers`, { itemId })).id;
  const { tags } = await created(network, `/v1/incidents/${theirs.id}/tag-blocks`, { kind: 'item', count: 1, reservedFor: 'a team' }) as unknown as { tags: string[] };
  await created(network, `/v1/aid-offers/${offerId}/acceptances`, { siteId: theirs.site(), tag: tags[0] });
  return { offerId, itemId };
}

async function returnToUs(incident: PreparedIncident): Promise<string> {
  const { network } = partnerOf(incident);
  const { offerId } = await lent(incident);
  return (await created(network, `/v1/aid-offers/${offerId}/returns`, {})).id;
}

const ofOffer = (make: (incident: PreparedIncident) => Promise<string>, row: Omit<Row, 'request'> & { body?: (incident: PreparedIncident) => object | Promise<object> } = {}): Row => {
  const { body, ...rest } = row;
  return { ...rest, request: async (incident) => ({ params: { offerId: await make(incident) }, body: (await body?.(incident)) ?? {} }) };
};
const people = { '#/personId': { values: (incident: PreparedIncident) => [incident.places.person('P1')] } };
const holding = (incident: PreparedIncident) => ({ kind: 'holding', id: incident.places.holding('dirty') });

export const mutualAidRows: Table = {
  inviteToAid: ofIncident({ body: () => ({ partnerName: 'A partner', validTo: VALID_TO }) }),
  joinAid: {
    request: async (incident) => {
      const { network, incident: theirs } = partnerOf(incident);
      return { params: { incidentId: incident.id }, body: { invitation: await invitation(network, theirs.id) } };
    },
  },
  listAidAgreements: ofIncident(),
  revokeAid: {
    request: async (incident) => {
      const { network, incident: theirs } = partnerOf(incident);
      return { params: { agreementId: (await created(incident.network, `/v1/incidents/${incident.id}/aid-agreements/joinings`, { invitation: await invitation(network, theirs.id) })).id }, body: {} };
    },
  },
  offerToPartner: {
    request: async (incident) => ({ params: { agreementId: partnerOf(incident).toThem }, body: { itemId: (await incident.newItem()).id, personId: incident.places.person('P1') } }),
    references: { ...people, '#/itemId': { values: (incident) => [incident.the('item')] } },
  },
  listAidOffers: ofIncident(),
  acceptFromPartner: ofOffer(offerToUs, {
    body: async (incident) => ({ siteId: incident.places.site(), tag: await incident.newTag(), to: holding(incident) }),
    references: { '#/siteId': { values: (incident) => [incident.places.site()] }, '#/to': { values: (incident) => [holding(incident)] } },
  }),
  declineFromPartner: ofOffer(offerToUs),
  withdrawFromPartner: ofOffer(offerOfUs),
  returnToPartner: ofOffer(accepted, { body: (incident) => ({ personId: incident.places.person('P1') }), references: people }),
  acceptReturn: ofOffer(returnToUs, { body: (incident) => ({ to: holding(incident) }), references: { '#/to': { values: (incident) => [holding(incident)] } } }),
};
