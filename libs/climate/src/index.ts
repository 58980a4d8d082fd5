/** Climate: moist air, water in things, drying, rooms and the mould clock. Pure functions over plain data. */
export { ClimateRangeError } from './climate-range.error.js';
export type { MarkedNumber, NumberMark } from './marks.js';
export { CALIBRATION, DEFAULT_CALIBRATION, calibrate } from './calibration.js';
export type { CalibrationEntry, CalibrationKey, CalibrationValues } from './calibration.js';
export {
  dewPointC,
  enthalpyKjPerKg,
  humidityRatio,
  latentHeatJPerKg,
  saturationPressurePa,
  specificVolumeM3PerKg,
  standardPressurePa,
  vapourPressurePa,
  wetBulbC,
} from './psychrometrics.js';
export type { MoistAir } from './psychrometrics.js';
export { FIBRE_DENSITY_KG_PER_M3, MATERIALS, MATERIAL_TABLE, sorptionOf } from './materials.js';
export type { Material, MaterialRow, SorptionProperties } from './materials.js';
export {
  BOOK_UPTAKE,
  WATER_STAGES,
  booksWaterKg,
  dryTargetX,
  equilibriumMoistureX,
  moistureAtStageX,
  poreCeilingX,
  waterActivity,
  waterToRemoveAtStageKg,
  waterToRemoveKg,
  wetMassKg,
} from './water-in-things.js';
export type { BookPeriod, StageInput, WaterStage } from './water-in-things.js';
export { AIR_REACHES, PLACEMENTS, arrangementFactor, constantRateFluxKgPerM2H, exposedAreaM2, faceCount } from './evaporation.js';
export type { AirReach, DryingAir, Placement, ReachInput } from './evaporation.js';
export { BUILDS, dryingForecast, dryingLaw, dryingTimeH, extrapolateDryingH, fitArrangementFactor, moistureAfter } from './drying.js';
export type { Build, DryingForecast, DryingInput, DryingLaw, WeighingPair } from './drying.js';
export { RATING_POINTS, dehumidifierFactor, dehumidifierRemovalKgPerH } from './dehumidifier.js';
export type { Dehumidifier } from './dehumidifier.js';
export { linearRoomHumidity, sustainedRemoval, sustainedRemovalKgPerH, ventilationAdvice } from './room.js';
export type { RoomInput, SustainedRemoval, VentilationAdvice } from './room.js';
export { SIMULATION_HOURS_MAX, implicitHumidityStep, roomSteadyState, simulateRoom } from './room-simulation.js';
export type { GroupOutcome, SimulatedRoom, SimulationOptions, SimulationResult, SimulationStep, SteadyRoom, WetGroup } from './room-simulation.js';
export { itemsAcceptable } from './room-acceptance.js';
export type { Acceptance, AcceptanceInput, AcceptanceLimit, AcceptedGroup } from './room-acceptance.js';
export { MOULD_CLASSES, criticalHumidityPct, mouldClock, mouldDose, mouldHoursLeft, mouldRatePerH, roomState, surfaceConditions } from './mould-clock.js';
export type { ClockSegment, MouldClass, MouldClock, RoomClimate } from './mould-clock.js';
export { STANDARD_ITEM_KINDS, averageDryingLoadKgPerH, dryingLoad, standardExposedAreaM2, standardItem } from './loads.js';
export type { DryingLoad, LoadInput, StandardItem, StandardItemKind } from './loads.js';
export { frequencyMultiplier, LIFT_DURATIONS, peopleForLift, recommendedWeightKg, WET_BUNDLE } from './lifting.js';
export type { Coupling, LiftDuration, LiftTask } from './lifting.js';
export { CLOTHING_ADDITION_C, METABOLIC_RATE_W, STILL_AIR_MARGIN_C, sustainableRateW, wbgtIndoorC, workMinutesPerHour } from './heat-stress.js';
export type { HeatClothing, HeatWork, WorkEffort } from './heat-stress.js';
export { plotSvg, PLOT_STYLES } from './plot/index.js';
export type { Plot, PlotLimit, PlotPanel, PlotPoint, PlotSeries, PlotStyle } from './plot/index.js';
