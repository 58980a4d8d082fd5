import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { beforeIntake, decide, evolve, isRefusal, judgeScan, KEEPER_KINDS, keeper, NO_MATTERS, SAME_MOMENT_MS, SCANNED_PLACES, STAGE_KEEPERS, STAGES, TERMINAL_STAGES, type ItemCustody, type Keeper, type LastEvent, type Scan, type ScanJudgement, type Stage } from '#custody';

// The cases are those of the conflict taxonomy in our reliability study, section 5.3; the times are our own calibration.

const T0 = Date.parse('2026-05-09T08:00:00Z');
const MINUTE = 60_000;
const id = (n: number) => `0198b7a0-0000-7000-8000-${String(n).padStart(12, '0')}`;
const HOLDING = keeper.holding(id(1));
const SHELF = keeper.shelf(id(2));
const RACK = keeper.dryingPlace(id(3));

function standing(at: Keeper = HOLDING, stage: Stage = 'waiting', seq = 3, matters = NO_MATTERS): ItemCustody {
  return { networkId: id(90), itemId: id(91), seq, headHash: 'a'.repeat(64), keeper: at, stage, matters };
}
const last = (seq = 3, occurredAtMs = T0, recordedAtMs = T0 + 5_000): LastEvent => ({ seq, occurredAtMs, recordedAtMs });
const scan = (place: Keeper, seenAtMs = T0 + 10 * MINUTE, baseSeq: number | null = 3): Scan => ({ place, seenAtMs, baseSeq });
const NOW = T0 + 60 * MINUTE;
const outcome = (judgement: ScanJudgement) => judgement.outcome;

describe('a scan of a device that knew the last event', () => {
  test('moves the thing, whatever its clock says', () => {
    expect(judgeScan(standing(), last(), scan(SHELF), NOW)).toEqual({ outcome: 'move', kind: 'moved' });
    expect(judgeScan(standing(), last(), scan(SHELF, T0 - 26 * 60 * MINUTE), NOW)).toEqual({ outcome: 'move', kind: 'moved' });
  });

  test('at the place on record is seen again', () => {
    expect(outcome(judgeScan(standing(), last(), scan(HOLDING), NOW))).toBe('seen-again');
  });

  test('that claims an event which is not there is refused', () => {
    expect(judgeScan(standing(), last(), scan(SHELF, T0, 4), NOW)).toMatchObject({ outcome: 'refused', refusal: { code: 'command_malformed' } });
  });
});

describe('a scan of a device that did not know the last event', () => {
  test('at another place is a claim that moves nothing', () => {
    expect(outcome(judgeScan(standing(), last(), scan(SHELF, T0 + 10 * MINUTE, 2), NOW))).toBe('claims-elsewhere');
  });

  test('at the same place confirms the record', () => {
    expect(outcome(judgeScan(standing(), last(), scan(HOLDING, T0 + 10 * MINUTE, 2), NOW))).toBe('seen-again');
  });

  test('seen before the last event is history, at whatever place', () => {
    for (const place of [SHELF, HOLDING]) expect(outcome(judgeScan(standing(), last(), scan(place, T0 - 10 * MINUTE, 2), NOW))).toBe('seen-late');
  });

  test('two claims within a minute are not put in order by their clocks: neither is dropped as late', () => {
    expect(outcome(judgeScan(standing(), last(), scan(SHELF, T0 - SAME_MOMENT_MS, 2), NOW))).toBe('claims-elsewhere');
    expect(outcome(judgeScan(standing(), last(), scan(SHELF, T0 - SAME_MOMENT_MS - 1, 2), NOW))).toBe('seen-late');
  });
});

describe('a scanner that keeps no record', () => {
  test('moves what it saw after the last event was recorded, and only claims what it saw before', () => {
    expect(outcome(judgeScan(standing(), last(), scan(SHELF, T0 + 5_000, null), NOW))).toBe('move');
    expect(outcome(judgeScan(standing(), last(), scan(SHELF, T0 + 4_999, null), NOW))).toBe('claims-elsewhere');
  });

  test('after intake alone contradicts nobody', () => {
    expect(outcome(judgeScan(standing(HOLDING, 'waiting', 1), last(1, T0, T0 + 30 * MINUTE), scan(SHELF, T0 + 10 * MINUTE, null), NOW))).toBe('move');
  });
});

describe('open matters', () => {
  test('a missing thing that is scanned is found, which needs a person', () => {
    const missing = { ...NO_MATTERS, missing: true };
    expect(judgeScan(standing(HOLDING, 'waiting', 3, missing), last(), scan(SHELF), NOW)).toEqual({ outcome: 'found', stage: 'waiting' });
    expect(judgeScan(standing(HOLDING, 'waiting', 3, missing), last(), scan(RACK), NOW)).toEqual({ outcome: 'found', stage: 'drying' });
    expect(judgeScan(standing(RACK, 'drying', 3, missing), last(), scan(RACK), NOW)).toEqual({ outcome: 'found', stage: 'drying' });
    expect(judgeScan(standing(RACK, 'drying', 3, missing), last(), scan(SHELF), NOW)).toEqual({ outcome: 'found', stage: 'waiting' });
  });

  test('a disputed thing stays disputed: a scan elsewhere is one more claim', () => {
    expect(outcome(judgeScan(standing(HOLDING, 'waiting', 3, { ...NO_MATTERS, disputed: true }), last(), scan(SHELF), NOW))).toBe('claims-elsewhere');
  });
});

test('what has left the network and is scanned here is told to the coordinator; what was seen before it left is not', () => {
  for (const stage of TERMINAL_STAGES) {
    const gone = standing(keeper.household(id(7)), stage);
    expect(outcome(judgeScan(gone, last(), scan(SHELF), NOW))).toBe('left-the-network');
    expect(outcome(judgeScan(gone, last(), scan(SHELF, T0 - 10 * MINUTE, 2), NOW))).toBe('seen-late');
  }
});

test('a scan from the future and a scan at somebody are refused', () => {
  expect(judgeScan(standing(), last(), scan(SHELF, NOW + 6 * MINUTE), NOW)).toMatchObject({ outcome: 'refused', refusal: { code: 'occurred_in_future' } });
  expect(judgeScan(standing(), last(), scan(keeper.household(id(7))), NOW)).toMatchObject({ outcome: 'refused', refusal: { code: 'keeper_kind_not_allowed' } });
  expect(judgeScan(beforeIntake(id(90), id(91)), last(0), scan(SHELF), NOW)).toMatchObject({ outcome: 'refused', refusal: { code: 'not_taken_in' } });
});

test.each<[Stage, Keeper['kind'], string]>([
  ['waiting', 'drying-place', 'drying-started'], ['waiting', 'freezer', 'frozen'], ['waiting', 'station', 'moved'], ['waiting', 'vehicle', 'moved'],
  ['in-work', 'shelf', 'work-ended'], ['in-work', 'station', 'moved'], ['in-work', 'drying-place', 'drying-started'],
  ['drying', 'shelf', 'drying-ended'], ['drying', 'station', 'drying-ended'], ['drying', 'drying-place', 'drying-started'], ['drying', 'container', 'drying-ended'],
  ['held-frozen', 'holding', 'thawed'], ['held-frozen', 'freezer', 'frozen'], ['held-frozen', 'vehicle', 'moved'],
  ['held-wet', 'container', 'moved'], ['referred-out', 'holding', 'referral-returned'], ['referred-out', 'vehicle', 'moved'], ['referred-out', 'freezer', 'referral-returned'],
])('what is %s and scanned at a %s is %s', (stage, place, kind) => {
  const from: Keeper = { kind: STAGE_KEEPERS[stage][0] ?? 'holding', id: id(50) };
  expect(judgeScan(standing(from, stage), last(), scan({ kind: place, id: id(51) }), NOW)).toEqual({ outcome: 'move', kind });
});

test.each<[Stage, Keeper['kind']]>([['in-work', 'vehicle'], ['drying', 'vehicle'], ['held-frozen', 'drying-place'], ['referred-out', 'drying-place']])('what is %s is not scanned straight onto a %s', (stage, place) => {
  const from: Keeper = { kind: STAGE_KEEPERS[stage][0] ?? 'holding', id: id(50) };
  expect(judgeScan(standing(from, stage), last(), scan({ kind: place, id: id(51) }), NOW)).toMatchObject({ outcome: 'refused', refusal: { code: 'wrong_stage' } });
});

const stageAndKeeper = fc.constantFrom(...STAGES).chain((stage) => fc.record({ stage: fc.constant(stage), kind: fc.constantFrom(...STAGE_KEEPERS[stage]) }));
const matters = fc.record({ disputed: fc.boolean(), missing: fc.boolean(), handOver: fc.constantFrom(null, { id: id(60), to: SHELF }) });

describe('over all stages, places, times and bases', () => {
  const situation = fc.record({
    at: stageAndKeeper, same: fc.boolean(), place: fc.constantFrom(...KEEPER_KINDS), seenMin: fc.integer({ min: -90, max: 70 }), base: fc.constantFrom(null, 1, 2, 3, 4), matters,
  });
  const judged = (given: typeof situation extends fc.Arbitrary<infer T> ? T : never) => {
    const from: Keeper = { kind: given.at.kind, id: id(50) };
    const place = given.same ? from : { kind: given.place, id: id(51) };
    const state = standing(from, given.at.stage, 3, given.matters);
    return { state, place, judgement: judgeScan(state, last(), scan(place, T0 + given.seenMin * MINUTE, given.base), NOW) };
  };

  test('the event of a move is one that the custody rules take, unless a hand-over is open', () => {
    fc.assert(fc.property(situation, (given) => {
      const { state, place, judgement } = judged(given);
      if (judgement.outcome !== 'move') return;
      const event = decide(state, { commandId: id(70), kind: judgement.kind, from: state.keeper, to: place, actorId: id(71), occurredAtMs: T0, refs: {} }, NOW);
      if (isRefusal(event)) expect([event.code, state.matters.handOver !== null]).toEqual(['hand_over_open', true]);
      else expect(evolve(state, event).keeper).toEqual(place);
    }), { numRuns: 1_000 });
  });

  test('a device that did not know the last event never moves anything', () => {
    fc.assert(fc.property(situation, (given) => {
      const { judgement } = judged(given);
      if (given.base !== null && given.base < 3) expect(judgement.outcome).not.toBe('move');
    }), { numRuns: 1_000 });
  });

  test('what is disputed, missing or gone is never moved by a scan', () => {
    fc.assert(fc.property(situation, (given) => {
      const { state, judgement } = judged(given);
      if (given.matters.disputed || given.matters.missing || TERMINAL_STAGES.includes(state.stage ?? 'waiting')) expect(judgement.outcome).not.toBe('move');
    }), { numRuns: 1_000 });
  });

  test('what is found can be put on record where it was found', () => {
    fc.assert(fc.property(situation, (given) => {
      const { state, place, judgement } = judged(given);
      if (judgement.outcome !== 'found') return;
      expect(SCANNED_PLACES).toContain(place.kind);
      const refs = { personId: id(72), stage: judgement.stage, ...(judgement.stage === 'referred-out' ? { consentId: id(73) } : {}) };
      expect(isRefusal(decide(state, { commandId: id(70), kind: 'found-again', from: state.keeper, to: place, actorId: id(71), occurredAtMs: T0, refs }, NOW))).toBe(false);
    }), { numRuns: 1_000 });
  });
});
