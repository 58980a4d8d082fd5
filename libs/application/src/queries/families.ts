/** What stands between us and a family: questions, links, messages and what a person must see to. */
import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { openWords, type QuestionView } from '../commands/ask-owner.js';
import { settlementField, type MatterView } from '../commands/settle-family-matter.js';
import { linkView, type LinkView } from '../commands/status-links.js';
import type { FamilyMessageRecord } from '../ports/family-message-store.js';
import type { QuestionState } from '../ports/owner-question-store.js';
import type { Stores } from '../ports/work.js';

/** Messages that a household's list shows, newest first. */
const MESSAGES_SHOWN = 200;

export async function listOwnerQuestions(stores: Stores, _call: UseCaseCall, input: { incidentId: string; state: QuestionState | null; limit: number; after: string | null }): Promise<QuestionView[]> {
  if (!(await stores.places.incident(input.incidentId))) throw notFound('incident');
  const views: QuestionView[] = [];
  for (const question of await stores.ownerQuestions.page(input.incidentId, input.state, input.limit, input.after)) views.push(await openWords(stores, question));
  return views;
}

export async function listFamilyMatters(stores: Stores, _call: UseCaseCall, input: { incidentId: string; settled: boolean; limit: number; after: string | null }): Promise<MatterView[]> {
  if (!(await stores.places.incident(input.incidentId))) throw notFound('incident');
  const matters = await stores.familyMatters.page(input.incidentId, input.settled, input.limit, input.after);
  const texts = await stores.personal.openAll(matters.map(({ id, householdId, settlement }) => ({ householdId, field: settlementField(id), sealed: settlement })));
  return matters.map((matter, index) => ({ matter, settlement: texts[index] ?? '' }));
}

export async function listStatusLinks(stores: Stores, _call: UseCaseCall, input: { householdId: string }): Promise<LinkView[]> {
  if (!(await stores.households.find(input.householdId))) throw notFound('household');
  const views: LinkView[] = [];
  for (const link of await stores.statusLinks.ofHousehold(input.householdId)) views.push(await linkView(stores, link));
  return views;
}

export async function listFamilyMessages(stores: Stores, _call: UseCaseCall, input: { householdId: string }): Promise<FamilyMessageRecord[]> {
  if (!(await stores.households.find(input.householdId))) throw notFound('household');
  return stores.familyMessages.ofHousehold(input.householdId, MESSAGES_SHOWN);
}
