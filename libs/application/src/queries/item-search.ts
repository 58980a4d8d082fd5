import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { Whereabouts } from '../ports/where-store.js';
import type { Stores } from '../ports/work.js';
import { QUESTION_WORDS, readQuestion, type Question } from '../where/question.js';

/** By what a thing was found; the first that holds. */
export const FOUND_BY = ['tag', 'nearest-tag', 'household', 'words'] as const;
export type FoundBy = (typeof FOUND_BY)[number];

export interface ItemSearch {
  hits: { foundBy: FoundBy; thing: Whereabouts }[];
  /** There may be more: one word more makes it clearer. */
  more: boolean;
}

/**
 * "Where is it?": everything that a question may mean, in one answer. A tag comes first, then tags one slip away, then a household's
 * things, then words and days. The looks are bounded, so a question costs the same in a large incident. @throws Problem not_found
 */
export async function searchItems(stores: Stores, _call: UseCaseCall, input: { incidentId: string; asked: string; limit: number }): Promise<ItemSearch> {
  const { incidentId, limit } = input;
  if (!(await stores.places.incident(incidentId))) throw notFound('incident');
  const question = readQuestion(input.asked);
  const found = new Map<string, FoundBy>();
  let more = false;
  const add = (by: FoundBy, ids: readonly string[]) => {
    for (const id of ids) if (!found.has(id)) found.set(id, by);
  };
  const codes = question.tag === null ? question.nearest : [question.tag];
  const tags = codes.length === 0 ? [] : await stores.tags.known(codes, incidentId);
  const byCode = new Map(tags.map((tag) => [tag.code, tag.itemId]));
  add(question.tag === null ? 'nearest-tag' : 'tag', codes.flatMap((code) => byCode.get(code) ?? []));
  if (question.tag === null) {
    const household = await stores.where.byHousehold(incidentId, question.householdCodes, limit);
    add('household', household.itemIds);
    const words = await stores.where.byWords(incidentId, await groupsOf(stores, question), limit);
    add('words', words.itemIds);
    more = household.more || words.more;
  }
  const ids = [...found.keys()];
  const things = await stores.where.whereabouts(incidentId, ids.slice(0, limit));
  return { hits: things.map((thing) => ({ foundBy: found.get(thing.itemId) ?? 'words', thing })), more: more || ids.length > limit };
}

async function groupsOf(stores: Stores, question: Question): Promise<string[][]> {
  const words = question.rest.trim() === '' ? [] : await stores.where.words(question.rest);
  return [...question.days, ...words.map((word) => [word])].slice(0, QUESTION_WORDS);
}

