/** What is asked for Spanish of the work with families; for `languages.spec.ts`. */
import { mattersOf } from '../api/support/families.js';
import type { Workbench } from '../api/support/workbench.js';
import type { Spoken } from './languages.custody.js';

const ES = { 'accept-language': 'es-MX, es;q=0.9' };

export function familyOperations(open: () => Workbench): Record<string, () => Promise<Spoken>> {
  const matter = async () => {
    const { network, incident } = open();
    const household = await open().household();
    const item = await open().takeIn(household);
    const { body } = await network.post(`/v1/items/${item.id}/questions`, { kind: 'photograph' }).expect(201);
    await network.post(`/v1/owner-questions/${body.id}/answers`, { answer: 'call-me', manner: 'spoken' }).expect(201);
    return (await mattersOf(network, incident, household.id))[0]?.id ?? '';
  };
  return {
    previewRetention: async () => open().network.get(`/v1/incidents/${open().incident.id}/retention-preview`, ES),
    listFamilyMatters: async () => {
      await matter();
      return open().network.get(`/v1/incidents/${open().incident.id}/family-matters`, ES);
    },
    settleFamilyMatter: async () => open().network.post(`/v1/family-matters/${await matter()}/settlement`, { personId: open().incident.person('P1'), settlement: 'Hablamos en la mesa.' }, ES),
  };
}
