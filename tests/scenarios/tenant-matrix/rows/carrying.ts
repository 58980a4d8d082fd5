import type { PreparedIncident } from '#testing';
import { ofIncident, type Row, type Table } from '../row.js';
import { shelves } from './intake.js';

const person = { values: (incident: PreparedIncident) => [incident.places.person('P1')] };
const site = { values: (incident: PreparedIncident) => [incident.places.site()] };
const lead = (incident: PreparedIncident) => incident.places.person('P1');
const giver = (incident: PreparedIncident) => incident.places.person('P2');
const clean = (incident: PreparedIncident) => ({ kind: 'holding', id: incident.places.holding('clean') });
const receivers = (incident: PreparedIncident) => [...shelves(incident).filter(({ kind }) => kind !== 'container'), { kind: 'specialist', id: incident.places.specialist('SP1') }, { kind: 'courier', id: lead(incident) }];
/** What the sender believed is not looked up: whoever sees the thing is told who holds it. */
const believed = { values: (incident: PreparedIncident) => [clean(incident)], answers: ['wrong_keeper'] as const };

/** An open hand-over to the clean side; P1 may accept it. */
export async function openHandOver(incident: PreparedIncident): Promise<string> {
  const item = await incident.newItem();
  return (await incident.create(`/v1/incidents/${incident.id}/hand-overs`, { to: clean(incident), itemIds: [item.id], personId: giver(incident), reason: incident.text('To the clean side') })).id;
}

/** A manifest of a fresh container, loaded with one thing, as far as it is asked for. */
export async function manifestOf(incident: PreparedIncident, until: 'loading' | 'departed' = 'loading'): Promise<{ id: string; tag: string; carrierId: string }> {
  const { id: carrierId } = await incident.newContainer();
  const tag = (await incident.newItem())['tag'] as string;
  const { id } = await incident.create(`/v1/incidents/${incident.id}/manifests`, { ...trip(incident), carrier: { kind: 'container', id: carrierId }, expected: [tag] });
  if (until === 'departed') {
    await incident.create(`/v1/manifests/${id}/loadings`, { personId: lead(incident), tags: [tag] });
    await incident.create(`/v1/manifests/${id}/departures`, { personId: lead(incident) });
  }
  return { id, tag, carrierId };
}

/** An unsettled exception: something that stayed behind. */
export async function openException(incident: PreparedIncident): Promise<string> {
  const { id, tag } = await manifestOf(incident);
  const departed = await incident.create(`/v1/manifests/${id}/departures`, { personId: lead(incident), exceptions: [{ tag, reason: incident.text('Still drips') }] });
  return (departed['exceptions'] as { id: string }[])[0]?.id ?? '';
}

const trip = (incident: PreparedIncident) => ({ fromSiteId: incident.places.site(), toSiteId: incident.places.site(), personId: lead(incident) });

const answered = (body: (incident: PreparedIncident) => object): Row => ({
  request: async (incident) => ({ params: { handOverId: await openHandOver(incident) }, body: body(incident) }),
  references: { '#/personId': person },
});

export const carryingRows: Table = {
  getContainer: { request: (incident) => ({ params: { containerId: incident.the('container') } }) },
  listContainerSightings: { request: (incident) => ({ params: { containerId: incident.the('container') } }) },
  listContainerEvents: { request: (incident) => ({ params: { containerId: incident.the('container') } }) },
  listContainerContents: { request: (incident) => ({ params: { containerId: incident.the('container') } }) },
  recordContainerPassing: {
    request: async (incident) => {
      const container = await incident.newContainer();
      return { params: { containerId: container.id }, body: { kind: 'moved', from: container['keeper'], to: clean(incident), personId: lead(incident), reason: incident.text('Nearer to the tables') } };
    },
    references: { '#/personId': person, '#/to': { values: (incident) => [...shelves(incident), { kind: 'courier', id: lead(incident) }] }, '#/from': believed },
  },
  offerHandOver: {
    request: async (incident) => {
      const [item, second] = [await incident.newItem(), await incident.newContainer()];
      return { params: { incidentId: incident.id }, body: { from: item['keeper'], to: clean(incident), itemIds: [item.id], containerIds: [second.id], personId: giver(incident), reason: incident.text('To the clean side') } };
    },
    references: {
      '#/personId': person, '#/to': { values: receivers }, '#/from': believed,
      '#/itemIds': { values: (incident) => [[incident.the('item')]] }, '#/containerIds': { values: (incident) => [[incident.the('container')]] },
    },
  },
  acceptHandOver: answered((incident) => ({ personId: lead(incident) })),
  refuseHandOver: answered((incident) => ({ personId: lead(incident), reason: incident.text('No room') })),
  withdrawHandOver: answered((incident) => ({ personId: lead(incident), reason: incident.text('Not today') })),
  getHandOver: { request: (incident) => ({ params: { handOverId: incident.the('handOver') } }) },
  listHandOvers: ofIncident(),
  createManifest: {
    request: async (incident) => ({ params: { incidentId: incident.id }, body: { ...trip(incident), carrier: { kind: 'container', id: (await incident.newContainer()).id } } }),
    references: { '#/personId': person, '#/fromSiteId': site, '#/toSiteId': site, '#/carrier': { values: (incident) => [{ kind: 'container', id: incident.the('container') }] } },
  },
  getManifest: { request: (incident) => ({ params: { manifestId: incident.the('manifest') } }) },
  loadManifest: {
    request: async (incident) => {
      const { id, tag } = await manifestOf(incident);
      return { params: { manifestId: id }, body: { personId: lead(incident), tags: [tag] } };
    },
    references: { '#/personId': person },
  },
  departManifest: {
    request: async (incident) => {
      const { id, tag } = await manifestOf(incident);
      return { params: { manifestId: id }, body: { personId: lead(incident), exceptions: [{ tag, reason: incident.text('Still drips'), ownerId: giver(incident) }] } };
    },
    references: { '#/personId': person, '#/exceptions/0/ownerId': person },
  },
  arriveManifest: {
    request: async (incident) => {
      const { id, tag } = await manifestOf(incident, 'departed');
      return { params: { manifestId: id }, body: { personId: lead(incident), tags: [], to: clean(incident), exceptions: [{ tag, reason: incident.text('Not there'), ownerId: giver(incident) }] } };
    },
    references: { '#/personId': person, '#/exceptions/0/ownerId': person, '#/to': { values: (incident) => shelves(incident) } },
  },
  listManifestExceptions: ofIncident(),
  settleManifestException: {
    request: async (incident) => ({ params: { exceptionId: await openException(incident) }, body: { personId: lead(incident), settlement: incident.text('Went on the second trip') } }),
    references: { '#/personId': person },
  },
};
