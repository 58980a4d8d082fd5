import { blockerInWords, shortageInWords, type PlanSummary } from '#application';
import { render, type Language } from '#care';

type Spoken = Omit<PlanSummary, 'blocked' | 'tight'> & { blocked: (PlanSummary['blocked'][number] & { text: string })[]; tight: (PlanSummary['tight'][number] & { inWords: string })[] };

/** A stored summary with what is short said in a language. Revisions hold codes and names, so that each reader gets their own words. */
export function presentSummary(summary: PlanSummary, language: Language): Spoken {
  return {
    ...summary,
    blocked: summary.blocked.map((tally) => ({ ...tally, text: render(blockerInWords(tally), language) })),
    tight: summary.tight.map((resource) => ({ ...resource, inWords: render(shortageInWords(resource), language) })),
  };
}
