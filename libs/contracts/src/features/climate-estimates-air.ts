import { z } from 'zod';
import { BUILDS, MATERIALS, MOULD_CLASSES, AIR_REACHES, PLACEMENTS, STANDARD_ITEM_KINDS, WATER_STAGES } from '#climate';
import { airTempC, relativeHumidityPct, text } from '../primitives.js';
import { estimateMembers, EstimateNote } from './climate-estimate-notes.js';

// --- what is asked with ---------------------------------------------------------------------------------------------------------

/** The drying model holds from 1 to 45 degrees. */
const dryingTempC = z.number().min(1).max(45);
const airSpeedMPerS = z.number().min(0).max(2);
const altitudeM = z.number().min(-500).max(5_000);
const name = text(60);
const hours = z.number().min(1).max(120);
const capPct = z.number().min(30).max(100);

const goodsMembers = {
  /** A name for the answer; its place in the list, from 1, when left out. */
  name: name.nullable().default(null),
  /** A usual thing: material, mass, size and build are taken from it where they are left out. */
  kind: z.enum(STANDARD_ITEM_KINDS).nullable().default(null),
  material: z.enum(MATERIALS).nullable().default(null),
  /** Of one thing, dry, kg. */
  dryMassKg: z.number().positive().max(1_000).nullable().default(null),
  /** One side of one thing, m2. */
  faceAreaM2: z.number().positive().max(1_000).nullable().default(null),
  /** How it lies or hangs; flat on a board when neither this nor `kind` says. */
  placement: z.enum(PLACEMENTS).nullable().default(null),
  /** `thin`: air reaches all of it. Without this and `kind` it counts as thick. */
  build: z.enum(BUILDS).nullable().default(null),
  /** Water in it, kg per kg dry. */
  moistureX: z.number().min(0).max(10).nullable().default(null),
  /** Where nobody weighed it: how far the water is out; drained when left out. */
  stage: z.enum(WATER_STAGES).nullable().default(null),
  /** How air reaches it; a packed rack, the slowest, when left out. */
  airReach: z.enum(AIR_REACHES).nullable().default(null),
  /** A factor of your own, fitted from weighings; goes before `airReach`. */
  arrangementFactor: z.number().positive().max(5).nullable().default(null),
  /** `clean-synthetic`: clean man-made fibre only; everything soiled is `sensitive`. */
  mouldClass: z.enum(MOULD_CLASSES).default('sensitive'),
  /** Mould dose already gained: 0 fresh, 1 the 48 h end of the rule of practice. */
  mouldDose: z.number().min(0).max(10).default(0),
};
const count = z.int().min(1).max(2_000).default(1);

type Sized = { kind: string | null; material: string | null; dryMassKg: number | null; faceAreaM2: number | null };

/** What neither the thing itself nor its kind says cannot be reckoned with. */
function needSizes(context: z.core.ParsePayload<Sized>): void {
  if (context.value.kind !== null) return;
  for (const member of ['material', 'dryMassKg', 'faceAreaM2'] as const) {
    if (context.value[member] === null) context.issues.push({ code: 'custom', message: 'is needed where no kind is given', path: [member], input: context.value });
  }
}

const Goods = z.strictObject(goodsMembers).check(needSizes);
const CountedGoods = z.strictObject({ ...goodsMembers, count }).check(needSizes);
export type EstimatedGoods = z.output<typeof Goods>;

const Machine = z.strictObject({
  kind: z.enum(['refrigerant', 'desiccant']).default('refrigerant'),
  ratedLitresPerDay: z.number().positive().max(5_000),
  /** The point that the label holds at. Sellers often quote 30 °C and 80 %, makers 26.7 °C and 60 %. */
  ratedAtTempC: z.number().min(10).max(32.2),
  ratedAtRelativeHumidityPct: z.number().min(50).max(80),
  /** Desiccant only: the maker's sheet states constant removal from 1 to 30 °C. */
  makerStatesConstantRemoval: z.boolean().default(false),
  /** Litres per kWh at that point, from the label. */
  litresPerKwhAtRating: z.number().min(0.1).max(10).nullable().default(null),
  /** From the nameplate, W; goes before litres per kWh. */
  electricPowerW: z.number().min(0).max(50_000).nullable().default(null),
  /** Machines like this. */
  count: z.int().min(1).max(20).default(1),
});
export type EstimatedMachine = z.output<typeof Machine>;

const Room = z.strictObject({
  volumeM3: z.number().min(1).max(1_000_000),
  /** Held at this; what heat that takes is answered. */
  airTempC: dryingTempC,
  relativeHumidityPct,
  /** Outdoor air that comes in, room volumes an hour; 0.5 when left out, a room with its windows shut. */
  airChangesPerH: z.number().min(0).max(60).default(0.5),
  outdoorTempC: airTempC,
  outdoorRelativeHumidityPct: relativeHumidityPct,
  /** Machines that run. */
  dehumidifiers: z.array(Machine).max(10).default([]),
  /** Over the racks, m/s; still air when left out. */
  airSpeedMPerS: airSpeedMPerS.nullable().default(null),
  /** Fans that run, for the electric load. */
  fans: z.int().min(0).max(100).default(0),
  /** Above sea level, m. */
  altitudeM: altitudeM.default(0),
});
export type EstimatedRoom = z.output<typeof Room>;

const Change = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('add-dehumidifier'), machine: Machine }),
  z.strictObject({ kind: z.literal('fan'), airSpeedMPerS, fans: z.int().min(1).max(20).default(1) }),
  z.strictObject({ kind: z.literal('open-windows'), airChangesPerH: z.number().min(0).max(60) }),
  z.strictObject({ kind: z.literal('close-windows'), airChangesPerH: z.number().min(0).max(60) }),
  /** `goods` by name. */
  z.strictObject({ kind: z.literal('take-off'), goods: name, count: z.int().min(1).max(2_000) }),
]);
export type EstimatedChange = z.output<typeof Change>;

/** Two things of one list may not bear one name. */
function eachNamedOnce(list: string) {
  return (context: z.core.ParsePayload<object>): void => {
    const things = (context.value as Record<string, { name: string | null }[] | undefined>)[list] ?? [];
    const names = things.map((thing, index) => thing.name ?? String(index + 1));
    names.forEach((one, index) => {
      if (names.indexOf(one) !== index) context.issues.push({ code: 'custom', message: 'is the name of another one of the list', path: [list, index, 'name'], input: context.value });
    });
  };
}

export const EstimateDrying = z
  .strictObject({
    air: z.strictObject({ airTempC: dryingTempC, relativeHumidityPct, airSpeedMPerS: airSpeedMPerS.nullable().default(null), altitudeM: altitudeM.default(0) }),
    goods: Goods,
    /** Interval of a factor that was fitted from weighings: it takes the place of the general error. */
    factorBand: z.strictObject({ low: z.number().positive().max(5), high: z.number().positive().max(5) }).nullable().default(null),
  })
  .check((context) => {
    const band = context.value.factorBand;
    if (band !== null && band.low > band.high) context.issues.push({ code: 'custom', message: 'lies above high', path: ['factorBand', 'low'], input: context.value });
  })
  .meta({
    id: 'EstimateDrying',
    description: 'One thing and the air that it dries in, taken as steady. Valid for 1 to 45 °C and best for 5 to 98 %, up to 2 m/s, thin goods below about 5 mm; thick and closed goods get a band.',
    examples: [{ air: { airTempC: 20, relativeHumidityPct: 50 }, goods: { material: 'cotton', dryMassKg: 2.4, faceAreaM2: 4, placement: 'hung-single', build: 'thin', moistureX: 1.2, airReach: 'open-rack' } }],
  });
export type EstimateDrying = z.output<typeof EstimateDrying>;

export const EstimateRoom = z
  .strictObject({
    room: Room,
    goods: z.array(CountedGoods).max(60).default([]),
    /** How far to look, h. */
    withinH: hours.default(72),
    /** Humidity that the room may not pass, %; the network's calibration when left out. */
    capPct: capPct.nullable().default(null),
    /** What to try; the usual five when left out: one more machine, a fan, windows, fewer things, a fan with one more machine. */
    whatIfs: z.array(z.strictObject({ name, changes: z.array(Change).min(1).max(5) })).max(8).nullable().default(null),
  })
  .check(eachNamedOnce('goods'), eachNamedOnce('whatIfs'))
  .meta({
    id: 'EstimateRoom',
    description: 'A room with its machines, its air and what hangs in it.',
    examples: [
      {
        room: { volumeM3: 60, airTempC: 20, relativeHumidityPct: 60, airChangesPerH: 0.5, outdoorTempC: 12, outdoorRelativeHumidityPct: 80, dehumidifiers: [{ ratedLitresPerDay: 20, ratedAtTempC: 26.7, ratedAtRelativeHumidityPct: 60, count: 2 }] },
        goods: [{ name: 'covers', material: 'cotton', dryMassKg: 0.5, faceAreaM2: 1.5, placement: 'hung-single', build: 'thin', moistureX: 1, airReach: 'open-rack', count: 40 }],
      },
    ],
  });
export type EstimateRoom = z.output<typeof EstimateRoom>;

const Waiting = z
  .strictObject({
    ...goodsMembers,
    count,
    /** Of the free rack, for one, m2; from the kind where left out. */
    rackM2PerItem: z.number().positive().max(1_000).nullable().default(null),
  })
  .check(needSizes);

export const EstimateAcceptance = z
  .strictObject({
    room: Room,
    /** What hangs there already. */
    hanging: z.array(CountedGoods).max(40).default([]),
    /** What waits, most important first. */
    waiting: z.array(Waiting).min(1).max(12),
    /** All must be dry within this, h. */
    withinH: hours.default(72),
    capPct: capPct.nullable().default(null),
    /** Free rack, line or table, m2; not asked when left out. */
    freeRackM2: z.number().min(0).max(100_000).nullable().default(null),
  })
  .check(eachNamedOnce('waiting'), (context) => {
    const { freeRackM2, waiting } = context.value;
    if (freeRackM2 === null) return;
    waiting.forEach((thing, index) => {
      if (thing.rackM2PerItem === null && thing.kind === null) context.issues.push({ code: 'custom', message: 'is needed where freeRackM2 is given and no kind', path: ['waiting', index, 'rackM2PerItem'], input: context.value });
    });
  })
  .meta({
    id: 'EstimateAcceptance',
    description: 'A room, what hangs in it, and what waits for a place in order of importance.',
    examples: [
      {
        room: { volumeM3: 60, airTempC: 20, relativeHumidityPct: 60, outdoorTempC: 12, outdoorRelativeHumidityPct: 80, dehumidifiers: [{ ratedLitresPerDay: 20, ratedAtTempC: 26.7, ratedAtRelativeHumidityPct: 60, count: 2 }] },
        waiting: [{ name: 'covers', material: 'cotton', dryMassKg: 0.5, faceAreaM2: 1.5, placement: 'hung-single', build: 'thin', moistureX: 1, airReach: 'open-rack', count: 60, rackM2PerItem: 1.5 }],
        freeRackM2: 80,
      },
    ],
  });
export type EstimateAcceptance = z.output<typeof EstimateAcceptance>;

// --- what is answered -------------------------------------------------------------------------------------------------------------

const LIMITS = ['humidity-cap', 'mould-clock', 'time', 'rack-area'] as const;
const answerExample = {
  notes: [{ code: 'arrangement-assumed', values: { factor: 0.35 }, text: 'How the air reaches it was not told: a packed rack is taken, the slowest.' }],
  basis: [{ what: 'openRackFactor', value: 0.65, unit: '-', mark: 'own-calibration' as const, source: 'Our own calibration, not a published fact: what it leans on stands in the calibration of the network, where it can be set.' }],
  standing: 'An estimate to plan with, not a promise: weigh, feel and watch the hygrometer. A lead who sees the things decides.',
  estimatedAt: '2026-05-09T08:10:00.000Z',
};
const hoursOrNull = z.number().nullable();

export const DryingEstimateBody = z
  .strictObject({
    air: z.strictObject({ wetBulbC: z.number(), dewPointC: z.number().nullable(), humidityRatioGPerKg: z.number(), enthalpyKjPerKg: z.number(), volumeM3PerKg: z.number(), pressurePa: z.number() }),
    goods: z.strictObject({
      material: z.enum(MATERIALS), build: z.enum(BUILDS), dryMassKg: z.number(), exposedAreaM2: z.number(), arrangementFactor: z.number(),
      /** Water now, where it counts as dry, and where it comes to rest in this air, kg per kg dry. */
      startX: z.number(), targetX: z.number(), restX: z.number(), wetMassKg: z.number(), targetMassKg: z.number(), waterToRemoveKg: z.number(),
    }),
    /** Water that one square metre of one wet face gives off, kg/(m2 h), and the whole thing, kg/h, while it is wet through. */
    fluxKgPerM2H: z.number(),
    rateKgPerH: z.number(),
    /** Thin goods only; null for others, and when the air is too damp. */
    hours: hoursOrNull,
    earliestH: hoursOrNull,
    latestH: hoursOrNull,
    tooDamp: z.boolean(),
    inWords: z.string(),
    ...estimateMembers,
  })
  .meta({
    id: 'DryingEstimate',
    description: 'How long one thing takes to dry in this air. Null hours with `tooDamp` mean never in this air.',
    examples: [
      {
        air: { wetBulbC: 13.78, dewPointC: 9.26, humidityRatioGPerKg: 7.26, enthalpyKjPerKg: 38.54, volumeM3PerKg: 0.8402, pressurePa: 101_325 },
        goods: { material: 'cotton', build: 'thin', dryMassKg: 2.4, exposedAreaM2: 8, arrangementFactor: 0.65, startX: 1.2, targetX: 0.085, restX: 0.0577, wetMassKg: 5.28, targetMassKg: 2.604, waterToRemoveKg: 2.676 },
        fluxKgPerM2H: 0.0373, rateKgPerH: 0.2988, hours: 10.5, earliestH: 7.3, latestH: 15, tooDamp: false, inWords: 'Dry after about 10.5 h, between 7.3 and 15 h: the level is uncertain until fitted from two weighings.', ...answerExample,
      },
    ],
  });

const limit = z.enum(LIMITS);
const whatIfMembers = {
  steadyRelativeHumidityPct: z.number(), peakRelativeHumidityPct: z.number(), allDryAtH: hoursOrNull,
  /** Most that any of the goods gains. */
  doseGained: z.number(), brokenLimit: limit.nullable(), electricKw: z.number(), heatToHoldKw: z.number(),
};
const whatIfExample = { steadyRelativeHumidityPct: 70.98, peakRelativeHumidityPct: 70.98, allDryAtH: 7.99, doseGained: 0.116, brokenLimit: null, electricKw: 1.4, heatToHoldKw: -1.24 };

export const RoomEstimateBody = z
  .strictObject({
    capPct: z.number(),
    /** While everything is wet, kg/h. Outdoor air below 0 brings water in. */
    steady: z.strictObject({ relativeHumidityPct: z.number(), humidityRatioGPerKg: z.number(), evaporationKgPerH: z.number(), outdoorAirKgPerH: z.number(), dehumidifiersKgPerH: z.number(), condensationKgPerH: z.number() }),
    peakRelativeHumidityPct: z.number(),
    /** The first limit that is broken; null when all hold. */
    brokenLimit: limit.nullable(),
    /** With thick goods at the late end of their band; null for not within the time. */
    allDryAtH: hoursOrNull,
    goods: z.array(
      z.strictObject({
        name: z.string(), count: z.int(), startX: z.number(), targetX: z.number(), waterToRemoveKg: z.number(),
        /** Thin goods only. */
        dryAtH: hoursOrNull, earliestH: hoursOrNull, latestH: hoursOrNull, mouldDoseGained: z.number(), mouldDoseAtEnd: z.number(),
      }),
    ),
    /** Hour by hour, and at the end; moisture in the order of the goods. */
    course: z.array(z.strictObject({ atH: z.number(), relativeHumidityPct: z.number(), evaporationKgPerH: z.number(), moistureX: z.array(z.number()) })),
    /** Where the water went over the course, kg. */
    water: z.strictObject({ evaporatedKg: z.number(), outdoorAirKg: z.number(), dehumidifiedKg: z.number(), condensedKg: z.number() }),
    power: z.strictObject({ dehumidifiersKw: z.number(), fansKw: z.number(), totalKw: z.number(), circuitsAtLeast: z.int(), litresPerKwh: z.number().nullable() }),
    /** Heat that holds the temperature after what machines and fans give off, kW; below 0 the room grows warmer. Walls are not counted. */
    heatToHoldKw: z.number(),
    /** Best first. */
    whatIfs: z.array(z.strictObject({ name: z.string(), inWords: z.string(), ...whatIfMembers, hoursSaved: hoursOrNull, recommended: z.boolean(), notes: z.array(EstimateNote) })),
    ...estimateMembers,
  })
  .meta({
    id: 'RoomEstimate',
    description: 'A room over the hours to come: humidity, when each thing is dry, mould dose, water, power and heat, warnings, and what some changes would do, ranked.',
    examples: [
      {
        capPct: 75, steady: { relativeHumidityPct: 77.23, humidityRatioGPerKg: 11.29, evaporationKgPerH: 1.924, outdoorAirKgPerH: 0.153, dehumidifiersKgPerH: 1.77, condensationKgPerH: 0 }, peakRelativeHumidityPct: 77.23, brokenLimit: 'humidity-cap', allDryAtH: 10.21,
        goods: [{ name: 'covers', count: 40, startX: 1, targetX: 0.085, waterToRemoveKg: 18.3, dryAtH: 10.21, earliestH: 7.15, latestH: 14.58, mouldDoseGained: 0.153, mouldDoseAtEnd: 0.153 }],
        course: [{ atH: 1, relativeHumidityPct: 76.9, evaporationKgPerH: 1.95, moistureX: [0.898] }], water: { evaporatedKg: 18.3, outdoorAirKg: 1.5, dehumidifiedKg: 16.7, condensedKg: 0 },
        power: { dehumidifiersKw: 0.95, fansKw: 0, totalKw: 0.95, circuitsAtLeast: 1, litresPerKwh: 1.87 }, heatToHoldKw: -0.76,
        whatIfs: [{ name: 'one-more-machine', inWords: 'One more machine like the largest one.', ...whatIfExample, hoursSaved: 2.22, recommended: true, notes: [{ code: 'brings-below-cap', values: { peakPct: 71, capPct: 75 }, text: 'It brings the room below its cap, to at most about 71 %.' }] }],
        ...answerExample,
      },
    ],
  });

export const AcceptanceEstimateBody = z
  .strictObject({
    capPct: z.number(),
    acceptedItems: z.int(),
    waterKg: z.number(),
    /** What stopped the first kind that is not wholly taken; null when all fits. */
    bindingLimit: limit.nullable(),
    allDryAtH: hoursOrNull,
    peakRelativeHumidityPct: z.number().nullable(),
    freeRackM2Left: z.number().nullable(),
    /** In the order given. */
    waiting: z.array(
      z.strictObject({
        name: z.string(), waiting: z.int(), accepted: z.int(), waterKg: z.number(), rackM2: z.number().nullable(), limitedBy: limit.nullable(), dryAtH: hoursOrNull,
        /** How many of this kind could be hung if nothing else were, up to 2000. */
        acceptedAlone: z.int(),
      }),
    ),
    /** What the room sheds hour after hour at its cap, kg. */
    sustainedRemovalKgPerH: z.number(),
    inWords: z.string(),
    ...estimateMembers,
  })
  .meta({
    id: 'AcceptanceEstimate',
    description: 'How many of what waits may be hung now so that everything, with what hangs already, is dry within the time and its mould clock, the air stays below its cap, and the rack holds it.',
    examples: [
      {
        capPct: 75, acceptedItems: 34, waterKg: 15.56, bindingLimit: 'humidity-cap', allDryAtH: 9.25, peakRelativeHumidityPct: 74.7, freeRackM2Left: 29,
        waiting: [{ name: 'covers', waiting: 60, accepted: 34, waterKg: 15.56, rackM2: 51, limitedBy: 'humidity-cap', dryAtH: 9.25, acceptedAlone: 34 }], sustainedRemovalKgPerH: 1.81,
        inWords: 'Hang 34 of 60 now: one more would lift the room above its humidity cap.', ...answerExample,
      },
    ],
  });
