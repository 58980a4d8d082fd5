import { describe, expect, test } from '@jest/globals';
import { DEFAULT_CALIBRATION, type ClockReading } from '#climate';
import { forecastRoom, standItems, startRoom, throughReadings, weighedStandings, type HistoryInput, type HungItem } from '#application';
import { at, inputOf, itemOf, reading, stayOf } from './room.support.js';

const values = DEFAULT_CALIBRATION;
const WEIGHED_TO_MG = 0.001;
const hourly = (hours: number, relativeHumidityPct: number): ClockReading[] => Array.from({ length: hours + 1 }, (_, hour) => reading(hour, relativeHumidityPct));

/** A thing that was weighed so many kilograms at these hours, in a room that was read every hour. */
function standingOf(weighings: readonly [hours: number, massKg: number][], untilH: number, relativeHumidityPct: number, change: Partial<HungItem> = {}) {
  const item = itemOf('thing', { weighings: weighings.map(([hours, massKg]) => ({ atMs: at(hours), massKg, resolutionKg: WEIGHED_TO_MG })), ...change });
  const input: HistoryInput = inputOf({ readings: hourly(untilH, relativeHumidityPct), items: [item], stays: [stayOf('thing', 0)] });
  const state = throughReadings(startRoom(input, values)!, input, values).state;
  const weighed = weighedStandings(input, state, input.readings, [], values);
  const [standing] = standItems(state, forecastRoom(state, { humidityCapPct: 75, weather: [] }, values), new Map([[item.id, item]]), { speeds: [], weighed }, values);
  return standing!;
}

describe('what its own weighings say of a thing that hangs', () => {
  test('one that was not weighed since it hangs there is told nothing by weight', () => {
    expect(standingOf([], 2, 50).weighed).toBeNull();
    expect(standingOf([[-1, 0.9]], 2, 50).weighed).toBeNull();
  });

  test('well above what it can weigh dry it is not dry yet, and there is a time for the next weighing', () => {
    const { weighed, dry, asOfMs } = standingOf([[1, 0.95]], 2, 50);
    expect(weighed).toMatchObject({ decision: 'not-yet', code: 'above-target' });
    expect(weighed!.weighAgainAtMs).toBeGreaterThan(asOfMs);
    expect(dry).toBe(false);
  });

  test('one weighing near its dry mass cannot tell, for nobody knows that mass well; a second one at rest in dry air can, and then it is called dry', () => {
    const once = standingOf([[30, 0.53]], 31, 50);
    expect(once.weighed!.decision).toBe('weigh-again');
    const twice = standingOf([[30, 0.53], [54, 0.53]], 55, 50);
    expect(twice).toMatchObject({ weighed: { decision: 'ready', code: 'at-rest' }, dry: true });
  });

  test('at rest in damp air is not dry', () => {
    const { weighed, dry } = standingOf([[30, 0.6], [54, 0.6]], 55, 85);
    expect(weighed!.decision).toBe('not-yet');
    expect(dry).toBe(false);
  });

  test('what grew heavier is never called ready', () => {
    expect(standingOf([[10, 0.53], [34, 0.7]], 35, 50)).toMatchObject({ weighed: { decision: 'weigh-again', code: 'weight-went-up' }, dry: false });
  });
});
