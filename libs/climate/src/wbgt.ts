/**
 * Where a WBGT comes from: a meter, its three thermometers, or an estimate from air alone, with the margin that is ours.
 * Published: the weights (ISO 7243, as read in a copy). Common practice: the outdoor screening formula (after the Australian Bureau of
 * Meteorology, from memory). Ours: the estimate for a hall, both margins.
 */
import type { Advice } from './advice.js';
import { ClimateRangeError, requireNumber, type NumberRule } from './climate-range.error.js';
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';
import { wbgtIndoorC } from './heat-stress.js';
import type { NumberMark } from './marks.js';
import { moistAir, vapourPressurePa, type MeasuredAir } from './psychrometrics.js';

/** How the heat of a place is known. */
export type HeatSource =
  /** A WBGT meter; the air beside it, where told, serves the heat index and the monitoring table. */
  | { from: 'meter'; wbgtC: number; air?: MeasuredAir | null }
  /** Natural wet bulb, black globe and, in the sun, a shaded thermometer. */
  | { from: 'thermometers'; naturalWetBulbC: number; globeC: number; airTempC: number; inSun: boolean }
  /** Air of a hall without sun, stoves or hot machines. */
  | { from: 'hall-air'; air: MeasuredAir; stillAir: boolean }
  /** Air outside in moderate sun and light wind. */
  | { from: 'outdoor-air'; air: MeasuredAir };

export type WbgtNoteCode = 'estimate_meter_better' | 'estimate_no_radiant_heat' | 'estimate_moderate_sun';

/** A WBGT with what it rests on. */
export interface Wbgt {
  wbgtC: number;
  /** Of it our own margin. */
  marginC: number;
  mark: NumberMark;
  notes: Advice<WbgtNoteCode>[];
}

const TEMP_RULE: NumberRule = { min: -20, max: 80, unit: 'C' };

/** WBGT from its thermometers: 0.7 natural wet bulb + 0.3 globe, in the sun 0.7 + 0.2 + 0.1 air. @throws ClimateRangeError */
export function wbgtFromThermometersC({ naturalWetBulbC, globeC, airTempC, inSun }: { naturalWetBulbC: number; globeC: number; airTempC: number; inSun: boolean }): number {
  const wet = requireNumber('naturalWetBulbC', naturalWetBulbC, TEMP_RULE);
  const globe = requireNumber('globeC', globeC, { ...TEMP_RULE, max: 120 });
  const air = requireNumber('airTempC', airTempC, TEMP_RULE);
  return inSun ? 0.7 * wet + 0.2 * globe + 0.1 * air : 0.7 * wet + 0.3 * globe;
}

/** Screening estimate outdoors, `0.567 air + 0.393 e + 3.94` with the vapour pressure e in hPa; reads 4 to 6 C too high indoors. @throws ClimateRangeError */
export function wbgtOutdoorScreeningC(air: MeasuredAir): number {
  return 0.567 * air.airTempC + (0.393 * vapourPressurePa(moistAir(air))) / 100 + 3.94;
}

/** The WBGT of a place, with margin and remarks. @throws ClimateRangeError */
export function wbgtOf(source: HeatSource, values: CalibrationValues = DEFAULT_CALIBRATION): Wbgt {
  switch (source.from) {
    case 'meter':
      return { wbgtC: requireNumber('wbgtC', source.wbgtC, { min: -10, max: 60, unit: 'C' }), marginC: 0, mark: 'published', notes: [] };
    case 'thermometers':
      return { wbgtC: wbgtFromThermometersC(source), marginC: 0, mark: 'published', notes: [] };
    case 'hall-air': {
      const marginC = source.stillAir ? values.wbgtStillAirMarginC : 0;
      return { wbgtC: wbgtIndoorC(source.air) + marginC, marginC, mark: 'own-calibration', notes: [METER_BETTER, NO_RADIANT_HEAT] };
    }
    case 'outdoor-air':
      return { wbgtC: wbgtOutdoorScreeningC(source.air) + values.wbgtOutdoorMarginC, marginC: values.wbgtOutdoorMarginC, mark: 'common-practice', notes: [METER_BETTER, MODERATE_SUN] };
    default:
      throw new ClimateRangeError('heat.from must be one of: meter, thermometers, hall-air, outdoor-air.', 'from');
  }
}

const METER_BETTER: Advice<WbgtNoteCode> = { code: 'estimate_meter_better', values: {}, text: 'Estimated from air alone: a WBGT meter at the place is better.' };
const NO_RADIANT_HEAT: Advice<WbgtNoteCode> = { code: 'estimate_no_radiant_heat', values: {}, text: 'The estimate holds for a hall without sun, stoves or hot machines; near them it is too low.' };
const MODERATE_SUN: Advice<WbgtNoteCode> = { code: 'estimate_moderate_sun', values: {}, text: 'The estimate assumes moderate sun and light wind; in strong sun without wind it is too low.' };
