import { STANDARD_ITEM_KINDS, WEIGHING_CODES } from '#climate';
import { z } from 'zod';
import { PageQuery, uuid } from '../primitives.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

export const DryingRoomClimateParams = z.strictObject({ dryingRoomId: uuid });
export const ItemClimateParams = z.strictObject({ itemId: uuid });
export const RoomItemsQuery = PageQuery;

/** `?kinds=garment,book`. */
const kinds = z
  .string()
  .max(200)
  .transform((list) => [...new Set(list.split(','))])
  .pipe(z.array(z.enum(STANDARD_ITEM_KINDS)).min(1).max(4));

export const RoomAcceptanceQuery = z.strictObject({
  /** Up to four standard kinds, separated by commas. */
  kinds: kinds.default(['double-quilt', 'garment', 'a4-sheet', 'book']),
  withinHours: z.coerce.number().min(1).max(240).default(72),
});

const NamedRoom = z.strictObject({ id: z.string(), code: z.string(), name: z.string() });
const room = { id, code: 'ROOM', name: 'Upper hall' };

export const ROOM_AIR_STATES = ['below-cap', 'near-cap', 'over-cap', 'mould-possible'] as const;

export const RoomStateBody = z
  .strictObject({
    room: NamedRoom,
    incidentId: z.string(),
    siteId: z.string(),
    humidityCapPct: z.number(),
    /** Alarms about the room that are open; see `listAlarms`. */
    openAlarms: z.int(),
    /** Null before the first reckoning: nobody has read the room yet, or it happens at this moment. */
    climate: z
      .strictObject({
        /** The moment that all of it is of. */
        asOf: z.string(),
        airTempC: z.number(),
        relativeHumidityPct: z.number(),
        /** False: the last reading is too old, and the air is reckoned from it. */
        measured: z.boolean(),
        readAt: z.string(),
        state: z.enum(ROOM_AIR_STATES),
        statement: z.string(),
        outdoorTempC: z.number(),
        outdoorRelativeHumidityPct: z.number(),
        things: z.int(),
        dryThings: z.int(),
        /** Water to leave before everything counts as dry, kg. */
        waterLeftKg: z.number(),
        evaporationKgPerH: z.number(),
        /** Taken away by outdoor air; negative: brought in. */
        outdoorAirKgPerH: z.number(),
        /** By the labels of the running machines in this air. */
        dehumidifiersKgPerH: z.number(),
        machinesRunning: z.int(),
        machinesTripped: z.int(),
        /** Heat to hold the temperature while everything is wet, kW; negative: too warm. Null where nothing is wet. */
        heatToHoldKw: z.number().nullable(),
        clocks: z.strictObject({ inTime: z.int(), amber: z.int(), red: z.int(), none: z.int() }),
        nextDryAt: z.string().nullable(),
        allDryBy: z.string().nullable(),
        /** Highest humidity of the 72 hours to come. */
        peak: z.strictObject({ relativeHumidityPct: z.number(), at: z.string() }),
        overCapAt: z.string().nullable(),
      })
      .nullable(),
    standing: z.string(),
  })
  .meta({
    id: 'RoomState',
    description: 'A drying room by its newest reckoning: air, water left, what takes it away, clocks, what is to come. It is made anew when something is read, hung or taken, and every ten minutes.',
    examples: [
      {
        room, incidentId: id, siteId: id, humidityCapPct: 75, openAlarms: 1,
        climate: {
          asOf: '2026-05-09T14:06:00.000Z', airTempC: 22.5, relativeHumidityPct: 84, measured: true, readAt: '2026-05-09T14:05:00.000Z', state: 'mould-possible', statement: 'Air this damp lets mould grow even on things that are dry. Hang nothing more, and bring the humidity down.',
          outdoorTempC: 24, outdoorRelativeHumidityPct: 90, things: 40, dryThings: 3, waterLeftKg: 31.4, evaporationKgPerH: 0.8, outdoorAirKgPerH: -0.3, dehumidifiersKgPerH: 0, machinesRunning: 0, machinesTripped: 1, heatToHoldKw: 0.4,
          clocks: { inTime: 31, amber: 8, red: 1, none: 0 }, nextDryAt: '2026-05-09T19:30:00.000Z', allDryBy: null, peak: { relativeHumidityPct: 93.1, at: '2026-05-09T22:00:00.000Z' }, overCapAt: '2026-05-09T14:06:00.000Z',
        },
        standing: 'Estimates.',
      },
    ],
  });

export const RoomForecastBody = z
  .strictObject({
    room: NamedRoom,
    humidityCapPct: z.number(),
    /** Null, and no points, before the first reckoning. */
    from: z.string().nullable(),
    to: z.string().nullable(),
    peak: z.strictObject({ relativeHumidityPct: z.number(), at: z.string() }).nullable(),
    overCapAt: z.string().nullable(),
    /** By the hour. */
    points: z.array(
      z.strictObject({ at: z.string(), airTempC: z.number(), relativeHumidityPct: z.number(), evaporationKgPerH: z.number(), outdoorAirKgPerH: z.number(), dehumidifiersKgPerH: z.number(), waterLeftKg: z.number() }),
    ),
    standing: z.string(),
  })
  .meta({
    id: 'RoomForecast',
    description: 'A drying room for the 72 hours to come, if nothing is hung, taken or switched: with the machines that run, the temperature of now and the weather that is foreseen.',
    examples: [
      {
        room, humidityCapPct: 75, from: '2026-05-09T14:06:00.000Z', to: '2026-05-12T14:06:00.000Z', peak: { relativeHumidityPct: 71.2, at: '2026-05-09T16:00:00.000Z' }, overCapAt: null,
        points: [{ at: '2026-05-09T15:00:00.000Z', airTempC: 22.5, relativeHumidityPct: 70.1, evaporationKgPerH: 2.2, outdoorAirKgPerH: -0.4, dehumidifiersKgPerH: 2.4, waterLeftKg: 29.2 }], standing: 'Estimates.',
      },
    ],
  });

const water = {
  leftKg: z.number(),
  /** What may be left where the thing weighs more or less dry than its class, was wetter or drier when it was hung if nobody weighed it, and, of thick and closed things, gives its water off more slowly than the air takes it. Own calibration; the error of the speed is in the moments alone. */
  leftAtMostKg: z.number(),
  leftAtLeastKg: z.number(),
  /** Water in parts of the dry mass, likewise. */
  moistureX: z.number(),
  moistureAtMostX: z.number(),
  moistureAtLeastX: z.number(),
  /** What counts as dry. */
  targetX: z.number(),
  /** On what it rests: `weighed`, `carried` from another room, or the usual water of its `stage` when it was hung. */
  basis: z.enum(['weighed', 'carried', 'stage']),
  knownAt: z.string(),
};

/** On what the speed of drying rests: the `general` factor, or one that was `fitted` from so many weighings in this room. */
const Speed = z.strictObject({ basis: z.enum(['general', 'fitted']), weighings: z.int() });

const Clock = z.strictObject({
  state: z.enum(['in-time', 'amber', 'red']),
  /** 0 fresh, 1 the 48 h end of the rule of practice. */
  dose: z.number(),
  /** It stands still: too dry, or frozen. */
  paused: z.boolean(),
  hoursLeft: z.number().nullable(),
  /** By the short and the long end of what the sources span. */
  hoursLeftShortest: z.number().nullable(),
  hoursLeftLongest: z.number().nullable(),
  /** Part of the dose that rests on assumptions because nobody measured, %. */
  assumedPct: z.number(),
  measuredHours: z.number(),
  assumedHours: z.number(),
  amberAt: z.string().nullable(),
  redAt: z.string().nullable(),
});

const standingExample = {
  hungAt: '2026-05-09T11:00:00.000Z', takenAt: null, asOf: '2026-05-09T14:06:00.000Z', build: 'thick' as const, isDry: false, dryEarliestAt: '2026-05-09T20:00:00.000Z', dryExpectedAt: null, dryLatestAt: '2026-05-11T09:00:00.000Z',
  water: { leftKg: 1.6, leftAtMostKg: 2.3, leftAtLeastKg: 1.3, moistureX: 0.85, moistureAtMostX: 1.18, moistureAtLeastX: 0.61, targetX: 0.085, basis: 'weighed' as const, knownAt: '2026-05-09T11:00:00.000Z' },
  speed: { basis: 'general' as const, weighings: 0 },
  weighing: { decision: 'not-yet' as const, code: 'above-target' as const, weighAgainAt: '2026-05-09T17:00:00.000Z', targetMassKg: 2.28, inWords: 'Not yet: it still holds water above its target.' },
  clock: { state: 'in-time' as const, dose: 0.36, paused: false, hoursLeft: 33, hoursLeftShortest: 7.2, hoursLeftLongest: 58.9, assumedPct: 22, measuredHours: 3.1, assumedHours: 4, amberAt: '2026-05-09T21:20:00.000Z', redAt: null },
  inWords: ['Dry between 20:00 and 09:00 the day after, by a band: thick things dry from inside. Weigh it.'],
};

const Standing = z.strictObject({
  hungAt: z.string(),
  /** Null while it hangs. */
  takenAt: z.string().nullable(),
  asOf: z.string(),
  build: z.enum(['thin', 'thick', 'closed']),
  isDry: z.boolean(),
  /** Null for not within 72 hours, or never in this air. */
  dryEarliestAt: z.string().nullable(),
  /** Null for thick and closed things as well: a single moment would be false precision. */
  dryExpectedAt: z.string().nullable(),
  dryLatestAt: z.string().nullable(),
  water: z.strictObject(water),
  /** Null when it hangs no longer. */
  speed: Speed.nullable(),
  /** What its own weighings say, by the rules of the drying model; null where it was not weighed since it hangs so. */
  weighing: z.strictObject({ decision: z.enum(['ready', 'not-yet', 'weigh-again']), code: z.enum(WEIGHING_CODES), weighAgainAt: z.string().nullable(), targetMassKg: z.number().nullable(), inWords: z.string() }).nullable(),
  /** Null where mould cannot live on it. */
  clock: Clock.nullable(),
  inWords: z.array(z.string()),
});

export const ItemClimateBody = z
  .strictObject({ itemId: z.string(), tag: z.string(), room: NamedRoom.nullable(), standing: Standing.nullable(), advice: z.string() })
  .meta({
    id: 'ItemClimate',
    description: 'Water and mould clock of a thing in the drying room where it hangs or hung last. Room and standing are null for what never hung, and for a minute after it was hung.',
    examples: [{ itemId: id, tag: 'BBBC-BBB-47', room, standing: standingExample, advice: 'Estimates.' }],
  });

export const RoomItemBody = z
  .strictObject({ itemId: z.string(), tag: z.string(), standing: Standing })
  .meta({ id: 'RoomItem', description: 'A thing that hangs in a drying room, with its water and its clock.', examples: [{ itemId: id, tag: 'BBBC-BBB-47', standing: standingExample }] });

export const RoomAcceptanceBody = z
  .strictObject({
    room: NamedRoom,
    /** The reading that it starts from; null before the first reckoning, and then there are no kinds. */
    asOf: z.string().nullable(),
    withinHours: z.number(),
    freeAreaM2: z.number(),
    kinds: z.array(
      z.strictObject({
        kind: z.enum(STANDARD_ITEM_KINDS),
        /** Each kind by itself, with all that hangs there already. */
        items: z.int(),
        /** The fewest at either end of the band of the speed. */
        itemsAtLeast: z.int(),
        waterKg: z.number(),
        /** The drying factor that it is reckoned with and the band in which it most likely lies: fitted from weighings of such things here, or the general one and its error (own calibration). */
        speed: z.strictObject({ basis: z.enum(['general', 'fitted']), factor: z.number(), low: z.number(), high: z.number(), weighings: z.int() }),
        limitedBy: z.enum(['humidity-cap', 'mould-clock', 'time', 'rack-area', 'items-max', 'air-outside-model']),
        statement: z.string(),
      }),
    ),
    standing: z.string(),
  })
  .meta({
    id: 'RoomAcceptance',
    description: 'How many more things of standard kinds the room can take now, so that everything is dry in the time, no clock that still runs is used up, the room stays below its cap and there is rack for them. Machines are counted at most at their label.',
    examples: [{ room, asOf: '2026-05-09T14:05:00.000Z', withinHours: 72, freeAreaM2: 18, kinds: [{ kind: 'garment', items: 14, itemsAtLeast: 11, waterKg: 5, speed: { basis: 'fitted', factor: 0.52, low: 0.46, high: 0.58, weighings: 9 }, limitedBy: 'humidity-cap', statement: 'One more would lift the room above its humidity cap: more dehumidification helps, more racks do not.' }], standing: 'Estimates.' }],
  });
