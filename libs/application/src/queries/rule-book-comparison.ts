import { notFound } from '#contracts';
import type { Book } from '#care';
import type { UseCaseCall } from '../call.js';
import { refuseFaults } from '../commands/choose-rule-book.js';
import type { Stores } from '../ports/work.js';
import { bookInForce, bookWith, faultsIn, type WrittenChoices } from '../rule-book/books.js';
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

/** Loads what a comparison of the book in force with another one needs. @throws Problem not_found, command_refused with every fault of the choices */
export async function prepareComparison(stores: Stores, call: UseCaseCall, input: { choices: WrittenChoices; incidentId: string }): Promise<ComparisonInput> {
  const incident = await stores.places.incident(input.incidentId);
  if (!incident) throw notFound('incident');
  refuseFaults(faultsIn(input.choices));
  const { things, items } = await stores.assessments.lastSeen(incident.id, COMPARED_AT_MOST);
  return { before: await bookInForce(stores), after: bookWith(input.choices), ground: { things, incident, nowMs: call.env.nowMs }, items };
}
