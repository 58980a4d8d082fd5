import { WAY_WORDS, type Book, type Disposition, type DispositionOption, type Reason, type TriageOutcome } from '#care';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { momentOf, refuseNoLead } from '../care/claims.js';
import { triageAnew, triageContextOf } from '../care/retriage.js';
import { latestTriageOf, lockOpenItem, standingOf, workSoFar } from '../care/standing.js';
import { viewOf, type TriageView } from '../care/triage-view.js';
import { choiceReason } from '../planning/plan-reasons.js';
import { requestPlan } from '../planning/request-plan.js';
import type { OverrideRecord } from '../ports/assessment-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';
import { barsAgainst } from '../rule-book/bars.js';
import { bookInForce, judge } from '../rule-book/books.js';

export interface OverrideDispositionInput {
  itemId: string;
  disposition: Disposition;
  reason: string;
  personId: string;
  decidedAtMs: number | null;
}

/** A lead chooses another way than triage puts first, with a reason that stays on record; only among the ways that the rule book offers. */
export async function overrideDisposition(stores: Stores, call: UseCaseCall, input: OverrideDispositionInput): Promise<TriageView> {
  const item = await lockOpenItem(stores, input.itemId);
  await refuseNoLead(stores, { incidentId: item.incidentId, personId: input.personId, may: 'choose against triage. Ask a lead to decide.' });
  const decidedAtMs = momentOf(call, input.decidedAtMs, '#/decidedAt');
  const standing = await standingOf(stores, item);
  // By the clocks of this moment: a choice must not rest on what was true yesterday.
  const book = await bookInForce(stores);
  const outcome = judge(book, standing.assessment.observed, await triageContextOf(stores, call, item.incidentId, standing.done));
  const option = offered(book, outcome, input.disposition);
  await refuseAgainstOwner(stores, item, option);
  const before = { triage: await latestTriageOf(stores, item), assessment: standing.assessment };
  const override: OverrideRecord = {
    id: call.env.newId(), incidentId: item.incidentId, itemId: item.id, disposition: input.disposition, reason: input.reason, decidedBy: input.personId, decidedAtMs,
    insteadOf: outcome.options[0]?.disposition ?? null, ruleBookVersion: book.version, openNeeds: option.needs,
  };
  await stores.assessments.insertOverride(override);
  const triaged = await triageAnew(stores, call, item, standing.assessment, { ...workSoFar(standing), chosen: input.disposition });
  if (item.disposition !== input.disposition) await requestPlan(stores, call, item.incidentId, choiceReason(input.disposition));
  return viewOf(triaged, override, before);
}

/** The option of the rule book, or why there is none: the safety floors are not for a lead to lift. */
function offered(book: Book, outcome: TriageOutcome, disposition: Disposition): DispositionOption {
  const option = outcome.options.find((candidate) => candidate.disposition === disposition);
  if (option) return option;
  const bars = barsAgainst(book, outcome, disposition);
  const why = bars.length > 0 ? tellBars(bars) : 'No rule offers it for such a thing in this state.';
  const open = outcome.options.map((candidate) => `\`${candidate.disposition}\``).join(', ');
  throw new Problem('command_refused', `The rule book does not allow ${WAY_WORDS[disposition].text}. ${why} Open are: ${open}.`, {
    errors: [{ detail: why, code: 'disposition_not_offered', pointer: '#/disposition' }],
    members: { barredBy: bars.map(({ ruleId, text, source, floor }) => ({ ruleId, text, source, floor })), offered: outcome.options.map((candidate) => candidate.disposition) },
  });
}

function tellBars(bars: readonly (Reason & { floor: boolean })[]): string {
  const why = bars.map((reason) => reason.text).join(' ');
  const floors = bars.filter(({ floor }) => floor).map(({ ruleId }) => `\`${ruleId}\``);
  return floors.length === 0 ? why : `${why} Safety floors that no lead lifts: ${floors.join(', ')}.`;
}

const CONSENT_FOR = { treat: 'treat', 'hold-wet': 'treat', 'hold-frozen': 'freeze', refer: 'refer', release: 'release' } as const satisfies Record<Disposition, string>;

/** An owner's no is not for a lead to lift either, and nothing is let go on silence. */
async function refuseAgainstOwner(stores: Stores, item: ItemRecord, option: DispositionOption): Promise<void> {
  const scope = CONSENT_FOR[option.disposition];
  const { consents } = await stores.consents.inForce(item.householdId, item.id);
  if (consents[scope] === false) throw new Problem('consent_missing', `The owner has refused to let us ${scope} it. A lead cannot decide against that; ask the owner again and record the answer.`, { members: { scope } });
  if (scope === 'release' && consents.release !== true) throw new Problem('consent_missing', "Nothing is let go without the owner's recorded agreement, item by item. Ask about this one and record the answer with its `itemId` first.", { members: { scope } });
}
