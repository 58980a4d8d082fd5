import type { z } from 'zod';
import { type ItemSearch, matterWords, whereWords } from '#application';
import { render, type Language } from '#care';
import type { ItemHitBody, ItemSearchBody } from '#contracts';
import { formatTagCode } from '#custody';
import { presentMatters } from '../../presenters/matters.presenter.js';
import { iso } from '../../presenters/time.js';

export function presentSearch({ hits, more }: ItemSearch, language: Language): z.output<typeof ItemSearchBody> {
  return { hits: hits.map((hit) => presentHit(hit, language)), more };
}

function presentHit({ foundBy, thing }: ItemSearch['hits'][number], language: Language): z.output<typeof ItemHitBody> {
  const { itemId, description, householdId, householdCode, photographRef, photographedOn, stage, version, steps } = thing;
  return {
    foundBy, itemId, tag: formatTagCode(thing.tagCode), description, householdId, householdCode, photographRef, photographedOn, stage,
    where: whereWords(steps).map((message) => render(message, language)).join(' '),
    way: steps.map(({ keeper, code, name, siteName }) => ({ keeper, code: keeper.kind === 'container' && code !== '' ? formatTagCode(code) : code, name, site: siteName })),
    warnings: matterWords(thing.matters).map((message) => render(message, language)),
    since: iso(thing.sinceMs), lastSeenAt: iso(thing.lastSeenAtMs), ...presentMatters(thing.matters), version,
  };
}
