import { describe, expect, test } from '@jest/globals';
import { DAY, FLOOD_AT_MS, MEASURING, momentMs, WEATHER } from '../../../apps/ops/src/demo/calibration.js';
import { generateWorld } from '../../../apps/ops/src/demo/world/generator.js';
import { trailerTempC } from '../../../apps/ops/src/demo/world/freezers.js';
import { asTable, Logger, LOGGERS, type LoggerRow } from '../../../apps/ops/src/demo/world/loggers.js';
import { trueRooms } from '../../../apps/ops/src/demo/world/rooms.js';
import { trueGoods } from '../../../apps/ops/src/demo/world/true-goods.js';
import type { TrueAir, TrueRoom } from '../../../apps/ops/src/demo/world/true-room.js';
import { forecastOf, weatherAt } from '../../../apps/ops/src/demo/world/weather.js';

const HOUR_MS = 3_600_000;
const world = generateWorld(7);
const cloth = world.things.filter((thing) => thing.materialClass === 'textile-garment-3d');

/** The hall of the main site with blotted cloth hung every hour from eight to one, so that it is well filled. */
function filledHall(seed: number, things: number): TrueRoom {
  const hall = trueRooms({ ...world, seed }).get('DYEWORKS')!;
  for (let hour = 8; hour <= 13; hour += 1) {
    hall.advance(momentMs(1, hour));
    for (let at = 0; at < things / 6; at += 1) hall.hang(trueGoods(seed, cloth[at]!, `${hour}/${at}`, { arrangement: 'rack', wetting: 'blotted', count: 1 }));
  }
  return hall;
}
const humidityAt = (room: TrueRoom, atMs: number) => room.air.find((air) => air.atMs === atMs)?.relativeHumidityPct ?? Number.NaN;

describe('the weather of the invented day', () => {
  test('begins with the 24 C and 90 % of the scenario, and is the same for the same seed', () => {
    const flood = weatherAt(7, 'DYEWORKS', FLOOD_AT_MS);
    expect(Math.abs(flood.airTempC - 24)).toBeLessThan(1);
    expect(Math.abs(flood.relativeHumidityPct - 90)).toBeLessThan(6);
    expect(weatherAt(7, 'DYEWORKS', FLOOD_AT_MS)).toEqual(flood);
    expect(weatherAt(8, 'DYEWORKS', FLOOD_AT_MS)).not.toEqual(flood);
  });

  test('is possible at every hour, and the dew point stays below the air', () => {
    for (let atMs = FLOOD_AT_MS; atMs < FLOOD_AT_MS + 72 * HOUR_MS; atMs += HOUR_MS) {
      const { relativeHumidityPct, airTempC } = weatherAt(7, 'SCHOOL', atMs);
      expect(relativeHumidityPct).toBeGreaterThan(30);
      expect(relativeHumidityPct).toBeLessThanOrEqual(100);
      expect(airTempC).toBeGreaterThan(10);
    }
  });

  test('is foreseen for two days, nearly right for the next hours and less so for the day after', () => {
    const errors = (aheadH: number) => Array.from({ length: 40 }, (_, day) => {
      const issuedAtMs = FLOOD_AT_MS + day * 6 * HOUR_MS;
      return Math.abs(forecastOf(7, 'SCHOOL', issuedAtMs)[aheadH - 1]!.airTempC - weatherAt(7, 'SCHOOL', issuedAtMs + aheadH * HOUR_MS).airTempC);
    }).reduce((sum, one) => sum + one, 0) / 40;
    expect(forecastOf(7, 'SCHOOL', DAY.preparedAtMs)).toHaveLength(WEATHER.forecastH);
    expect(errors(1)).toBeLessThan(0.3);
    expect(errors(47)).toBeGreaterThan(3 * errors(1));
  });
});

describe('a drying room as it truly is', () => {
  test('goes up when its great machine stands still and comes back when it runs again', () => {
    const hall = filledHall(7, 240);
    hall.advance(momentMs(1, 22));
    const [before, stopped, after] = [humidityAt(hall, DAY.dehumidifierTripsAtMs), humidityAt(hall, DAY.dehumidifierMendedAtMs), humidityAt(hall, momentMs(1, 21))];
    expect(stopped).toBeGreaterThan(before + 10);
    expect(after).toBeLessThan(stopped - 10);
  });

  test('is dampened by what hangs in it, which dries by it and is gone when it is taken', () => {
    const [empty, full] = [filledHall(7, 0), filledHall(7, 240)];
    for (const hall of [empty, full]) hall.advance(momentMs(1, 13, 50));
    expect(humidityAt(full, momentMs(1, 13, 50))).toBeGreaterThan(humidityAt(empty, momentMs(1, 13, 50)) + 3);
    const water = full.waterOf('8/0')!;
    expect(water.moistureX).toBeLessThan(water.hungX);
    full.take('8/0');
    expect([full.has('8/0'), full.waterOf('8/0')]).toEqual([false, null]);
  });

  test('things of one class differ in mass and water, and are always as they were', () => {
    const goods = cloth.slice(0, 30).map((thing) => trueGoods(7, thing, thing.key, { arrangement: 'rack', wetting: 'rinsed', count: 1 }));
    expect(new Set(goods.map(({ dryMassKg }) => dryMassKg)).size).toBeGreaterThan(10);
    expect(goods).toEqual(cloth.slice(0, 30).map((thing) => trueGoods(7, thing, thing.key, { arrangement: 'rack', wetting: 'rinsed', count: 1 })));
    const blotted = trueGoods(7, cloth[0]!, 'b', { arrangement: 'rack', wetting: 'blotted', count: 1 });
    expect(blotted.moistureX).toBeLessThan(goods[0]!.moistureX);
  });
});

describe('loggers', () => {
  const steps = (until: number): TrueAir[][] => Array.from({ length: until }, (_, step) => [0, 10, 20].map((minute) => ({ atMs: DAY.opensAtMs + step * 30 * 60_000 + minute * 60_000, airTempC: 21 + step / 100, relativeHumidityPct: 60 + step / 10 })));
  const sent = (logger: Logger): LoggerRow[][] => {
    const all = steps(60);
    return all.map((air, at) => logger.batch(air, at === all.length - 1));
  };

  test.each(LOGGERS.map((kind) => [kind.code, kind] as const))('%s sends everything that it measured, some late, some twice, and nothing of its silent hours', (_code, kind) => {
    const logger = new Logger(7, { ...kind, absurdAtMs: null });
    const batches = sent(logger);
    const moments = batches.flat().map(({ measuredAt }) => measuredAt);
    expect(new Set(moments)).toEqual(logger.measured);
    expect(moments.length).toBeGreaterThan(logger.measured.size);
    expect(moments).not.toEqual([...moments].sort());
    const silent = moments.map(Date.parse).filter((atMs) => kind.silent !== null && atMs > kind.silent.fromMs && atMs <= kind.silent.toMs);
    expect(silent).toEqual([]);
    expect(logger.measured.size).toBe(180 - (kind.silent === null ? 0 : 12));
  });

  test('a row that is sent twice says the same both times', () => {
    const byMoment = new Map<string, Set<string>>();
    for (const row of sent(new Logger(7, LOGGERS[0]!)).flat()) byMoment.set(row.measuredAt, (byMoment.get(row.measuredAt) ?? new Set()).add(JSON.stringify(row)));
    expect([...byMoment.values()].every((rows) => rows.size === 1)).toBe(true);
  });

  test('one row cannot be, stands for no moment that was measured, and goes out with others', () => {
    const kind = { ...LOGGERS[2]!, absurdAtMs: DAY.opensAtMs + 10 * 60_000 };
    const logger = new Logger(7, kind);
    const batch = sent(logger).find((rows) => rows.some(({ relativeHumidityPct }) => (relativeHumidityPct ?? 0) > 100))!;
    const absurd = batch.filter(({ relativeHumidityPct }) => (relativeHumidityPct ?? 0) > 100);
    expect(absurd).toHaveLength(1);
    expect(batch.length).toBeGreaterThan(1);
    expect(logger.measured.has(absurd[0]!.measuredAt)).toBe(false);
  });

  test('errors are no greater than said', () => {
    const rows = new Map(sent(new Logger(7, { ...LOGGERS[1]!, silent: null })).flat().map((row) => [Date.parse(row.measuredAt), row]));
    for (const air of steps(60).flat()) {
      const row = rows.get(air.atMs)!;
      expect(Math.abs(row.airTempC - air.airTempC)).toBeLessThanOrEqual(MEASURING.tempNoiseC + 0.051);
      expect(Math.abs((row.relativeHumidityPct ?? 0) - air.relativeHumidityPct)).toBeLessThanOrEqual(MEASURING.humidityNoisePct + MEASURING.humidityBiasPct + 0.051);
    }
  });

  test('a table has a comma before decimals and one line for each row', () => {
    const lines = asTable([{ sensor: 'AIR-3', measuredAt: '2026-05-09T07:00:00.000Z', airTempC: 20.4, relativeHumidityPct: null }]).toString('utf8').split('\r\n');
    expect(lines).toEqual(['\uFEFFsensor;measuredAt;airTempC;relativeHumidityPct', 'AIR-3;2026-05-09T07:00:00.000Z;20,4;', '']);
  });
});

test('the freezer trailer comes warm and is cold within two hours', () => {
  expect(trailerTempC(7, DAY.trailerFromMs)).toBeGreaterThan(3);
  expect(trailerTempC(7, DAY.trailerFromMs + 2 * HOUR_MS)).toBeLessThan(-17);
});
