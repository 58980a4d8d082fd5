import * as fc from 'fast-check';
import type { Assessment, TriageContext } from '#care';
import { COLOUR_TEST_READINGS, FIBRES, FRAGILITIES, HAZARDS, MATERIAL_CLASSES, MOULD_STATES, SIGNIFICANCES, SOILS, WATER_KINDS, WET_STATES } from '#care';

export const HOUR_MS = 3_600_000;
/** An invented flood: the evening the river Sarn topped its banks. */
export const FLOOD_AT_MS = Date.UTC(2031, 8, 12, 18);

/** Wet an instant ago in clean water, sound, tested fast, everything asked and allowed. */
export function knownAssessment(changes: Partial<Assessment> = {}): Assessment {
  return {
    materialClass: 'textile-flat-small',
    fibre: 'cotton',
    count: 1,
    wetState: 'wet',
    wettedAtMs: FLOOD_AT_MS,
    water: 'clean',
    mould: 'none',
    fragility: 'sound',
    colourTests: [{ colour: 'blue ground', solution: 'water', method: 'swab', reading: 'no-transfer' }],
    allColoursTested: true,
    alreadyBled: false,
    hazards: [],
    significance: 'treasured',
    onlyCopy: true,
    highMarketValue: false,
    consents: { treat: true, freeze: true, refer: true, release: null },
    soil: 'none',
    detachedParts: false,
    oldRepairs: false,
    ...changes,
  };
}

/** `hours` after the flood, in a hall of 21 C. */
export function contextAt(hours: number, changes: Partial<TriageContext> = {}): TriageContext {
  return { nowMs: FLOOD_AT_MS + hours * HOUR_MS, floodAtMs: FLOOD_AT_MS, airTempC: 21, ...changes };
}

const tristate = fc.constantFrom(true, false, null);

/** Observations that older assessments lack. */
const laterObservations = {
  parts: fc.uniqueArray(fc.constantFrom(...MATERIAL_CLASSES), { maxLength: 2 }),
  soil: fc.constantFrom(...SOILS),
  detachedParts: tristate,
  oldRepairs: tristate,
  colours: fc.uniqueArray(fc.constantFrom('white', 'red border', 'green'), { maxLength: 2 }),
};

/** What assessments have had from the beginning. */
const firstObservations = {
  materialClass: fc.constantFrom(...MATERIAL_CLASSES),
  fibre: fc.constantFrom(...FIBRES),
  count: fc.oneof(fc.integer({ min: 1, max: 400 }), fc.constantFrom(0, -3, 2.5, Number.NaN)),
  wetState: fc.constantFrom(...WET_STATES),
  wettedAtMs: fc.option(fc.integer({ min: -24, max: 96 }).map((hours) => FLOOD_AT_MS + hours * HOUR_MS), { nil: null }),
  water: fc.constantFrom(...WATER_KINDS),
  mould: fc.constantFrom(...MOULD_STATES),
  fragility: fc.constantFrom(...FRAGILITIES),
  colourTests: fc.array(
    fc.record({ colour: fc.constantFrom('white', 'red border', ''), solution: fc.constantFrom('water' as const, 'detergent' as const), method: fc.constantFrom('swab' as const, 'blotter' as const, 'lab' as const), reading: fc.constantFrom(...COLOUR_TEST_READINGS) }),
    { maxLength: 3 },
  ),
  allColoursTested: fc.boolean(),
  alreadyBled: tristate,
  hazards: fc.uniqueArray(fc.constantFrom(...HAZARDS), { maxLength: 2 }),
  significance: fc.constantFrom(...SIGNIFICANCES),
  onlyCopy: tristate,
  highMarketValue: tristate,
  consents: fc.record({ treat: tristate, freeze: tristate, refer: tristate, release: tristate }),
};

/** Every well-typed assessment, old or new, sensible or not. */
export const anyAssessment: fc.Arbitrary<Assessment> = fc.oneof(
  fc.record(firstObservations),
  fc.record({ ...firstObservations, ...laterObservations }),
);

export const anyContext: fc.Arbitrary<TriageContext> = fc.record({
  nowMs: fc.integer({ min: -6, max: 120 }).map((hours) => FLOOD_AT_MS + hours * HOUR_MS),
  floodAtMs: fc.constant(FLOOD_AT_MS),
  airTempC: fc.option(fc.integer({ min: -10, max: 45 }), { nil: null }),
});
