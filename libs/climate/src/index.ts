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
  moistAir,
  saturationPressurePa,
  specificVolumeM3PerKg,
  standardPressurePa,
  vapourPressurePa,
  wetBulbC,
} from './psychrometrics.js';
export type { MeasuredAir, MoistAir } from './psychrometrics.js';
export { AirPressurePa, AltitudeM, Celsius, EnthalpyKjPerKg, HumidityRatioKgPerKg, LatentHeatJPerKg, RelativeHumidityPct, SpecificVolumeM3PerKg, VapourPressurePa } from './units.js';
export type { Quantity, QuantityOf } from './units.js';
export { FIBRE_DENSITY_KG_PER_M3, MATERIALS, MATERIAL_TABLE, sorptionOf } from './materials.js';
export type { Material, MaterialRow, SorptionProperties } from './materials.js';
export {
  BOOK_UPTAKE,
  WATER_STAGES,
  booksWaterKg,
  dryTargetX,
  equilibriumMoistureX,
  dampMoistureX,
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
export { airSpan } from './air-history.js';
export type { AirReading, AirSpan } from './air-history.js';
export { fitArrangement } from './fit-arrangement.js';
export type { ArrangementFit, FactorEstimate, FitAdvice } from './fit-arrangement.js';
export { LEFT_OUT_REASONS } from './fit-runs.js';
export type { FitRun, LeftOut, LeftOutReason, Weighing, WeighingSeries } from './fit-runs.js';
export { WEIGHING_CODES, weighingDecision } from './weighing-decision.js';
export type { WeighingCode, WeighingDecision, WeighingQuestion } from './weighing-decision.js';
export { DEHUMIDIFIER_CURVES, dehumidifierCurveValue } from './dehumidifier-curves.js';
export type { DehumidifierCurve, DehumidifierCurveName } from './dehumidifier-curves.js';
export { RATING_POINTS, dehumidifierFactor, dehumidifierPowerKw, dehumidifierRemovalKgPerH } from './dehumidifier.js';
export type { Dehumidifier } from './dehumidifier.js';
export { linearRoomHumidity, sustainedRemoval, sustainedRemovalKgPerH, ventilationAdvice } from './room.js';
export type { RoomInput, SustainedRemoval, VentilationAdvice } from './room.js';
export { SIMULATION_HOURS_MAX, implicitHumidityStep, roomSteadyState, simulateRoom } from './room-simulation.js';
export type { GroupOutcome, SimulatedRoom, SimulationOptions, SimulationResult, SimulationStep, SteadyRoom, WetGroup } from './room-simulation.js';
export { advanceRoomCourse, startRoomCourse } from './room-course.js';
export type { RoomCourseInput, RoomCourseStart } from './room-course.js';
export type { CourseGoods, CourseGroup, CourseStep, CourseWater, RoomCourseAdvance, RoomCourseState, RoomEvent, RoomForcing } from './room-course.types.js';
export { itemsAcceptable } from './room-acceptance.js';
export type { Acceptance, AcceptanceInput } from './room-acceptance.js';
export type { AcceptanceLimit, AcceptedGroup } from './room-trial.js';
export { mixedAcceptance } from './room-acceptance-mixed.js';
export type { MixedAcceptance, MixedAcceptanceInput, MixedAcceptanceRow, WaitingGroup } from './room-acceptance-mixed.js';
export { ROOM_WARNING_CODES, roomOutlook } from './room-outlook.js';
export type { GoodsOutlook, OutlookInput, RoomOutlook, RoomWarningCode } from './room-outlook.js';
export { roomPower } from './room-power.js';
export type { RoomPower } from './room-power.js';
export { roomWhatIf, WHAT_IF_CODES } from './room-what-if.js';
export type { RoomChange, WhatIf, WhatIfCode, WhatIfInput, WhatIfOutcome } from './room-what-if.js';
export { MOULD_CLASSES, criticalHumidityPct, mouldClock, mouldDose, mouldHoursLeft, mouldRatePerH, roomState, surfaceConditions } from './mould-clock.js';
export type { ClockSegment, MouldClass, MouldClock, RoomClimate } from './mould-clock.js';
export { advanceVtt, LUND_CRITICAL_DAYS, lundDoseDays, VTT_CLASSES, VTT_CLASS_TABLE, VTT_DECLINE, VTT_FRESH, vttIndex, vttIndexMax, vttWeeksToFirstGrowth, vttWeeksToVisibleGrowth } from './vtt.js';
export type { VttClass, VttClassRow, VttDecline, VttState } from './vtt.js';
export type { Advice } from './advice.js';
export { advanceClock, CLOCK_BASES, CLOCK_PLACEMENTS, startClock } from './clock-state.js';
export type { ClockReading, ClockBasis, ClockPlacement, ClockState, ClockStretch, ClockThing } from './clock-state.js';
export { clockFromReadings, doseBand } from './clock-history.js';
export type { ClockHistory, ClockHistoryOptions, ClockHistorySegment, ClockNoteCode, PlaceReading, Stay, Wetness } from './clock-history.js';
export { STANDARD_ITEM_KINDS, averageDryingLoadKgPerH, dryingLoad, standardExposedAreaM2, standardItem } from './loads.js';
export type { DryingLoad, LoadInput, StandardItem, StandardItemKind } from './loads.js';
export { DAMAGE_CLOCKS, DAMAGE_HOLDINGS, damageClock } from './damage-clocks.js';
export type { DamageClock, DamageClockName, DamageClockRow, DamageHolding, DamageHours, DamageNoteCode, DamageStretch } from './damage-clocks.js';
export { frequencyMultiplier, horizontalFromDepthCm, LIFT_COUPLINGS, LIFT_DURATIONS, liftingIndex, liftMultipliers, LOAD_CONSTANT_KG, recommendedWeightKg, recommendedWeightLb, WET_BUNDLE } from './lifting.js';
export type { Coupling, LiftDuration, LiftMultipliers, LiftReading, LiftTask } from './lifting.js';
export { peopleForLift, teamCapacitiesKg, wetBundleKg } from './lifting-crew.js';
export type { WetBundle } from './lifting-crew.js';
export { LIFT_CIRCUMSTANCES, liftAnswer, liftScope } from './lifting-scope.js';
export type { LiftAnswer, LiftCircumstance, LiftNoteCode, LiftQuestion, LiftScopeCode } from './lifting-scope.js';
export { liftDurationOf, spellLiftsPerMin } from './lifting-work.js';
export type { LiftSpell } from './lifting-work.js';
export { CLOTHING_ADDITION_C, clothingAdditionC, heatLimitC, HOOD_ADDITION_C, METABOLIC_RATE_W, REST_RATE_W, SHORT_SLEEVES_ADDITION_C, STILL_AIR_MARGIN_C, sustainableRateW, wbgtIndoorC, workMinutesPerHour } from './heat-stress.js';
export type { HeatClothing, HeatWear, HeatWork, WorkEffort } from './heat-stress.js';
export { wbgtFromThermometersC, wbgtOf, wbgtOutdoorScreeningC } from './wbgt.js';
export type { HeatSource, Wbgt, WbgtNoteCode } from './wbgt.js';
export { HEAT_INDEX_BANDS, heatIndexBand, heatIndexC, heatIndexF } from './heat-index.js';
export type { HeatIndexBand } from './heat-index.js';
export { HEAT_PEOPLE, heatAnswer, longestUnwatchedMin, nextSpellMin, REST_PULSE_MAX, shiftSharePct } from './heat-work.js';
export type { HeatAnswer, HeatNoteCode, HeatPerson, HeatQuestion } from './heat-work.js';
export { BAR_LOOKS, lanesSvg, loadSvg, plotSvg, PLOT_STYLES, thinPoints } from './plot/index.js';
export type { Bar, BarLook, ChartTime, LaneChart, LoadChart, LoadStep, Plot, PlotClock, PlotLimit, PlotPanel, PlotPoint, PlotSeries, PlotStyle, SheetWords } from './plot/index.js';
export { READING_DOUBTS, doubtSpanH, doubtsOf, readingFaults } from './readings.js';
export type { DoubtFacts, ReadingDoubt, ReadingFault, ReadingTimes, SensorReading } from './readings.js';
export { WEIGHING_DOUBTS, ceilingX, weighingDoubts, weighingFaults } from './weighings.js';
export type { KnownWeighing, WeighedThing, WeighingDoubt, WeighingFault } from './weighings.js';
