import type { ReleaseName } from '#care';
import { Problem, type ProblemError } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { refuseNoLead } from '../care/claims.js';
import type { RuleBookChoiceRecord, RuleBookDecision } from '../ports/rule-book-store.js';
import type { Stores } from '../ports/work.js';
import { bookChange, type BookChange } from '../rule-book/book-change.js';
import { bookWith, faultsIn, followed, switchedIn, type ChoiceFault, type WrittenBook, type WrittenChoices } from '../rule-book/books.js';
import { staleVersion } from './change-versioned.js';

export interface ChooseRuleBookInput {
  /** The release to follow; left out for the one that is followed now. */
  release?: ReleaseName;
  /** Complete: what is left out stands at its default. */
  choices: WrittenChoices;
  reason: string;
  /** The lead who answers for it; of any incident of the network. */
  personId: string;
  /** Number of the decision that its reader saw, 0 for none. */
  expectedNumber: number;
}

/** The decision that is in force now, and what it changed. */
export interface RuleBookChosen {
  decision: RuleBookDecision;
  change: BookChange;
}

/**
 * Records which release of the rule book a network follows from now on, and which sides of its marked choices. Everything that
 * is still here is triaged anew by the worker, incident by incident.
 */
export async function chooseRuleBook(stores: Stores, call: UseCaseCall, input: ChooseRuleBookInput): Promise<RuleBookChosen> {
  if (call.context.incidentLimit !== null) throw new Problem('scope_missing', 'Your key is limited to one incident, and the rule book is followed by the whole network. Use a key of the whole network.');
  const before = await followed(stores);
  const number = before.decision?.number ?? 0;
  if (number !== input.expectedNumber) throw staleVersion('rule book', number);
  const wanted: WrittenBook = { release: input.release ?? before.release, choices: input.choices };
  refuseFaults([{ ...wanted, pointer: '#/choices', faults: faultsIn(wanted) }]);
  await refuseNoLead(stores, { incidentId: null, personId: input.personId, may: 'change the rule book that the network follows. Ask a lead to decide.' });
  const record = toRecord(call, input, wanted, number + 1);
  // Somebody was faster between the reading above and the writing.
  if (!(await stores.ruleBook.append(record))) throw staleVersion('rule book', record.number);
  for (const incidentId of await stores.ruleBook.openIncidents()) {
    await stores.outbox.append({ id: call.env.newId(), incidentId, kind: 'rule_book.chosen', subjectId: record.id, traceparent: call.context.traceparent });
  }
  const decision = await stores.ruleBook.inForce();
  if (decision === null) throw new Error('a decision that was written cannot be read');
  return { decision, change: bookChange(bookWith(before), bookWith(wanted)) };
}

function toRecord(call: UseCaseCall, input: ChooseRuleBookInput, wanted: WrittenBook, number: number): RuleBookChoiceRecord {
  return {
    id: call.env.newId(), number, release: wanted.release, choices: switchedIn(wanted) as Record<string, string>, version: bookWith(wanted).version,
    reason: input.reason, decidedBy: input.personId, decidedAtMs: call.env.nowMs, principalId: call.context.principalId,
  };
}

/** The faults of the choices of one book, and where these choices stand in the body. */
export interface FaultyChoices {
  release: ReleaseName;
  pointer: string;
  faults: readonly ChoiceFault[];
}

/** Every fault at once, by its place in the body. @throws Problem command_refused */
export function refuseFaults(books: readonly FaultyChoices[]): void {
  const faults = books.flatMap((book) => book.faults);
  if (faults.length === 0) return;
  const errors = books.flatMap(({ release, pointer, faults: own }) => own.map((fault): ProblemError => ({ ...FAULT[fault.reason](fault, release), pointer: `${pointer}/${escaped(fault.choiceId)}` })));
  const floors = faults.filter(({ reason }) => reason === 'floor').map(({ choiceId }) => `\`${choiceId}\``);
  const about = floors.length === 0 ? '' : ` A safety floor is not a network's to switch: ${floors.join(', ')}.`;
  throw new Problem('command_refused', `${faults.length === 1 ? 'One choice cannot' : `${faults.length} choices cannot`} be made; see errors. Nothing was changed.${about}`, { errors });
}

const FAULT: Readonly<Record<ChoiceFault['reason'], (fault: ChoiceFault, release: ReleaseName) => Omit<ProblemError, 'pointer'>>> = {
  'unknown-choice': (_fault, release) => ({ detail: `is no choice of release ${release}; GET /v1/rulebook?release=${release} lists them`, code: 'choice_unknown' }),
  'unknown-option': ({ choice }, release) => ({ detail: `has no such option in release ${release}; there are ${choice?.options.map(({ id }) => `\`${id}\``).join(', ')}`, code: 'option_unknown' }),
  floor: ({ choice }) => ({ detail: `is a safety floor and stays at \`${choice?.default}\``, code: 'safety_floor' }),
};

/** A member's name in a JSON Pointer (RFC 6901, section 3). */
function escaped(name: string): string {
  return name.replaceAll('~', '~0').replaceAll('/', '~1');
}
