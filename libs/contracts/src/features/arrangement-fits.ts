import { BUILDS, LEFT_OUT_REASONS, MATERIALS } from '#climate';
import { z } from 'zod';
import { dryingArrangement } from './incident-document.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

const Interval = z.strictObject({ low: z.number(), high: z.number() });

/** Median, with its 80 % and 95 % intervals. */
const Factor = z.strictObject({ factor: z.number(), interval80: Interval, interval95: Interval });

/** Weighings of one thing in a row that belong together. */
const FitStretch = z.strictObject({
  itemId: z.string(),
  tag: z.string(),
  from: z.string(),
  to: z.string(),
  weighings: z.int(),
  lossKg: z.number(),
  /** What it would have lost in the same air with a fan across its faces, which is the factor 1. */
  lossAtFactor1Kg: z.number(),
  /** The factor that this stretch shows by itself, and its standard error from scale, hygrometer and scatter. */
  factor: z.number(),
  factorError: z.number(),
});

export const UNUSED_WEIGHING_REASONS = [...LEFT_OUT_REASONS, 'in-doubt', 'lot-split'] as const;

const Unused = z.strictObject({ itemId: z.string(), tag: z.string(), weighedAt: z.string(), reason: z.enum(UNUSED_WEIGHING_REASONS), statement: z.string() });

const ArrangementFit = z.strictObject({
  material: z.enum(MATERIALS),
  build: z.enum(BUILDS),
  arrangement: dryingArrangement,
  /** The drying places of this arrangement where the things hung that were weighed. */
  dryingPlaceIds: z.array(z.string()),
  ...Factor.shape,
  /** What was believed before anybody weighed: the general factor with its spread. */
  prior: Factor,
  /** By how much stretches scatter about the factor, as a share. */
  scatter: z.number(),
  /** The weighings narrowed the interval to less than four fifths of what it was. */
  informative: z.boolean(),
  /** The factor that such things are reckoned with in this room from its next reckoning on, in steps of two per cent; null for the general one. */
  appliedFactor: z.number().nullable(),
  inWords: z.array(z.string()),
  used: z.array(FitStretch),
  unused: z.array(Unused),
});

export const ArrangementFitsBody = z
  .strictObject({
    room: z.strictObject({ id: z.string(), code: z.string(), name: z.string() }),
    asOf: z.string(),
    /** Weighings on places of the room that were looked at, doubtful ones among them: the newest 500. */
    weighings: z.int(),
    /** Older ones that were not looked at. */
    olderWeighings: z.int(),
    /** By arrangement, material and build; empty when nothing was weighed where it hangs. */
    fits: z.array(ArrangementFit),
    standing: z.string(),
  })
  .meta({
    id: 'ArrangementFits',
    description: 'How fast things of one material dry in one arrangement of a drying room, refitted from what was weighed there: the factor with its intervals, what was believed before, the weighings it rests on, and those that were left out with the reason. 1 is a fan across all breathing faces.',
    examples: [
      {
        room: { id, code: 'ROOM', name: 'Upper hall' }, asOf: '2026-05-09T18:00:00.000Z', weighings: 5, olderWeighings: 0,
        fits: [
          {
            material: 'cotton', build: 'thin', arrangement: 'rack', dryingPlaceIds: [id], factor: 0.44, interval80: { low: 0.38, high: 0.5 }, interval95: { low: 0.34, high: 0.55 },
            prior: { factor: 0.65, interval80: { low: 0.389, high: 1.085 }, interval95: { low: 0.297, high: 1.424 } }, scatter: 0.12, informative: true, appliedFactor: 0.44,
            inWords: ['By 4 weighings such things dry at 68 % of the speed that is otherwise assumed, most likely 58 to 77 %. The room is reckoned with it.'],
            used: [{ itemId: id, tag: 'BBBC-BBB-47', from: '2026-05-09T09:00:00.000Z', to: '2026-05-09T13:00:00.000Z', weighings: 4, lossKg: 0.41, lossAtFactor1Kg: 0.93, factor: 0.44, factorError: 0.03 }],
            unused: [{ itemId: id, tag: 'BBBC-BBB-47', weighedAt: '2026-05-09T17:00:00.000Z', reason: 'below-critical', statement: 'It was nearly dry, and then things slow down by themselves.' }],
          },
        ],
        standing: 'Estimates.',
      },
    ],
  });
