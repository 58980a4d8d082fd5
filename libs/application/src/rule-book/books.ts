/** The rule book that a network follows. */
import { buildBook, CHOICES, DEFAULT_CALIBRATION, triageOutcome, type Assessment, type Book, type BookChoiceError, type Choice, type Chosen, type TriageContext, type TriageOutcome } from '#care';
import type { RuleBookStore } from '../ports/rule-book-store.js';

/** Option by choice, as somebody wrote it. */
export type WrittenChoices = Readonly<Record<string, string>>;

/** Why one of the choices cannot be made; the choice itself where there is one. */
export interface ChoiceFault {
  choiceId: string;
  reason: BookChoiceError['reason'];
  choice: Choice | null;
}

const CHOICE_BY_ID: ReadonlyMap<string, Choice> = new Map(CHOICES.map((choice) => [choice.id, choice]));

/** Everything that is wrong with the choices, in the order in which they stand; empty when they make a book. */
export function faultsIn(choices: WrittenChoices): ChoiceFault[] {
  return Object.entries(choices).flatMap(([choiceId, optionId]) => {
    const choice = CHOICE_BY_ID.get(choiceId) ?? null;
    const reason = choice === null ? 'unknown-choice' : faultOf(choice, optionId);
    return reason === null ? [] : [{ choiceId, reason, choice }];
  });
}

function faultOf(choice: Choice, optionId: string): ChoiceFault['reason'] | null {
  if (choice.options.every(({ id }) => id !== optionId)) return 'unknown-option';
  return choice.floor && optionId !== choice.default ? 'floor' : null;
}

/** What differs from the default, in the order of the book: two ways of writing the same choices come to the same. */
export function switchedIn(choices: WrittenChoices): Chosen {
  const chosen = new Map(Object.entries(choices));
  return Object.fromEntries(CHOICES.flatMap(({ id, default: usual }) => ((chosen.get(id) ?? usual) === usual ? [] : [[id, chosen.get(id)]])));
}

/** Books kept in memory: a network has one, and compares it with a few. Our own number. */
const BOOKS_KEPT = 64;
const built = new Map<string, Book>();

/** The book with these choices, which must be free of faults. Building one costs milliseconds, so the last ones asked for are kept. */
export function bookWith(choices: WrittenChoices): Book {
  const switched = switchedIn(choices);
  const key = JSON.stringify(switched);
  const book = built.get(key) ?? buildBook({ choices: switched });
  built.delete(key);
  built.set(key, book);
  const [oldest] = built.keys();
  if (built.size > BOOKS_KEPT && oldest !== undefined) built.delete(oldest);
  return book;
}

/** What a network has chosen that this version of the program still knows. What is no choice any more stands at its default: no triage is refused for it. */
export async function choicesInForce(stores: BookSource): Promise<WrittenChoices> {
  const choices = (await stores.ruleBook.inForce())?.choices ?? {};
  const lapsed = new Set(faultsIn(choices).map(({ choiceId }) => choiceId));
  return Object.fromEntries(Object.entries(choices).filter(([choiceId]) => !lapsed.has(choiceId)));
}

/** Where the decision in force is read. */
export interface BookSource {
  ruleBook: Pick<RuleBookStore, 'inForce'>;
}

/** The book that a network follows now. */
export async function bookInForce(stores: BookSource): Promise<Book> {
  return bookWith(await choicesInForce(stores));
}

/** What a book says of one thing. */
export function judge(book: Book, observed: Assessment, context: TriageContext): TriageOutcome {
  return triageOutcome(observed, context, DEFAULT_CALIBRATION, book);
}
