import { choicesOf, type Book } from '#care';

/** A marked choice that stands elsewhere than before; null where a release does not have it. */
export interface ChoiceMoved {
  choiceId: string;
  before: string | null;
  after: string | null;
}

/** What a decision changed in the rules and choices that a network follows. */
export interface BookChange {
  before: Book;
  after: Book;
  /** Rules by their ids. */
  added: string[];
  withdrawn: string[];
  altered: string[];
  choices: ChoiceMoved[];
}

/** Compares two books rule by rule, whatever made them differ: another release, or another side of a choice. */
export function bookChange(before: Book, after: Book): BookChange {
  const [was, is] = [before, after].map(({ rules }) => new Map(rules.map((rule) => [rule.id, rule]))) as [Map<string, unknown>, Map<string, unknown>];
  return {
    before, after,
    added: [...is.keys()].filter((id) => !was.has(id)),
    withdrawn: [...was.keys()].filter((id) => !is.has(id)),
    altered: [...is.keys()].filter((id) => was.has(id) && was.get(id) !== is.get(id)),
    choices: choicesMoved(before, after),
  };
}

function choicesMoved(before: Book, after: Book): ChoiceMoved[] {
  const ids = new Set([...choicesOf(before.release), ...choicesOf(after.release)].map(({ id }) => id));
  return [...ids].map((choiceId) => ({ choiceId, before: before.choices[choiceId] ?? null, after: after.choices[choiceId] ?? null })).filter((moved) => moved.before !== moved.after);
}
