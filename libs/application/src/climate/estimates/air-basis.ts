/** What the estimates of drying, rooms and acceptance rest on, constant by constant. */
import { say } from '#care';
import { MATERIAL_TABLE, type AirReach, type Build, type CalibrationKey, type CalibrationValues, type Dehumidifier, type Material, type WaterStage } from '#climate';
import { fixed, own, OWN_TABLE, type Basis } from './basis.js';

const ASHRAE = say('ASHRAE Handbook, Fundamentals 2017, SI, chapter 1: moist air, as read in the PsychroLib implementation. Valid for -50 to 60 °C; ideal gas, so saturation reads up to 0.6 % low.');
const LATENT = say('From memory, not verified: heat of evaporation as a straight line from 0 to 40 °C.');
const POOL = say('Form of the pool equation: ASHRAE Transactions 1998, 104-1A, as read in its abstract. Its level is trusted to 30 % either way until fitted from weighings.');
const POOL_SI = say('From memory, not verified: the pool equation in SI units; the inch-pound one converts to it within 1 %.');
const FOURT = say('Fourt, Sookne, Frishman and Harris, The Rate of Drying of Fabrics, abstract: one rate for all fabrics of an area, set by the air film. Holds for thin goods, below about 5 mm.');
const REGAIN = say('Regain at 65 % and 20 °C: Bioresources and Bioprocessing 2020, 10.1186/s40643-020-00339-1, table 10, after Morton and Hearle 2008.');
const REMEMBERED = say('From memory, not verified.');
const AS_COTTON = say('Our own: mixed or unknown goods count as cotton, acetate by the same proportion.');
const SHAPE = say('Our own: a straight line through the regain at 65 %, a parabola to saturation; drying slows below saturation. It decides the last tenth or two of the time.');
const NREL = say('Winkler, Christensen and Tomerlin, Laboratory Test Report for Six ENERGY STAR Dehumidifiers, NREL, 2011: coefficients as read in copies; the title from memory. Measured down to about 21 °C; below that carried on by us.');
const LABEL = say('The label of the machine at its rating point, as told.');
const HUKKA = say('A. Hukka and H. A. Viitanen, Wood Science and Technology 33 (1999): shape of growth with temperature and humidity, as read in copies; found on wood, carried over by us.');
const BALANCE = say('Our own scheme over the balance of water: steps of 15 minutes, checked against an independent integrator within 0.5 %. Temperature is taken as held; walls store neither water nor heat.');

const REACH_KEYS: Readonly<Record<AirReach, CalibrationKey>> = { 'packed-rack': 'packedRackFactor', 'open-rack': 'openRackFactor', 'fan-across': 'fanAcrossFactor' };
const STAGE_KEYS: Readonly<Record<WaterStage, readonly CalibrationKey[]>> = { dripping: ['drippingX'], drained: ['drainedX'], 'hand-wrung': ['handWrungX'], blotted: ['blottedX', 'paddedBlottedX'], spun: ['spunX'] };

/** The part of goods that counts here. */
export interface BasisGoods {
  group: { material: Material; build: Build; airReach?: AirReach };
  stage: WaterStage | null;
}

/** What one thing drying in air used. */
export function dryingBasis(goods: readonly BasisGoods[], values: CalibrationValues): Basis[] {
  const keys = new Set<CalibrationKey>(['dryTargetMarginX', 'dryTargetActivityMax', 'stillAirSpeedMPerS', 'minimumCriticalX', 'thinErrorFraction']);
  for (const { group, stage } of goods) {
    if (group.airReach !== undefined) keys.add(REACH_KEYS[group.airReach]);
    for (const key of stage === null ? [] : STAGE_KEYS[stage]) keys.add(key);
    if (group.build !== 'thin') keys.add('thickSlowdownMax');
  }
  return [
    fixed('moistAir', null, '-', 'published', ASHRAE),
    fixed('heatOfEvaporation', null, 'J/kg', 'from-memory', LATENT),
    fixed('poolEquation', null, '-', 'published', POOL),
    fixed('poolEquationStillAir', 0.089, 'W/(m2 Pa)', 'from-memory', POOL_SI),
    fixed('poolEquationPerSpeed', 0.0782, 'W/(m2 Pa) per m/s', 'from-memory', POOL_SI),
    fixed('oneRateForAllFabrics', null, '-', 'published', FOURT),
    ...[...new Set(goods.map(({ group }) => group.material))].flatMap(materialBasis),
    fixed('shapeOfSorption', null, '-', 'own-calibration', SHAPE),
    ...own(values, [...keys], OWN_TABLE),
  ];
}

function materialBasis(material: Material): Basis[] {
  const { regainAt65X, saturationX } = MATERIAL_TABLE[material];
  const sources = { published: REGAIN, 'common-practice': REMEMBERED, 'from-memory': REMEMBERED, 'own-calibration': AS_COTTON } as const;
  return [
    fixed(`regainAt65X of ${material}`, regainAt65X.value, 'kg/kg', regainAt65X.mark, sources[regainAt65X.mark]),
    fixed(`saturationX of ${material}`, saturationX.value, 'kg/kg', saturationX.mark, sources[saturationX.mark]),
  ];
}

/** What a room used besides. */
export function roomBasis(goods: readonly BasisGoods[], machines: readonly Dehumidifier[], values: CalibrationValues): Basis[] {
  const refrigerant = machines.some(({ kind }) => kind === 'refrigerant');
  return [
    ...dryingBasis(goods, values),
    fixed('roomBalance', null, '-', 'own-calibration', BALANCE),
    ...(machines.length === 0 ? [] : [fixed('ratedLitresPerDay', machines.reduce((sum, machine) => sum + machine.ratedLitresPerDay, 0), 'L/d', 'common-practice', LABEL)]),
    ...(refrigerant ? [fixed('dehumidifierCurves', null, '-', 'published', NREL), ...own(values, ['frostFadeStartTempC', 'frostFadeEndTempC'], OWN_TABLE)] : []),
    ...(machines.some(({ litresPerKwhAtRating, electricPowerW }) => litresPerKwhAtRating === undefined && electricPowerW === undefined) ? own(values, ['litresPerKwhAtRating'], OWN_TABLE) : []),
    fixed('mouldShape', null, '-', 'published', HUKKA),
    ...own(values, ['mouldHoursAtReference', 'redDose', 'roomCapPct', 'ventilationMarginKgPerKg', 'circuitContinuousW', 'fanPowerW', 'worthwhileSaving'], OWN_TABLE),
  ];
}

/** What an acceptance used besides. */
export function acceptanceBasis(goods: readonly BasisGoods[], machines: readonly Dehumidifier[], values: CalibrationValues): Basis[] {
  return [...roomBasis(goods, machines, values), ...own(values, ['promiseFactorMax'], OWN_TABLE)];
}
