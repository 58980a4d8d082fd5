import type { z } from 'zod';
import { differenceWords, openOf, type DifferenceView, type StockTakeResolutionRecord, type StockTakeScanResult, type StockTakeView } from '#application';
import { render, type Language } from '#care';
import { PROBLEMS, type StockTakeBody, type StockTakeDifferenceBody, type StockTakeResolutionBody, type StockTakeScansBody } from '#contracts';
import { formatTagCode } from '#custody';
import { iso, isoOrNull } from '../../presenters/time.js';

export function presentResolution({ id, differenceId, kind, resolution, personId, reason, resolvedAtMs, eventSeq }: StockTakeResolutionRecord): z.output<typeof StockTakeResolutionBody> {
  return { id, differenceId, kind, resolution, personId, reason, resolvedAt: iso(resolvedAtMs), eventSeq };
}

export function presentStockTake(view: StockTakeView): z.output<typeof StockTakeBody> {
  const { stockTake, result, resolutions } = view;
  const { id, incidentId, siteId, places, state, startedBy, closedBy, version } = stockTake;
  const countOf = (kind: DifferenceView['difference']['kind']) => result.differences.filter((difference) => difference.kind === kind).length;
  return {
    id, incidentId, siteId, places, state, startedAt: iso(stockTake.startedAtMs), startedBy, closedAt: isoOrNull(stockTake.closedAtMs), closedBy, version,
    expected: result.expected, seen: result.seen, inPlace: result.inPlace.length, movedMeanwhile: result.movedMeanwhile.length,
    misplaced: countOf('misplaced'), missing: countOf('missing'), foreign: countOf('foreign'), openDifferences: openOf(view).length, resolutions: resolutions.map(presentResolution),
  };
}

export function presentDifference(view: DifferenceView, language: Language): z.output<typeof StockTakeDifferenceBody> {
  const { difference, tagCode, recorded, settled, resolutions } = view;
  const { id, kind, itemId, scan } = difference;
  return {
    id, kind, state: settled === null ? 'open' : 'settled', itemId, tag: tagCode === '' ? '' : formatTagCode(tagCode), standing: scan?.standing ?? null, recorded, seenPlace: scan?.at ?? null, seenAt: isoOrNull(scan?.seenAtMs ?? null),
    words: render(differenceWords(view), language), resolutions: [...resolutions], settledBy: settled === null ? null : presentResolution(settled),
  };
}

export function presentStockTakeScans(results: readonly StockTakeScanResult[]): z.output<typeof StockTakeScansBody> {
  return {
    results: results.map(({ problem, ...result }) => ({
      ...result,
      problem: problem === null ? null : { code: problem.code, title: PROBLEMS[problem.code].title, status: problem.status, detail: problem.detail, ...(problem.extras.errors && { errors: problem.extras.errors }), ...problem.extras.members },
    })),
  };
}
