/** The rule book that a network follows: a release with the sides of its marked choices. */
import {
  buildBook, choicesOf, DEFAULT_CALIBRATION, NEWEST_RELEASE, RELEASES, triageOutcome,
  type Assessment, type Book, type BookChoiceError, type Choice, type Chosen, type ReleaseName, type TriageContext, type TriageOutcome,
} from '#care';
import { careCalibrationInForce, type CalibrationSource } from '../calibration/in-force.js';
import type { RuleBookDecision, RuleBookStore } from '../ports/rule-book-store.js';

/** Option by choice, as somebody wrote it. */
export type WrittenChoices = Readonly<Record<string, string>>;

/** A release with choices, as somebody wrote them. */
export interface WrittenBook {
  release: ReleaseName;
  choices: WrittenChoices;
}

/** Why one of the choices cannot be made; the choice itself where there is one. */
export interface ChoiceFault {
  choiceId: string;
  reason: BookChoiceError['reason'];
  choice: Choice | null;
}

/** Everything that is wrong with the choices, in the order in which they stand; empty when they make a book of the release. */
export function faultsIn({ release, choices }: WrittenBook): ChoiceFault[] {
  const known: ReadonlyMap<string, Choice> = new Map(choicesOf(release).map((choice) => [choice.id, choice]));
  return Object.entries(choices).flatMap(([choiceId, optionId]) => {
    const choice = known.get(choiceId) ?? null;
    const reason = choice === null ? 'unknown-choice' : faultOf(choice, optionId);
    return reason === null ? [] : [{ choiceId, reason, choice }];
  });
}

function faultOf(choice: Choice, optionId: string): ChoiceFault['reason'] | null {
  if (choice.options.every(({ id }) => id !== optionId)) return 'unknown-option';
  return choice.floor && optionId !== choice.default ? 'floor' : null;
}

/** What differs from the default, in the order of the book: two ways of writing the same choices come to the same. */
export function switchedIn({ release, choices }: WrittenBook): Chosen {
  const chosen = new Map(Object.entries(choices));
  return Object.fromEntries(choicesOf(release).flatMap(({ id, default: usual }) => ((chosen.get(id) ?? usual) === usual ? [] : [[id, chosen.get(id)]])));
}

/** Books kept in memory: a network has one, and compares it with a few. Our own number. */
const BOOKS_KEPT = 64;
const built = new Map<string, Book>();

/** The book of this release with these choices, which must be free of faults. Building one costs milliseconds, so the last ones asked for are kept. */
export function bookWith(written: WrittenBook): Book {
  const { release } = written;
  const choices = switchedIn(written);
  const key = JSON.stringify([release, choices]);
  const book = built.get(key) ?? buildBook({ release, choices });
  built.delete(key);
  built.set(key, book);
  const [oldest] = built.keys();
  if (built.size > BOOKS_KEPT && oldest !== undefined) built.delete(oldest);
  return book;
}

/** What a network follows, as far as this version of the program knows it. */
export interface Followed extends WrittenBook {
  decision: RuleBookDecision | null;
  /** Choices of the decision that the release does not have: they stand at their default, and no triage is refused for them. */
  lapsed: string[];
  /** A release that this version of the program does not hold: the newest stands in its place. */
  lapsedRelease: string | null;
}

const held = (name: string): ReleaseName | null => RELEASES.find((release) => release === name) ?? null;

/** Where it is read what a network follows. */
export interface BookSource {
  ruleBook: Pick<RuleBookStore, 'inForce' | 'startedWith'>;
}

/** What the network follows now; with a release, what it would follow if it only went over to that. */
export async function followed({ ruleBook }: BookSource, wanted?: ReleaseName | null): Promise<Followed> {
  const decision = await ruleBook.inForce();
  const named = wanted ?? decision?.release ?? (await ruleBook.startedWith());
  const release = held(named) ?? NEWEST_RELEASE;
  const all = decision?.choices ?? {};
  const lapsed = new Set(faultsIn({ release, choices: all }).map(({ choiceId }) => choiceId));
  const choices = Object.fromEntries(Object.entries(all).filter(([choiceId]) => !lapsed.has(choiceId)));
  return { release, choices, decision, lapsed: [...lapsed], lapsedRelease: release === named ? null : named };
}

/** The book as the network works with it: its own numbers below those of the choices. */
export async function bookAtWork(stores: CalibrationSource, written: WrittenBook): Promise<Book> {
  const book = bookWith(written);
  const numbers = await careCalibrationInForce(stores);
  if (numbers === DEFAULT_CALIBRATION) return book;
  return { ...book, calibrate: (given) => book.calibrate(given === DEFAULT_CALIBRATION ? numbers : given) };
}

/** The book that a network follows now. */
export async function bookInForce(stores: BookSource & CalibrationSource): Promise<Book> {
  return bookAtWork(stores, await followed(stores));
}

/** The book of a release with what the network has chosen, as far as the release has it; the book in force when none is named. */
export async function bookOfRelease(stores: BookSource & CalibrationSource, release: ReleaseName | null): Promise<Book> {
  return bookAtWork(stores, await followed(stores, release));
}

/** What a book says of one thing. */
export function judge(book: Book, observed: Assessment, context: TriageContext): TriageOutcome {
  return triageOutcome(observed, context, DEFAULT_CALIBRATION, book);
}
