import type { Book, Disposition, Reason, TriageOutcome } from '#care';

/** The reasons of an outcome that close a way, and whether they are safety floors. Empty where nothing closes it but nothing offers it either. */
export function barsAgainst(book: Book, outcome: TriageOutcome, disposition: Disposition): (Reason & { floor: boolean })[] {
  const closing = new Map(book.rules.filter(({ concludes }) => concludes.some((conclusion) => conclusion.kind === 'bar' && conclusion.disposition === disposition)).map((rule) => [rule.id, rule]));
  return outcome.reasons.flatMap((reason) => {
    const rule = closing.get(reason.ruleId);
    return rule === undefined ? [] : [{ ...reason, floor: rule.floor === true }];
  });
}
