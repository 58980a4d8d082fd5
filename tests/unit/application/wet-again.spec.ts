// The rules are our own judgement (see care/wet-again.ts); no published source says when work on a wet thing becomes undone.
import { describe, expect, test } from '@jest/globals';
import * as fc from 'fast-check';
import { STEP_KINDS, WET_STATES, type Assessment, type StepKind, type WetState } from '#care';
import { countedAmong, doneAmong } from '../../../libs/application/src/care/done-steps.js';
import { endsSafety } from '../../../libs/application/src/care/safety.js';
import { isNewMould, isWetter, tellsNewWetting, undoneByMould, wetAgain, type Earlier } from '../../../libs/application/src/care/wet-again.js';
import { knownAssessment } from '../care/assessment.support.js';

const HOUR = 3_600_000;
const FLOOD = 0;
type Result = Earlier['results'][number];

/** Steps done one an hour, beginning an hour after the flood. */
function doneInTurn(...steps: StepKind[]): Result[] {
  return steps.map((step, index) => ({
    id: `id-${String(index).padStart(3, '0')}`, incidentId: 'i', itemId: 'x', step, outcome: 'done', undoes: [], stationId: null, personId: null, note: '', startedAtMs: null, finishedAtMs: (index + 1) * HOUR, recordedAtMs: (index + 1) * HOUR,
  }));
}

function earlier(wetState: WetState, results: Result[], change: Partial<Earlier> = {}): Earlier {
  return { stage: 'waiting', known: knownAssessment({ wetState, wettedAtMs: FLOOD }), results, ...change };
}

const DRIED = doneInTurn('tag', 'assess', 'colour-test', 'rinse', 'blot', 'dry');
const CHECKED = doneInTurn('tag', 'assess', 'colour-test', 'rinse', 'blot', 'dry', 'check', 'wrap');

describe('a new round of work', () => {
  test('begins when a thing that was dried is wetter than before: what water spoils is undone, what was learned of it stays', () => {
    expect(wetAgain(earlier('damp', DRIED), { wetState: 'dripping' })).toEqual({ again: true, undoes: ['rinse', 'blot', 'dry'], follows: {} });
  });

  test('begins with a time of wetting that lies after the drying; one before it is a correction', () => {
    const dried = earlier('damp', DRIED);
    expect([6 * HOUR, 6 * HOUR + 1].map((wettedAtMs) => tellsNewWetting(dried, { wettedAtMs }))).toEqual([false, true]);
    expect(wetAgain(dried, { wettedAtMs: 7 * HOUR })).toEqual({ again: true, undoes: ['rinse', 'blot', 'dry'], follows: { wetState: 'unknown' } });
    expect(wetAgain(dried, { wettedAtMs: 5 * HOUR })).toEqual({ again: false, undoes: [], follows: {} });
  });

  test('counts from the check that last found it dry when no time is told, and from the first wetting when no check did', () => {
    expect(wetAgain(earlier('dry', CHECKED), { wetState: 'damp' }).follows).toEqual({ wettedAtMs: 7 * HOUR });
    expect(wetAgain(earlier('damp', DRIED), { wetState: 'wet' }).follows).toEqual({});
    expect(wetAgain(earlier('dry', CHECKED), { wetState: 'damp', wettedAtMs: 9 * HOUR }).follows).toEqual({});
  });

  test('begins for a thing that came in dry and was seen dry, and keeps the time of its wetting', () => {
    expect(wetAgain(earlier('dry', doneInTurn('assess', 'surface-clean')), { wetState: 'wet' })).toEqual({ again: true, undoes: ['surface-clean'], follows: {} });
  });

  test('does not begin with the first look, which puts the doorway right', () => {
    expect(wetAgain(earlier('dry', []), { wetState: 'wet' })).toEqual({ again: false, undoes: [], follows: {} });
  });

  test('does not begin for what lies frozen or is away', () => {
    for (const stage of ['held-frozen', 'referred-out'] as const) {
      expect(wetAgain(earlier('damp', DRIED, { stage }), { wetState: 'dripping', wettedAtMs: 99 * HOUR })).toEqual({ again: false, undoes: [], follows: {} });
    }
  });
});

test('still damp after the drying: it dries again, and nothing else is undone', () => {
  expect(wetAgain(earlier('damp', [...DRIED, ...doneInTurn('pack')]), { wetState: 'damp' })).toEqual({ again: false, undoes: ['dry', 'pack'], follows: {} });
});

test('wetter than it was after the blotting, and not dried yet: it is blotted again', () => {
  expect(wetAgain(earlier('damp', doneInTurn('assess', 'rinse', 'blot')), { wetState: 'wet' })).toEqual({ again: false, undoes: ['blot'], follows: {} });
});

describe('mould', () => {
  test('sends what was not found dry to dry again, and opens what was packed', () => {
    expect(undoneByMould(earlier('damp', [...DRIED, ...doneInTurn('wrap')]), 'damp')).toEqual(['wrap', 'dry']);
    expect(undoneByMould(earlier('dry', CHECKED), 'dry')).toEqual(['check', 'wrap']);
    expect(undoneByMould(earlier('wet', doneInTurn('assess', 'surface-clean', 'wrap')), 'wet')).toEqual(['surface-clean']);
  });

  test('leaves what lies frozen where it lies', () => {
    expect(undoneByMould(earlier('dry', CHECKED, { stage: 'held-frozen' }), 'dry')).toEqual([]);
    expect(endsSafety({ stage: 'held-frozen' }, { found: ['mould-found'], undoes: [] })).toBe(false);
  });

  test('is news when it may live and did not, and after a cleaning also when it is dead', () => {
    const cleaned = doneInTurn('assess', 'surface-clean');
    const known = (mould: Assessment['mould'], results: Result[] = []) => ({ known: knownAssessment({ mould }), results });
    expect([isNewMould(known('none'), 'active'), isNewMould(known('dry', cleaned), 'suspected'), isNewMould(known('none', cleaned), 'dry')]).toEqual([true, true, true]);
    expect([isNewMould(known('active'), 'suspected'), isNewMould(known('dry', cleaned), 'dry'), isNewMould(known('none'), 'dry'), isNewMould(known('none'), 'unknown')]).toEqual([false, false, false, false]);
  });
});

test('what hangs or is held stays safe when it gets wet again; what stands on a shelf does not; nothing does with mould but in the freezer', () => {
  const wet = { found: ['wetted-again'] as const, undoes: [] };
  expect((['waiting', 'in-work', 'drying', 'held-wet', 'held-frozen'] as const).map((stage) => endsSafety({ stage }, wet))).toEqual([true, true, false, false, false]);
  expect((['waiting', 'drying', 'held-wet'] as const).map((stage) => endsSafety({ stage }, { found: ['mould-found'], undoes: [] }))).toEqual([true, true, true]);
  expect(endsSafety({ stage: 'waiting' }, { found: ['owner-must-decide'], undoes: [] })).toBe(false);
});

describe('over any work and any look', () => {
  const work = fc.array(fc.constantFrom(...STEP_KINDS), { maxLength: 10 });
  const told = fc.record({ wetState: fc.option(fc.constantFrom(...WET_STATES), { nil: undefined }), wettedAtMs: fc.option(fc.integer({ min: 0, max: 20 * HOUR }), { nil: undefined }) });

  test('only what was done is undone; tag, photograph, look and colour test never are; after it the thing counts as dried no longer', () => {
    fc.assert(
      fc.property(work, fc.constantFrom(...WET_STATES), told, (steps, wetState, seen) => {
        const results = doneInTurn(...steps);
        const { again, undoes } = wetAgain(earlier(wetState, results), seen);
        const done = doneAmong(results);
        expect(undoes.filter((step) => !done.has(step) || ['tag', 'photograph', 'assess', 'colour-test'].includes(step))).toEqual([]);
        const wetNow = seen.wetState !== undefined && seen.wetState !== 'dry' && seen.wetState !== 'unknown';
        const after = doneAmong([...results, { step: 'assess', outcome: 'done', undoes }]);
        if (again || wetNow) expect(after.has('dry') || after.has('check')).toBe(done.has('check') && !done.has('dry') && !again);
      }),
      { numRuns: 500 },
    );
  });

  test('a wetter state is judged alike in both directions, and never of what nobody knows', () => {
    fc.assert(
      fc.property(fc.constantFrom(...WET_STATES), fc.constantFrom(...WET_STATES), (one, other) => {
        expect(isWetter(one, other) && isWetter(other, one)).toBe(false);
        if (one === 'unknown' || other === 'unknown') expect(isWetter(one, other)).toBe(false);
        else expect(isWetter(one, other) || isWetter(other, one)).toBe(one !== other);
      }),
    );
  });

  test('a step counts by its latest result that nothing undid', () => {
    fc.assert(
      fc.property(fc.array(fc.record({ step: fc.constantFrom<StepKind>('rinse', 'dry', 'check'), undoes: fc.uniqueArray(fc.constantFrom<StepKind>('rinse', 'dry', 'check')), outcome: fc.constantFrom('done' as const, 'failed' as const) }), { maxLength: 12 }), (results) => {
        const counted = countedAmong(results);
        for (const step of ['rinse', 'dry', 'check'] as const) {
          const last = results.findLast((one) => one.step === step && one.outcome === 'done');
          const undone = last !== undefined && results.slice(results.indexOf(last) + 1).some(({ undoes }) => undoes.includes(step));
          expect(counted.get(step)).toBe(last === undefined || undone ? undefined : last);
        }
      }),
    );
  });
});
