import { z } from 'zod';
import { STEP_KINDS } from '#care';
import { toleranceMinutes } from './plan-charts.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

export const PlanProgressQuery = z.strictObject({ toleranceMinutes });

const Tally = z.strictObject({ items: z.int(), weight: z.int() });

const part = {
  since: z.string(),
  /** Planned beginnings that have come. */
  starts: z.strictObject({
    due: z.int(),
    onTime: z.int(),
    late: z.int(),
    /** Done, but when it was begun is not on record, and it ended after its planned end. */
    startUnknown: z.int(),
    notYet: z.int(),
    /** Its thing goes another way by now, or has left. */
    dropped: z.int(),
    /** Of those whose beginning is known; earlier than planned counts as no delay, what has not begun does not count. Null when there are none. */
    delayMinutes: z.strictObject({ median: z.number(), p80: z.number(), of: z.int() }).nullable(),
  }),
  /** Steps whose beginning and end are known: sums and medians of planned and actual minutes, rests included. */
  durations: z.array(z.strictObject({ step: z.enum(STEP_KINDS), steps: z.int(), plannedMinutes: z.number(), actualMinutes: z.number(), plannedMedianMinutes: z.number(), actualMedianMinutes: z.number() })),
  /** Things by whether they go the way that was planned: all of the plan in force; of the last day those that were due. */
  ways: z.strictObject({ followed: z.int(), otherWay: z.int(), notBegun: z.int() }),
  /** What the plan said would be safe in time; null where what it was made from is not kept. */
  promises: z
    .strictObject({
      /** The plan that said it. */
      revisionNumber: z.int(),
      promised: Tally,
      inTime: Tally,
      late: Tally,
      /** Not safe now. */
      open: Tally,
      /** Of `open`: the moment has passed. */
      overdue: Tally,
    })
    .nullable(),
  inWords: z.array(z.string()),
};

const partExample = {
  since: '2026-05-09T07:00:00.000Z', starts: { due: 40, onTime: 28, late: 6, startUnknown: 1, notYet: 4, dropped: 1, delayMinutes: { median: 4, p80: 18.5, of: 33 } },
  durations: [{ step: 'rinse' as const, steps: 12, plannedMinutes: 240, actualMinutes: 291, plannedMedianMinutes: 20, actualMedianMinutes: 23 }], ways: { followed: 30, otherWay: 2, notBegun: 190 },
  promises: { revisionNumber: 4, promised: { items: 150, weight: 900 }, inTime: { items: 20, weight: 160 }, late: { items: 1, weight: 6 }, open: { items: 129, weight: 734 }, overdue: { items: 2, weight: 9 } },
  inWords: ['40 beginnings were due: 28 came in time (within 15 minutes), 6 late, 4 have not come yet.'],
};

export const PlanProgressBody = z
  .strictObject({
    incidentId: z.string(),
    at: z.string(),
    toleranceMinutes: z.int(),
    /** Of the plan in force, since it was made. */
    inForce: z.strictObject({ revision: z.strictObject({ id: z.string(), number: z.int(), madeAt: z.string() }), ...part }),
    /** Of all plans that were in force in the last 24 hours, as far back as their detail is kept. Each step counts once, by the first moment for which it was planned. */
    lastDay: z.strictObject({
      /** The detail of the plans of 24 hours ago is not kept any more: `since` is later. */
      isCutShort: z.boolean(),
      revisionNumbers: z.array(z.int()),
      ...part,
    }),
    standing: z.string(),
  })
  .meta({
    id: 'PlanProgress',
    description: 'What was planned against what was done, from what was reported: whether work began when it was to begin, how long it took, whether things go the way that was planned, and whether what was to be safe in time is. It measures plans and no people.',
    examples: [{ incidentId: id, at: '2026-05-09T12:40:00.000Z', toleranceMinutes: 15, inForce: { revision: { id, number: 4, madeAt: '2026-05-09T12:02:00.000Z' }, ...partExample }, lastDay: { isCutShort: true, revisionNumbers: [2, 3, 4], ...partExample }, standing: 'Counted from what was reported.' }],
  });
