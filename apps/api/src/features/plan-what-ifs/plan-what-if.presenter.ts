import type { z } from 'zod';
import { cautionsOf, changesInWords, helpInWords, type PlanWhatIfResult, type PlanWhatIfView, type StoredValue, valueInWords, type WhatIfLayout } from '#application';
import { render, say, type Language } from '#care';
import { formatTagCode } from '#custody';
import type { PlanWhatIfBody } from '#contracts';
import { iso, isoOrNull } from '../../presenters/time.js';

const RECKONED = say('Reckoned from the rows as they stood then, by planning with and without each change; never promised. Different searches give different plans, so a value is a band. Weights are our own calibration. People, safety and local codes come before any number here; a trained lead decides.');

type Body = z.output<typeof PlanWhatIfBody>;
type Result = NonNullable<Body['result']>;
type Labels = PlanWhatIfView['labels'];

/** `layout` is null for one that has no result yet. */
export function presentPlanWhatIf({ whatIf, layout, labels }: Omit<PlanWhatIfView, 'layout'> & { layout: WhatIfLayout | null }, language: Language): Body {
  return {
    id: whatIf.id, incidentId: whatIf.incidentId, state: whatIf.state, requestedAt: iso(whatIf.requestedAtMs), startedAt: isoOrNull(whatIf.startedAtMs), finishedAt: isoOrNull(whatIf.finishedAtMs),
    plansDone: whatIf.plansDone, plansInAll: whatIf.plansInAll, itemId: whatIf.itemId, failure: whatIf.failure && render(whatIf.failure, language),
    result: whatIf.result === null || layout === null ? null : presentResult(whatIf.result, whatIf.itemId, layout, labels, language),
  };
}

function presentResult(result: PlanWhatIfResult, itemId: string | null, layout: WhatIfLayout, labels: Labels, language: Language): Result {
  const { asOfMs, values, item, hours, ...numbers } = result;
  return {
    asOf: iso(asOfMs), ...numbers,
    values: values.map((value) => presentValue(value, hours, layout, labels, language)),
    item: item === null || itemId === null ? null : {
      itemId, tag: tagOf(itemId, labels), unchangedRuns: item.unchangedSeeds, changedRuns: item.changedSeeds, smallest: item.smallest,
      inWords: render(helpInWords(tagOf(itemId, labels), item, result, layout), language),
    },
    standing: render(RECKONED, language),
  };
}

function presentValue(value: StoredValue, hours: PlanWhatIfResult['hours'], layout: WhatIfLayout, labels: Labels, language: Language): Result['values'][number] {
  const turned = (items: StoredValue['saved']) => items.map(({ itemId, weight, seeds }) => ({ itemId, tag: tagOf(itemId, labels), description: labels.get(itemId)?.description ?? '', weight, runs: seeds }));
  return {
    changes: value.changes, inWords: render(changesInWords(value.changes, layout), language), weightSaved: value.weightSaved, savedItems: value.savedItems, lostItems: value.lostItems,
    saved: turned(value.saved), lost: turned(value.lost), valueInWords: render(valueInWords(value), language), cautions: cautionsOf(value.changes, hours).map((caution) => render(caution, language)),
  };
}

function tagOf(itemId: string, labels: Labels): string {
  const label = labels.get(itemId);
  return label === undefined ? itemId : formatTagCode(label.tagCode);
}
