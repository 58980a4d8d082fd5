import type { z } from 'zod';
import type { OrderEstimate, PrecedenceView, Rank } from '#application';
import { render, startByInWords, type Language } from '#care';
import type { OrderEstimateBody, PrecedenceBody } from '#contracts';
import { iso } from './time.js';

export function presentPrecedence({ atMs, decision, because, first, second }: PrecedenceView, language: Language): z.output<typeof PrecedenceBody> {
  const side = ({ itemId, ...rank }: PrecedenceView['first']) => ({ itemId, tag: rank.item.id, ...presentRank(rank, atMs, language) });
  return { at: iso(atMs), decidedBy: decision.by, inWords: render(because, language), first: side(first), second: side(second) };
}

export function presentOrder({ atMs, ruleBookVersion, places }: OrderEstimate, language: Language): z.output<typeof OrderEstimateBody> {
  return {
    estimatedAt: iso(atMs), ruleBookVersion,
    items: places.map(({ before, ...rank }) => ({ id: rank.item.id, ...presentRank(rank, atMs, language), beforeNext: before === null ? null : { decidedBy: before.decision.by, inWords: render(before.because, language) } })),
  };
}

function presentRank({ item, slackMin, irreversibility }: Rank, atMs: number, language: Language) {
  const { startByMs, binding, significance, onlyCopy, arrivedAtMs } = item;
  return { startBy: iso(startByMs), startByInWords: render(startByInWords(startByMs, atMs), language), slackMin, binding, irreversibility, significance, onlyCopy, arrivedAt: iso(arrivedAtMs) };
}
