import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { CUSTODY_EVENT_KINDS, decide, evolve } from '#custody';
import { emptyTally, expectNone, playHistory, type Difference } from './play.js';

const HISTORIES = 10_000;
/** All are told, but a broken rule differs in thousands of histories. */
const TOLD_AT_MOST = 5;
/** The histories of the gate are always the same; another property seed plays others, none of them twice. */
const FIRST_SEED = ((fc.readConfigureGlobal().seed ?? 0) % 100_000) * HISTORIES;

describe(`${HISTORIES} histories from seed ${FIRST_SEED} on`, () => {
  const tally = emptyTally();
  const differences: Difference[] = [];
  beforeAll(() => {
    for (let index = 0; index < HISTORIES && differences.length < TOLD_AT_MOST; index += 1) {
      const difference = playHistory(FIRST_SEED + index, { decide, evolve }, tally);
      if (difference !== null) differences.push(difference);
    }
  }, 120_000);

  afterAll(() => {
    const sum = (counts: ReadonlyMap<string, number>) => [...counts.values()].reduce((total, count) => total + count, 0);
    process.stdout.write(`custody model: ${HISTORIES} histories from seed ${FIRST_SEED}, ${sum(tally.accepted)} commands accepted, ${sum(tally.refused)} refused, ${differences.length} differences\n`);
  });

  test('keeper, stage, open matters and every refusal are what the reference model says: 0 differences', () => {
    expectNone(differences);
  });

  test('every kind of event happens in them, hundreds of times', () => {
    const seldom = CUSTODY_EVENT_KINDS.filter((kind) => (tally.accepted.get(kind) ?? 0) < 300);
    expect(seldom).toEqual([]);
  });

  test('every refusal is met in them', () => {
    expect([...tally.refused.keys()].sort()).toEqual([
      'already_taken_in', 'command_malformed', 'consent_missing', 'correction_target_missing', 'hand_over_not_open', 'hand_over_open', 'keeper_kind_not_allowed', 'location_disputed',
      'missing', 'not_disputed', 'not_missing', 'not_taken_in', 'occurred_in_future', 'reference_missing', 'same_keeper', 'terminal', 'wrong_keeper', 'wrong_stage',
    ]);
    expect(Math.min(...tally.refused.values())).toBeGreaterThan(50);
  });
});
