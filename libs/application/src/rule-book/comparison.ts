import { setImmediate as nextTurn } from 'node:timers/promises';
import { compareBooks, COMPARED, type Book, type BookComparison, type Compared, type Difference } from '#care';
import { TERMINAL_STAGES } from '#custody';
import { doneAmong } from '../care/done-steps.js';
import type { SeenThing } from '../ports/assessment-store.js';
import type { IncidentFacts } from '../ports/place-store.js';

/** Assessments that are compared before others have their turn: some tens of milliseconds. Our own calibration. */
const PER_TURN = 24;

/** Where both books are put to the test. */
export interface ComparisonGround {
  things: readonly SeenThing[];
  incident: Pick<IncidentFacts, 'floodAtMs' | 'outdoorAirTempC'>;
  nowMs: number;
}

/** How the two books judge one thing. */
export interface ThingCompared {
  itemId: string;
  tagCode: string;
  /** It would be started later, or lose a prohibition, protection or condition. */
  laxer: boolean;
  differences: Difference[];
}

export interface ComparisonOverThings {
  versions: BookComparison['versions'];
  compared: number;
  counts: Record<Compared, number>;
  firstDispositions: BookComparison['firstDispositions'];
  laxer: number;
  /** Those that would be judged less strictly first, then in the order of the things. */
  changed: ThingCompared[];
}

/**
 * How two books judge the same things: what is still here as of now and with what was done to it, what has left as of the day it
 * was last looked at. Others have their turn in between, so that a comparison of thousands holds nobody up.
 */
export async function compareOver(before: Book, after: Book, ground: ComparisonGround): Promise<ComparisonOverThings> {
  const changed: ThingCompared[] = [];
  const moves: BookComparison['firstDispositions'] = [];
  for (const [index, thing] of ground.things.entries()) {
    if (index % PER_TURN === 0) await nextTurn();
    const one = compareBooks(before, after, [thing.observed], contextOf(thing, ground));
    const differences = one.changed[0]?.differences ?? [];
    if (differences.length === 0) continue;
    changed.push({ itemId: thing.itemId, tagCode: thing.tagCode, laxer: one.laxer.length > 0, differences });
    moves.push(...one.firstDispositions);
  }
  const laxer = changed.filter((thing) => thing.laxer);
  return {
    versions: { before: before.version, after: after.version }, compared: ground.things.length, counts: countsOf(changed), firstDispositions: added(moves),
    laxer: laxer.length, changed: [...laxer, ...changed.filter((thing) => !thing.laxer)],
  };
}

function contextOf(thing: SeenThing, { incident, nowMs }: ComparisonGround) {
  const place = { floodAtMs: incident.floodAtMs, airTempC: incident.outdoorAirTempC };
  if (TERMINAL_STAGES.includes(thing.stage)) return { ...place, nowMs: thing.assessedAtMs };
  return { ...place, nowMs, doneSteps: [...doneAmong(thing.results)] };
}

function countsOf(changed: readonly ThingCompared[]): Record<Compared, number> {
  const count = (what: Compared): number => changed.filter(({ differences }) => differences.some((one) => one.what === what)).length;
  return Object.fromEntries(COMPARED.map((what) => [what, count(what)])) as Record<Compared, number>;
}

function added(moves: BookComparison['firstDispositions']): BookComparison['firstDispositions'] {
  const byMove = new Map<string, BookComparison['firstDispositions'][number]>();
  for (const move of moves) {
    const key = `${move.before} ${move.after}`;
    byMove.set(key, { ...move, count: move.count + (byMove.get(key)?.count ?? 0) });
  }
  return [...byMove.values()].toSorted((a, b) => b.count - a.count);
}
