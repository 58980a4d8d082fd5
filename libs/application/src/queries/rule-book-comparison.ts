import { notFound } from '#contracts';
import type { Book, ReleaseName } from '#care';
import type { UseCaseCall } from '../call.js';
import { refuseFaults } from '../commands/choose-rule-book.js';
import type { Stores } from '../ports/work.js';
import { bookInForce, bookAtWork, faultsIn, followed, type WrittenBook, type WrittenChoices } from '../rule-book/books.js';
import type { ComparisonGround } from '../rule-book/comparison.js';

/** Most things that are compared at once, those looked at last; own calibration, some seconds of work. */
export const COMPARED_AT_MOST = 3_000;

/** Both books and the things to compare them over; the comparing itself needs no transaction. */
export interface ComparisonInput {
  before: Book;
  after: Book;
  ground: ComparisonGround;
  /** Things of the incident, compared or not. */
  items: number;
}

/** A book to compare: the release that the network follows when none is named, and choices that are complete. */
export interface BookToCompare {
  release?: ReleaseName;
  choices: WrittenChoices;
}

export interface CompareInput {
  /** The book in force when left out. */
  from?: BookToCompare;
  to: BookToCompare;
  incidentId: string;
}

/** Loads what a comparison of two books needs. @throws Problem not_found, command_refused with every fault of the choices of either */
export async function prepareComparison(stores: Stores, call: UseCaseCall, { from, to, incidentId }: CompareInput): Promise<ComparisonInput> {
  const incident = await stores.places.incident(incidentId);
  if (!incident) throw notFound('incident');
  const { release } = await followed(stores);
  const [before, after] = [from && written(from, release), written(to, release)];
  refuseFaults([...(before ? [{ ...before, pointer: '#/from/choices', faults: faultsIn(before) }] : []), { ...after, pointer: '#/to/choices', faults: faultsIn(after) }]);
  const { things, items } = await stores.assessments.lastSeen(incident.id, COMPARED_AT_MOST);
  return { before: before ? await bookAtWork(stores, before) : await bookInForce(stores), after: await bookAtWork(stores, after), ground: { things, incident, nowMs: call.env.nowMs }, items };
}

const written = ({ release, choices }: BookToCompare, followedNow: ReleaseName): WrittenBook => ({ release: release ?? followedNow, choices });
