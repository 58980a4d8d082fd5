import { Celsius, saturationPressurePa } from '#climate';
import { FLOOD_AT_MS, WEATHER } from '../calibration.js';
import { Dice } from '../dice.js';
import type { SiteCode } from './types.js';

const HOUR_MS = 3_600_000;
const DAY_H = 24;

/** Outdoor air at one moment. */
export interface Outdoors {
  atMs: number;
  airTempC: number;
  relativeHumidityPct: number;
  windMPerS: number;
}

/** The weather as it is: a muggy day after the storm that dries a little by the hour. Another seed has other gusts, the same day. */
export function weatherAt(seed: number, site: SiteCode, atMs: number): Outdoors {
  const hour = (atMs / HOUR_MS) % DAY_H;
  const sinceFloodH = (atMs - FLOOD_AT_MS) / HOUR_MS;
  const airTempC = WEATHER.meanTempC + WEATHER.swingC * Math.cos(((hour - WEATHER.warmestAtH) / DAY_H) * 2 * Math.PI) + wander(seed, `temp/${site}`, atMs, WEATHER.gustTempC);
  const dewPointC = Math.min(airTempC - WEATHER.leastSpreadC, WEATHER.dewPointAtFloodC - WEATHER.dewPointFallsCPerH * sinceFloodH + wander(seed, `dew/${site}`, atMs, WEATHER.gustDewC));
  return { atMs, airTempC, relativeHumidityPct: humidityPct(airTempC, dewPointC), windMPerS: 3 + wander(seed, `wind/${site}`, atMs, 2) };
}

/** What an invented weather office says at `issuedAtMs` of the hours to come: the truth, off by more the further ahead it looks. */
export function forecastOf(seed: number, site: SiteCode, issuedAtMs: number): Outdoors[] {
  const dice = Dice.of(seed, 'forecast', site, issuedAtMs);
  const [tempOff, humidityOff] = [share(dice), share(dice)];
  return Array.from({ length: WEATHER.forecastH }, (_, index) => {
    const aheadH = index + 1;
    const truth = weatherAt(seed, site, issuedAtMs + aheadH * HOUR_MS);
    const grows = Math.sqrt(aheadH);
    return {
      atMs: truth.atMs, windMPerS: rounded(truth.windMPerS, 1), airTempC: rounded(truth.airTempC + tempOff * WEATHER.forecastErrorC * grows, 1),
      relativeHumidityPct: rounded(Math.min(100, Math.max(20, truth.relativeHumidityPct + humidityOff * WEATHER.forecastErrorPct * grows)), 0),
    };
  });
}

/** As a weather station shows it. */
export function asShown({ atMs, airTempC, relativeHumidityPct, windMPerS }: Outdoors): Outdoors {
  return { atMs, airTempC: rounded(airTempC, 1), relativeHumidityPct: rounded(Math.min(100, relativeHumidityPct), 0), windMPerS: rounded(Math.max(0, windMPerS), 1) };
}

function humidityPct(airTempC: number, dewPointC: number): number {
  return Math.min(100, (100 * saturationPressurePa(Celsius(dewPointC, 'dewPointC'))) / saturationPressurePa(Celsius(airTempC, 'airTempC')));
}

/** A slow, smooth coming and going within plus and minus `amount`: three waves of some hours, with phases by chance. */
function wander(seed: number, subject: string, atMs: number, amount: number): number {
  const dice = Dice.of(seed, 'weather', subject);
  const sum = [3.7, 6.1, 11.3].reduce((total, periodH) => total + Math.sin((atMs / HOUR_MS / periodH) * 2 * Math.PI + dice.int(0, 628) / 100), 0);
  return (sum / 3) * amount;
}

/** From -1 to 1. */
function share(dice: Dice): number {
  return dice.int(-1_000, 1_000) / 1_000;
}

export function rounded(value: number, digits: number): number {
  return Math.round(value * 10 ** digits) / 10 ** digits;
}
