import { expect, test } from '@jest/globals';
import fc from 'fast-check';
import { CALIBRATION_LIBRARIES, calibrationView, ownValues, type CalibrationDecision, type CalibrationLibrary } from '#application';
import { CALIBRATE, TABLES } from '../../../libs/application/src/calibration/tables.js';

const library = fc.constantFrom(...CALIBRATION_LIBRARIES);
/** A number of a library or of none, with a value inside the limits more often than not. */
const decided = library.chain((of) =>
  fc.constantFrom(...Object.entries(TABLES[of]), ['hoursOfOldVersions', { min: 0, max: 1, whole: false }] as const).chain(([key, { min, max, whole }]) =>
    fc.record({ library: fc.constant(of), key: fc.constant(key), value: fc.oneof({ weight: 5, arbitrary: whole ? fc.integer({ min, max }) : fc.double({ min, max, noNaN: true }) }, { weight: 1, arbitrary: fc.double({ noNaN: true, noDefaultInfinity: true }) }, { weight: 1, arbitrary: fc.constant(null) }) }),
  ),
);
/** The newest decision about each number, as the store answers them: numbered without gaps in any order. */
const decisions: fc.Arbitrary<CalibrationDecision[]> = fc.uniqueArray(decided, { selector: (one) => `${one.library}/${one.key}`, maxLength: 12 }).chain((list) =>
  fc.shuffledSubarray(list.map((_, i) => i + 1), { minLength: list.length, maxLength: list.length }).map((numbers) =>
    list.map((one, i): CalibrationDecision => ({ ...one, id: `d${i}`, number: numbers[i] ?? 0, reason: 'Measured.', decidedBy: 'p', decidedAtMs: 0, principalId: 'k', lead: null })),
  ),
);

const setIn = (of: CalibrationLibrary, list: readonly CalibrationDecision[]) => Object.fromEntries(list.flatMap((one) => (one.library === of && one.value !== null ? [[one.key, one.value]] : [])));
const holds = (of: CalibrationLibrary, own: Record<string, number>): boolean => {
  try {
    CALIBRATE[of](own);
    return true;
  } catch {
    return false;
  }
};

test('whatever was decided, by whichever version, there are numbers to work with, and a sound set is taken whole', () => {
  let [whole, part] = [0, 0];
  fc.assert(
    fc.property(library, decisions, (of, list) => {
      const set = setIn(of, list);
      const own = ownValues(of, list);
      expect(holds(of, own)).toBe(true);
      for (const [key, value] of Object.entries(own)) expect(set[key]).toBe(value);
      if (!holds(of, set)) part += 1;
      else {
        whole += 1;
        expect(own).toEqual(set);
      }
    }),
    { numRuns: 1_000 },
  );
  expect(Math.min(whole, part)).toBeGreaterThan(50);
});

test('what is shown is what is worked with: in force, or lapsed and at its default', () => {
  fc.assert(
    fc.property(decisions, (list) => {
      const view = calibrationView(list);
      expect(view.number).toBe(list.length);
      expect(view.numbers).toHaveLength(Object.values(TABLES).flatMap((table) => Object.keys(table)).length);
      const values = Object.fromEntries(CALIBRATION_LIBRARIES.map((of) => [of, ownValues(of, list)])) as Record<CalibrationLibrary, Record<string, number>>;
      for (const { library: of, key, entry, inForce, decision, lapsed } of view.numbers) {
        const own = values[of][key];
        expect(inForce).toBe(own ?? entry.value);
        expect(lapsed).toBe(decision !== null && decision.value !== null && own === undefined);
      }
    }),
  );
});

test('of two decisions that a new default sets against each other the older gives way', () => {
  const one = (number: number, key: string, value: number): CalibrationDecision => ({ id: key, number, library: 'climate', key, value, reason: 'Measured.', decidedBy: 'p', decidedAtMs: 0, principalId: 'k', lead: null });
  expect(ownValues('climate', [one(2, 'amberDose', 0.9), one(1, 'redDose', 0.6)])).toEqual({ amberDose: 0.9 });
  expect(ownValues('climate', [one(1, 'amberDose', 0.9), one(2, 'redDose', 0.6)])).toEqual({ redDose: 0.6 });
});
