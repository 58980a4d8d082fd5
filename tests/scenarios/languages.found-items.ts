/** What is asked for Spanish of found things and claims; for `languages.spec.ts`. */
import { ClaimDesks } from '../api/support/found-items.js';
import type { Workbench } from '../api/support/workbench.js';
import type { Spoken } from './languages.custody.js';

const ES = { 'accept-language': 'es-MX, es;q=0.9' };

export function foundItemOperations(open: () => Workbench): Record<string, () => Promise<Spoken>> {
  const claimed = async () => {
    const desks = await ClaimDesks.open(open());
    const { itemId } = await desks.found();
    const claim = await desks.claim(itemId, (await open().household()).id);
    await desks.seen(claim.id);
    return { desks, claim, itemId };
  };
  const waitedFor = async () => {
    const { itemId } = await (await ClaimDesks.open(open())).found();
    return { itemId, deciderId: open().incident.person('P1') };
  };
  return {
    openUnclaimed: async () => {
      const { itemId, deciderId } = await waitedFor();
      return open().network.post(`/v1/items/${itemId}/unclaimed`, { deciderId }, ES);
    },
    decideUnclaimed: async () => {
      const { itemId, deciderId } = await waitedFor();
      const { body } = await open().network.post(`/v1/items/${itemId}/unclaimed`, { deciderId, noticedAt: '2024-01-01T00:00:00Z' }).expect(201);
      return open().network.post(`/v1/uncollected/${body.path.id}/unclaimed-decisions`, { personId: deciderId, decision: 'keep-longer', reason: 'Alguien puede venir.' }, ES);
    },
    claimFoundItem: async () => {
      const desks = await ClaimDesks.open(open());
      const { itemId } = await desks.found();
      return desks.desk.post(`/v1/items/${itemId}/ownership-claims`, { householdId: (await open().household()).id, takenBy: desks.person('P3') }, ES);
    },
    getFoundRecord: async () => open().network.get(`/v1/items/${(await claimed()).itemId}/found-record`, ES),
    compareOwnershipClaim: async () => {
      const { desks, claim } = await claimed();
      return desks.lead.get(`/v1/ownership-claims/${claim.id}/comparison?personId=${desks.person('P1')}`, ES);
    },
    decideOwnershipClaim: async () => {
      const { desks, claim } = await claimed();
      return desks.lead.post(`/v1/ownership-claims/${claim.id}/decisions`, { personId: desks.person('P1'), accepts: true }, ES);
    },
    withdrawOwnershipClaim: async () => open().network.post(`/v1/ownership-claims/${(await claimed()).claim.id}/withdrawal`, {}, ES),
    lookUpHouseholds: async () => open().network.post(`/v1/incidents/${open().incident.id}/household-lookups`, { name: 'Nobody by this name' }, ES),
  };
}
