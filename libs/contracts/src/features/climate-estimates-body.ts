import { z } from 'zod';
import { STEP_KINDS } from '#care';
import {
  CLOCK_BASES, CLOCK_PLACEMENTS, CLOTHING_ADDITION_C, DAMAGE_CLOCKS, DAMAGE_HOLDINGS, HEAT_INDEX_BANDS, HEAT_PEOPLE, LIFT_CIRCUMSTANCES, LIFT_COUPLINGS, LIFT_DURATIONS, MATERIALS, METABOLIC_RATE_W, MOULD_CLASSES, VTT_CLASSES, VTT_DECLINE, WATER_STAGES, WET_BUNDLE,
  type DamageClockName, type HeatClothing, type VttDecline, type WorkEffort,
} from '#climate';
import { airTempC, code, instant, relativeHumidityPct, text } from '../primitives.js';
import { ESTIMATE_MARKS, EstimateBasis, estimateMembers, EstimateNote } from './climate-estimate-notes.js';

/** The names of a table, in its order. */
const names = <K extends string>(table: Readonly<Record<K, unknown>>) => Object.keys(table) as [K, ...K[]];

const noteExample = { code: 'wetness_unknown', values: {}, text: 'How wet the thing was is not known for all of the time; it counts as wet then. Weighing it tells.' };

const basisExample = { what: 'mouldHoursAtReference', value: 48, unit: 'h', mark: 'own-calibration' as const, source: 'Our own calibration to the rule of practice “dry or freeze within 24 to 48 hours”.' };
const estimateExample = { notes: [noteExample], basis: [basisExample], standing: 'A clock of the rule of practice, not a forecast of when mould starts.', estimatedAt: '2026-05-09T08:10:00.000Z' };

// --- clocks ---------------------------------------------------------------------------------------------------------------------

const outdoorAir = z.strictObject({ airTempC, relativeHumidityPct: relativeHumidityPct.nullable().default(null) });

export const EstimateClock = z
  .strictObject({
    material: z.enum(MATERIALS).default('unknown'),
    /** `clean-synthetic`: clean man-made fibre only; everything soiled is `sensitive`. */
    mouldClass: z.enum(MOULD_CLASSES).default('sensitive'),
    /** When it came out of the water, or the flood fell where nobody knows. */
    start: instant,
    /** The present time when left out. */
    until: instant.nullable().default(null),
    /** Dose at the start, 0 for fresh, 1 for the end of the rule. */
    startDose: z.number().min(0).max(10).default(0),
    /** Where it was from a moment on; before the first nobody knows. */
    stays: z.array(z.strictObject({ from: instant, placement: z.enum(CLOCK_PLACEMENTS), place: code.nullable().default(null) })).max(200).default([]),
    /** Air of the places, in any order. Without humidity the air counts as saturated. */
    readings: z.array(z.strictObject({ measuredAt: instant, airTempC, relativeHumidityPct: relativeHumidityPct.nullable().default(null), place: code.nullable().default(null) })).max(5_000).default([]),
    /** Water in it, kg per kg dry, from a moment on until the next weighing; null or left out: not known, which counts as wet. */
    wetness: z.array(z.strictObject({ from: instant, moistureX: z.number().min(0).max(20).nullable() })).max(200).default([]),
    /** Air outside, where it is known: counts where nobody measured. */
    outdoor: outdoorAir.nullable().default(null),
    vttClass: z.enum(VTT_CLASSES).default('very-sensitive'),
    vttDecline: z.enum(names<VttDecline>(VTT_DECLINE)).default('almost-none'),
    /** Clocks of other damage, with how the thing was held from a moment on; before the first it counts as left wet. */
    damage: z
      .array(z.strictObject({ clock: z.enum(names<DamageClockName>(DAMAGE_CLOCKS)), holdings: z.array(z.strictObject({ from: instant, holding: z.enum(DAMAGE_HOLDINGS) })).max(100).default([]) }))
      .max(10)
      .default([]),
  })
  .meta({
    id: 'EstimateClock',
    description: 'The history of a thing since it came out of the water: where it was, what was measured there, how wet it was. Valid for readings of -30 to 60 °C and for at most 400 days.',
    examples: [
      {
        material: 'cotton', start: '2026-05-08T18:00:00Z', until: '2026-05-10T06:00:00Z',
        stays: [{ from: '2026-05-08T18:00:00Z', placement: 'room', place: 'HALL' }, { from: '2026-05-09T12:00:00Z', placement: 'freezer', place: 'F1' }],
        readings: [{ measuredAt: '2026-05-08T18:00:00Z', airTempC: 19, relativeHumidityPct: 78, place: 'HALL' }, { measuredAt: '2026-05-09T06:00:00Z', airTempC: 17, relativeHumidityPct: 82, place: 'HALL' }, { measuredAt: '2026-05-09T13:00:00Z', airTempC: -19, place: 'F1' }],
        wetness: [{ from: '2026-05-08T18:00:00Z', moistureX: 1.6 }], outdoor: { airTempC: 14, relativeHumidityPct: 85 }, damage: [{ clock: 'coated-paper', holdings: [{ from: '2026-05-08T20:00:00Z', holding: 'kept-wet' }] }],
      },
    ],
  });
export type EstimateClock = z.output<typeof EstimateClock>;

const range = z.strictObject({ lowest: z.number(), highest: z.number() });
const byBasis = z.strictObject({ measured: z.number(), interpolated: z.number(), assumed: z.number() });

export const ClockEstimateBody = z
  .strictObject({
    until: z.string(),
    mould: z.strictObject({
      /** 0 fresh, 1 the 48 h end of the rule. */
      dose: z.number(),
      /** By the long and by the short end of what the sources span. */
      doseBand: range,
      state: z.enum(['in-time', 'amber', 'red']),
      paused: z.boolean(),
      /** Hours to red if nothing changes; null while it stands still. */
      hoursLeft: z.number().nullable(),
      hoursLeftBand: z.strictObject({ shortest: z.number(), longest: z.number() }).nullable(),
      /** The dose and the hours by what they rest on. */
      doseBy: byBasis,
      hoursBy: byBasis,
      pausedHours: z.number(),
      /** Part of the dose that rests on assumptions, 0 to 1. */
      assumedShare: z.number(),
      inWords: z.string(),
    }),
    /** The published mould index for the same history: 0 none, 1 first growth under the microscope, 3 seen by eye, 6 all over. */
    vtt: z.strictObject({ index: z.number(), vttClass: z.enum(VTT_CLASSES), vttDecline: z.enum(names<VttDecline>(VTT_DECLINE)) }),
    /** The second published model: days of dose, of the days at which growth begins on the most sensitive wood. */
    secondModel: z.strictObject({ doseDays: z.number(), criticalDays: z.number() }),
    segments: z.array(
      z.strictObject({
        from: z.string(), until: z.string(), hours: z.number(), placement: z.enum(CLOCK_PLACEMENTS), place: z.string().nullable(), basis: z.enum(CLOCK_BASES), paused: z.boolean(),
        surfaceTempC: range, waterActivity: range, doseGained: z.number(),
      }),
    ),
    damage: z.array(
      z.strictObject({
        clock: z.enum(names<DamageClockName>(DAMAGE_CLOCKS)), state: z.enum(['in-time', 'amber', 'red', 'begun']), usedHours: z.number(), stoppedHours: z.number(), stopped: z.boolean(), hoursLeft: z.number().nullable(),
        warnHours: z.number(), deadlineHours: z.number(), notes: z.array(EstimateNote), basis: z.array(EstimateBasis),
      }),
    ),
    ...estimateMembers,
  })
  .meta({
    id: 'ClockEstimate',
    description: 'The mould clock over the history, with its band and on what it rests; the published index and a second published model beside it; clocks of other damage.',
    examples: [
      {
        until: '2026-05-10T06:00:00.000Z',
        mould: { dose: 0.32, doseBand: { lowest: 0.21, highest: 0.64 }, state: 'in-time', paused: true, hoursLeft: null, hoursLeftBand: null, doseBy: { measured: 0, interpolated: 0, assumed: 0.32 }, hoursBy: { measured: 0, interpolated: 3, assumed: 33 }, pausedHours: 18, assumedShare: 1, inWords: 'The clock stands still at this temperature and dryness; it goes on from here when warmed or wetted.' },
        vtt: { index: 0.09, vttClass: 'very-sensitive', vttDecline: 'almost-none' }, secondModel: { doseDays: 2.9, criticalDays: 17 },
        segments: [{ from: '2026-05-08T18:00:00.000Z', until: '2026-05-09T12:00:00.000Z', hours: 18, placement: 'room', place: 'HALL', basis: 'assumed', paused: false, surfaceTempC: { lowest: 16.5, highest: 16.5 }, waterActivity: { lowest: 1, highest: 1 }, doseGained: 0.32 }],
        damage: [], ...estimateExample,
      },
    ],
  });

// --- lifts ----------------------------------------------------------------------------------------------------------------------

const kg = z.number().min(0).max(1_000);
const cm = z.number().min(0).max(300);

export const EstimateLift = z
  .strictObject({
    /** What is lifted at once, kg; or a bundle below. */
    loadKg: kg.nullable().default(null),
    bundle: z
      .strictObject({
        dryMassKg: z.number().positive().max(500),
        stage: z.enum(WATER_STAGES),
        material: z.enum(MATERIALS).default('unknown'),
        /** Batting or stuffing inside. */
        padded: z.boolean().default(false),
        thicknessM: z.number().positive().max(0.5).optional(),
        arealMassKgPerM2: z.number().positive().max(50).optional(),
      })
      .nullable()
      .default(null),
    /** The lift, metric; where it is left out, a wet bundle from the floor onto a table. */
    lift: z
      .strictObject({
        /** From the ankles to the hands, cm. */
        horizontalCm: z.number().min(0).max(200).default(WET_BUNDLE.horizontalCm),
        /** Hands above the floor where it begins, cm. */
        originCm: cm.default(WET_BUNDLE.originCm),
        /** Up and down, cm; by the ends where left out and both are told. */
        travelCm: cm.nullable().default(null),
        /** Hands above the floor where it is put down with care, and the reach there. */
        placedAtCm: cm.nullable().default(null),
        placedReachCm: z.number().min(0).max(200).nullable().default(null),
        asymmetryDeg: z.number().min(0).max(180).default(0),
        coupling: z.enum(LIFT_COUPLINGS).default(WET_BUNDLE.coupling),
      })
      .nullable()
      .default(null),
    liftsPerMin: z.number().min(0).max(60).default(WET_BUNDLE.liftsPerMin),
    /** Minutes of each quarter of an hour in which it is lifted at that pace, for lifting in spells. */
    liftingMinOf15: z.number().min(0).max(15).nullable().default(null),
    /** Lifting and the rest after it, in order of the day; the class of two hours where left out. */
    spells: z.array(z.strictObject({ liftingMin: z.number().min(0).max(1_440), recoveryMin: z.number().min(0).max(1_440) })).max(50).default([]),
    circumstances: z.array(z.enum(LIFT_CIRCUMSTANCES)).max(LIFT_CIRCUMSTANCES.length).default([]),
    /** Friction between sole and floor, where somebody measured it. */
    floorFriction: z.number().min(0).max(2).nullable().default(null),
    air: z.strictObject({ airTempC, relativeHumidityPct }).nullable().default(null),
  })
  .check((context) => {
    const { loadKg, bundle } = context.value;
    if ((loadKg === null) === (bundle === null)) context.issues.push({ code: 'custom', message: loadKg === null ? 'say what is lifted: loadKg or bundle' : 'give loadKg or bundle, not both', path: [loadKg === null ? 'loadKg' : 'bundle'], input: context.value });
  })
  .meta({
    id: 'EstimateLift',
    description: 'One lift: the load or the wet bundle, how it is lifted, how often, and what is around it. The equation holds for standing two-handed lifts in air of 19 to 26 °C and 35 to 50 %.',
    examples: [{ bundle: { dryMassKg: 2.1, stage: 'dripping', material: 'cotton', padded: true }, lift: { horizontalCm: 40, originCm: 10, placedAtCm: 90 }, spells: [{ liftingMin: 90, recoveryMin: 30 }] }],
  });
export type EstimateLift = z.output<typeof EstimateLift>;

const Multipliers = z.strictObject({ horizontal: z.number(), vertical: z.number(), distance: z.number(), asymmetry: z.number(), frequency: z.number(), coupling: z.number() });
const multipliersExample = { horizontal: 0.625, vertical: 0.805, distance: 0.876, asymmetry: 1, frequency: 0.95, coupling: 0.9 };

export const LiftEstimateBody = z
  .strictObject({
    /** False: the equation does not hold, and there is no number. */
    holds: z.boolean(),
    outside: z.array(EstimateNote),
    loadKg: z.number(),
    /** Water in the bundle, kg per kg dry; null where the load was told. */
    moistureX: z.number().nullable(),
    limitKg: z.strictObject({ origin: z.number(), destination: z.number().nullable(), lower: z.number() }).nullable(),
    multipliers: z.strictObject({ origin: Multipliers, destination: Multipliers.nullable() }).nullable(),
    /** Load over limit: aim at 1 or less, above 3 nearly everyone is at increased risk. */
    liftingIndex: z.number().nullable(),
    reading: z.enum(['within', 'raised', 'very-high']).nullable(),
    /** People who lift it together, 1 to 3; null: an aid. */
    people: z.int().nullable(),
    /** What one, two and three may lift. */
    teamKg: z.array(z.number()).nullable(),
    aid: z.boolean(),
    duration: z.enum(LIFT_DURATIONS).nullable(),
    /** Minutes of rest that the last spell still asks for. */
    recoveryNeededMin: z.number(),
    liftsPerMin: z.number(),
    /** The same bundle with less water in it. */
    lighter: z.array(z.strictObject({ stage: z.enum(WATER_STAGES), massKg: z.number(), people: z.int().nullable(), inWords: z.string() })),
    ...estimateMembers,
  })
  .meta({
    id: 'LiftEstimate',
    description: 'What one person may lift by the revised NIOSH equation, the lifting index, how many people lift it together by the HSE shares, or an aid. Outside of the equation there is no number.',
    examples: [
      {
        holds: true, outside: [], loadKg: 7.35, moistureX: 2.5, limitKg: { origin: 8.67, destination: null, lower: 8.67 }, multipliers: { origin: multipliersExample, destination: null }, liftingIndex: 0.85, reading: 'within', people: 1, teamKg: [8.67, 11.56, 13], aid: false,
        duration: 'moderate', recoveryNeededMin: 0, liftsPerMin: 0.2, lighter: [{ stage: 'drained', massKg: 5.57, people: 1, inWords: 'Once drained it weighs about 5.6 kg: a load for 1 person.' }], ...estimateExample,
        notes: [{ code: 'upper_screen', values: {}, text: 'Local rules and people trained in manual handling come first. For wet things the limit is the most, not an aim.' }], standing: 'Local rules and people trained in manual handling come first. For wet things the limit is the most, not an aim.',
      },
    ],
  });

// --- heat -----------------------------------------------------------------------------------------------------------------------

const air = z.strictObject({ airTempC, relativeHumidityPct });
const thermometer = z.number().min(-20).max(50);

export const EstimateHeat = z
  .strictObject({
    heat: z.discriminatedUnion('from', [
      z.strictObject({ from: z.literal('meter'), wbgtC: z.number().min(-10).max(60), air: air.nullable().default(null) }),
      z.strictObject({ from: z.literal('thermometers'), naturalWetBulbC: thermometer, globeC: z.number().min(-20).max(90), airTempC, inSun: z.boolean() }),
      /** A hall without sun, stoves or hot machines. */
      z.strictObject({ from: z.literal('hall-air'), air, stillAir: z.boolean().default(true) }),
      /** Moderate sun and light wind. */
      z.strictObject({ from: z.literal('outdoor-air'), air }),
    ]),
    wear: z
      .strictObject({
        /** By the equipment below where left out. */
        clothing: z.enum(names<HeatClothing>(CLOTHING_ADDITION_C)).nullable().default(null),
        /** Equipment as a step of the rule book names it. */
        ppe: z.array(text(200)).max(30).default([]),
        hood: z.boolean().default(false),
        shortSleeves: z.boolean().default(false),
        /** A suit that closes the body off with its own air. */
        encapsulating: z.boolean().default(false),
      })
      .prefault({}),
    /** By the step where left out, else moderate. */
    effort: z.enum(names<WorkEffort>(METABOLIC_RATE_W)).nullable().default(null),
    step: z.enum(STEP_KINDS).nullable().default(null),
    /** What is lifted is too heavy for one. */
    tooHeavyForOne: z.boolean().default(false),
    person: z
      .strictObject({
        /** Only who has worked in such heat for days. Volunteers are not. */
        acclimatised: z.boolean().default(false),
        kind: z.enum(HEAT_PEOPLE).default('new'),
        /** 1 for the first day in the heat; counts as the first where nobody knows. */
        dayInHeat: z.int().min(1).max(1_000).nullable().default(null),
        /** Taken at the start of the last rest. */
        pulsePerMin: z.int().min(20).max(260).nullable().default(null),
      })
      .prefault({}),
    /** Share of the sky without clouds, 0 to 1; 0 in a hall. */
    sunshineShare: z.number().min(0).max(1).default(0),
  })
  .meta({
    id: 'EstimateHeat',
    description: 'A step, what is worn for it, who does it, and the heat of the place from a meter or from the air.',
    examples: [{ heat: { from: 'hall-air', air: { airTempC: 24, relativeHumidityPct: 60 }, stillAir: true }, wear: { clothing: 'vapour-barrier', hood: true }, step: 'rinse', person: { kind: 'new', dayInHeat: 2 } }],
  });
export type EstimateHeat = z.output<typeof EstimateHeat>;

export const HeatEstimateBody = z
  .strictObject({
    wbgtC: z.number(),
    /** Of it our own margin. */
    marginC: z.number(),
    wbgtMark: z.enum(ESTIMATE_MARKS),
    clothing: z.enum(names<HeatClothing>(CLOTHING_ADDITION_C)),
    effort: z.enum(names<WorkEffort>(METABOLIC_RATE_W)),
    clothingAdditionC: z.number(),
    wbgtWithClothingC: z.number(),
    /** Up to here this effort may go on all hour. */
    limitC: z.number(),
    /** Rounded down to quarters of an hour; 0 stops the step. */
    workMinutesPerHour: z.int(),
    restMinutesPerHour: z.int(),
    stop: z.boolean(),
    shiftSharePct: z.number(),
    /** Longest spell without somebody looking at the person, minutes; null where the table asks for none. */
    longestUnwatchedMin: z.number().nullable(),
    /** For display; holds for shade and ordinary clothes. */
    heatIndex: z.strictObject({ indexC: z.number(), band: z.enum(HEAT_INDEX_BANDS) }).nullable(),
    ...estimateMembers,
  })
  .meta({
    id: 'HeatEstimate',
    description: 'Wet-bulb globe temperature with what the clothing adds, minutes of work in each hour against the NIOSH limits, share of the shift, cautions. 0 minutes stop the step.',
    examples: [
      {
        wbgtC: 20.72, marginC: 0.5, wbgtMark: 'own-calibration', clothing: 'vapour-barrier', effort: 'moderate', clothingAdditionC: 12, wbgtWithClothingC: 32.72, limitC: 24.97, workMinutesPerHour: 0, restMinutesPerHour: 60, stop: true, shiftSharePct: 40, longestUnwatchedMin: 120, heatIndex: { indexC: 24.1, band: 'none' }, ...estimateExample,
        notes: [{ code: 'buddy', values: {}, text: 'Nobody works alone in heat.' }], standing: 'Advice for planning: local law, a safety officer on the spot and how people feel come first. Anybody may stop.',
      },
    ],
  });
