import { Problem, type ProblemError } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { unknownReference } from '../care/claims.js';
import type { RuleBookChoiceRecord, RuleBookDecision } from '../ports/rule-book-store.js';
import type { Stores } from '../ports/work.js';
import { bookWith, faultsIn, switchedIn, type ChoiceFault, type WrittenChoices } from '../rule-book/books.js';
import { staleVersion } from './change-versioned.js';

export interface ChooseRuleBookInput {
  /** Complete: what is left out stands at its default. */
  choices: WrittenChoices;
  reason: string;
  /** The lead who answers for it; of any incident of the network. */
  personId: string;
  /** Number of the decision that its reader saw, 0 for none. */
  expectedNumber: number;
}

/**
 * Records which sides of the marked choices a network follows from now on. Everything that is still here is triaged anew by the
 * worker, incident by incident.
 */
export async function chooseRuleBook(stores: Stores, call: UseCaseCall, input: ChooseRuleBookInput): Promise<RuleBookDecision> {
  if (call.context.incidentLimit !== null) throw new Problem('scope_missing', 'Your key is limited to one incident, and the rule book is followed by the whole network. Use a key of the whole network.');
  const before = (await stores.ruleBook.inForce())?.number ?? 0;
  if (before !== input.expectedNumber) throw staleVersion('rule book', before);
  refuseFaults(faultsIn(input.choices));
  await refuseNoLead(stores, input.personId);
  const record = toRecord(call, input, before + 1);
  // Somebody was faster between the reading above and the writing.
  if (!(await stores.ruleBook.append(record))) throw staleVersion('rule book', record.number);
  for (const incidentId of await stores.ruleBook.openIncidents()) {
    await stores.outbox.append({ id: call.env.newId(), incidentId, kind: 'rule_book.chosen', subjectId: record.id, traceparent: call.context.traceparent });
  }
  const decided = await stores.ruleBook.inForce();
  if (decided === null) throw new Error('a decision that was written cannot be read');
  return decided;
}

function toRecord(call: UseCaseCall, input: ChooseRuleBookInput, number: number): RuleBookChoiceRecord {
  return {
    id: call.env.newId(), number, choices: switchedIn(input.choices) as Record<string, string>, version: bookWith(input.choices).version,
    reason: input.reason, decidedBy: input.personId, decidedAtMs: call.env.nowMs, principalId: call.context.principalId,
  };
}

/** Every fault at once, by its place under `choices` of the body. @throws Problem command_refused */
export function refuseFaults(faults: readonly ChoiceFault[]): void {
  if (faults.length === 0) return;
  const errors: ProblemError[] = faults.map((fault) => ({ ...FAULT[fault.reason](fault), pointer: `#/choices/${escaped(fault.choiceId)}` }));
  const floors = faults.filter(({ reason }) => reason === 'floor').map(({ choiceId }) => `\`${choiceId}\``);
  const about = floors.length === 0 ? '' : ` A safety floor is not a network's to switch: ${floors.join(', ')}.`;
  throw new Problem('command_refused', `${faults.length === 1 ? 'One choice cannot' : `${faults.length} choices cannot`} be made; see errors. Nothing was changed.${about}`, { errors });
}

const FAULT: Readonly<Record<ChoiceFault['reason'], (fault: ChoiceFault) => Omit<ProblemError, 'pointer'>>> = {
  'unknown-choice': () => ({ detail: 'is no choice of the rule book; GET /v1/rulebook lists them', code: 'choice_unknown' }),
  'unknown-option': ({ choice }) => ({ detail: `has no such option; there are ${choice?.options.map(({ id }) => `\`${id}\``).join(', ')}`, code: 'option_unknown' }),
  floor: ({ choice }) => ({ detail: `is a safety floor and stays at \`${choice?.default}\``, code: 'safety_floor' }),
};

/** A member's name in a JSON Pointer (RFC 6901, section 3). */
function escaped(name: string): string {
  return name.replaceAll('~', '~0').replaceAll('/', '~1');
}

async function refuseNoLead(stores: Stores, personId: string): Promise<void> {
  const person = await stores.places.person(personId);
  if (!person) throw unknownReference('person', '#/personId');
  if (person.skills.includes('lead')) return;
  throw new Problem('command_refused', 'Only a person with the skill `lead` may switch a choice of the rule book. Ask a lead to decide.', { errors: [{ detail: 'does not have the skill lead', code: 'not_a_lead', pointer: '#/personId' }] });
}
