import type { PreparedIncident } from '#testing';
import { ofIncident, type Table } from '../row.js';

const ofHousehold = (incident: PreparedIncident) => ({ householdId: incident.the('household') });

/** A fresh question in words of the incident. */
export async function questionOf(incident: PreparedIncident): Promise<string> {
  const words = { en: incident.text('Shall the frame stay with it?'), es: incident.text('¿Se queda con su marco?') };
  return (await incident.create(`/v1/items/${incident.the('item')}/questions`, { kind: 'other', words })).id;
}

export async function linkOfFamily(incident: PreparedIncident): Promise<{ id: string; path: string }> {
  return (await incident.create(`/v1/households/${incident.the('household')}/status-links`, { forWhom: incident.text('Daughter') })) as unknown as { id: string; path: string };
}

/** A family that would rather speak with somebody. */
export async function matterOf(incident: PreparedIncident): Promise<string> {
  const question = await questionOf(incident);
  await incident.create(`/v1/owner-questions/${question}/answers`, { answer: 'call-me', manner: 'spoken' });
  const { body } = await incident.network.get(`/v1/incidents/${incident.id}/family-matters?limit=200`).expect(200);
  return (body.items as { id: string; questionId: string }[]).find((matter) => matter.questionId === question)?.id ?? '';
}

export const familyRows: Table = {
  recordMessageWish: { request: (incident) => ({ params: { householdId: incident.the('household') }, body: { wish: 'messages', manner: 'spoken' } }) },
  listMessageWishes: { request: (incident) => ({ params: { householdId: incident.the('household') } }) },
  askOwner: { request: (incident) => ({ params: { itemId: incident.the('item') }, body: { kind: 'other', words: { en: incident.text('Is the lace old?'), es: incident.text('¿Es antiguo el encaje?') } } }) },
  listOwnerQuestions: ofIncident(),
  recordOwnerAnswer: { request: async (incident) => ({ params: { ownerQuestionId: await questionOf(incident) }, body: { answer: 'yes', manner: 'spoken', note: incident.text('Said so') } }) },
  withdrawOwnerQuestion: { request: async (incident) => ({ params: { ownerQuestionId: await questionOf(incident) }, body: {} }) },
  createStatusLink: { request: (incident) => ({ params: ofHousehold(incident), body: { forWhom: incident.text('Son') } }) },
  listStatusLinks: { request: (incident) => ({ params: ofHousehold(incident) }) },
  revokeStatusLink: { request: async (incident) => ({ params: { statusLinkId: (await linkOfFamily(incident)).id }, body: {} }) },
  sendFamilyMessage: {
    request: async (incident) => ({ params: ofHousehold(incident), body: { template: 'ready', itemId: (await incident.newItem()).id } }),
    references: { '#/itemId': { values: (incident) => [incident.the('item')] } },
  },
  listFamilyMessages: { request: (incident) => ({ params: ofHousehold(incident) }) },
  listFamilyMatters: ofIncident(),
  settleFamilyMatter: {
    request: async (incident) => ({ params: { familyMatterId: await matterOf(incident) }, body: { personId: incident.places.person('P1'), settlement: incident.text('Spoke with them') } }),
    references: { '#/personId': { values: (incident) => [incident.places.person('P1')] } },
  },
};
