import { BUILT_IN_TEMPLATES } from '#custody';
import { newId } from '#platform';
import type { PreparedIncident } from '#testing';
import { ofIncident, type Table } from '../row.js';

const template = BUILT_IN_TEMPLATES[0]?.template;

/** A place that has no tag yet. */
const newFreezer = async (incident: PreparedIncident) =>
  (await incident.create(`/v1/incidents/${incident.id}/freezers`, { siteId: incident.places.site(), code: `T${Math.random().toString(36).slice(2, 12)}`, name: incident.text('Trailer'), volumeL: 900, availableFrom: '2026-05-09T16:00:00Z' })).id;
const blockOf = async (incident: PreparedIncident) => (await incident.create(`/v1/incidents/${incident.id}/tag-blocks`, { kind: 'place', count: 2, reservedFor: incident.text('Team') })).id;
/** Of the incident alone, because a key that is limited to it made it. */
const templateOf = async (incident: PreparedIncident) => {
  const limited = incident.network.as(await incident.network.newKey({ incidentId: incident.id }));
  return (await limited.post('/v1/label-templates', { name: `Film ${newId()}`, template }).expect(201)).body.id as string;
};

export const tagRows: Table = {
  listTagBlocks: ofIncident(),
  tieTag: {
    request: async (incident) => ({ params: { tag: await incident.newTag('place') }, body: { place: { kind: 'freezer', id: await newFreezer(incident) } } }),
    references: { '#/place/id': { values: async (incident) => [await newFreezer(incident)] } },
    notReferences: { '#/personId': 'stands instead of the place; a person of elsewhere is refused in tests/api/tieTag' },
  },
  replaceTag: {
    request: async (incident) => ({ params: { tag: (await incident.newItem())['tag'] as string }, body: { newTag: await incident.newTag(), reason: 'lost' } }),
    references: { '#/newTag': { values: async (incident) => [await incident.newTag()], answers: ['tag_unknown'] } },
  },
  listLabelTemplates: { request: () => ({}), unbound: { otherNetwork: 'own rows', otherIncident: 'own rows' } },
  // The names of templates are the whole network's, so they hold no marker.
  addLabelTemplate: { request: () => ({ body: { name: `Film ${newId()}`, template } }), unbound: { otherNetwork: 'own rows', otherIncident: 'own rows' } },
  printCalibrationPage: { request: async (incident) => ({ params: { templateId: await templateOf(incident) } }) },
  getTagSheet: {
    request: async (incident) => ({ params: { blockId: await blockOf(incident) }, query: { template: 'sign-a4', count: '1' } }),
    references: { '?template': { values: async (incident) => [await templateOf(incident)], ofNetwork: true } },
  },
  printTagSheet: { request: async (incident) => ({ params: { blockId: await blockOf(incident) }, body: { template, count: 1 } }) },
};
