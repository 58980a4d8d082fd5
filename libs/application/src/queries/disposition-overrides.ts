import type { Book, Disposition, Reason } from '#care';
import { notFound } from '#contracts';
import { TERMINAL_STAGES } from '#custody';
import type { UseCaseCall } from '../call.js';
import { doneAmong } from '../care/done-steps.js';
import { overrideInForce } from '../care/standing.js';
import type { OverrideView, SeenThing } from '../ports/assessment-store.js';
import type { IncidentFacts } from '../ports/place-store.js';
import type { Stores } from '../ports/work.js';
import { barsAgainst } from '../rule-book/bars.js';
import { bookInForce, judge } from '../rule-book/books.js';

/** `agrees`: it puts this way first too. `differs`: it allows it and puts another one first. `barred`: it does not allow it. */
export type Verdict = 'agrees' | 'differs' | 'barred';

/** A lead's choice beside what the rule book says of the thing now. */
export interface OverrideReview {
  override: OverrideView;
  /** Nothing has happened since that ends it, and no later choice was made. */
  stands: boolean;
  verdict: Verdict;
  /** The way that the rule book puts first now. */
  firstNow: Disposition;
  ruleBookVersion: string;
  /** Why the way is barred; empty otherwise, and where nothing offers it. */
  barredBy: (Reason & { floor: boolean })[];
}

/** What leads chose against the rule book in an incident, newest first, and what it says today. */
export async function listDispositionOverrides(stores: Stores, call: UseCaseCall, input: { incidentId: string; limit: number; before: string | null }): Promise<OverrideReview[]> {
  const incident = await stores.places.incident(input.incidentId);
  if (!incident) throw notFound('incident');
  const overrides = await stores.assessments.overridePage(incident.id, input.limit, input.before);
  const things = new Map((await stores.assessments.lastSeenOf(overrides.map(({ itemId }) => itemId))).map((thing) => [thing.itemId, thing]));
  const book = await bookInForce(stores);
  return overrides.map((override) => review(override, things.get(override.itemId), { book, incident, nowMs: call.env.nowMs }));
}

interface Today {
  book: Book;
  incident: IncidentFacts;
  nowMs: number;
}

/** What has left is judged as of the day it was last looked at. */
function review(override: OverrideView, thing: SeenThing | undefined, { book, incident, nowMs }: Today): OverrideReview {
  if (thing === undefined) throw new Error('an item that was never assessed');
  const gone = TERMINAL_STAGES.includes(thing.stage);
  const outcome = judge(book, thing.observed, { nowMs: gone ? thing.assessedAtMs : nowMs, floodAtMs: incident.floodAtMs, airTempC: incident.outdoorAirTempC, doneSteps: gone ? [] : [...doneAmong(thing.results)] });
  const firstNow = outcome.options[0]?.disposition ?? 'refer';
  const offered = outcome.options.some(({ disposition }) => disposition === override.disposition);
  return {
    override, firstNow, ruleBookVersion: book.version,
    stands: override.isLatest && !gone && overrideInForce(override, thing.results) !== null,
    verdict: firstNow === override.disposition ? 'agrees' : offered ? 'differs' : 'barred',
    barredBy: offered ? [] : barsAgainst(book, outcome, override.disposition),
  };
}
