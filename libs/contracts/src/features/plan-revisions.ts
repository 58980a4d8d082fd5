import { z } from 'zod';
import { DISPOSITIONS, STEP_KINDS } from '#care';
import { PageQuery, uuid } from '../primitives.js';
import { BLOCKER_KINDS, planFigures } from './plans.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

export const PLAN_CHANGE_KINDS = ['in-time', 'fallen-out', 'other-way', 'moved'] as const;

export const PlanRevisionParams = z.strictObject({ planRevisionId: uuid });
export const PlanChangesQuery = PageQuery.extend({
  since: uuid.optional().describe('An earlier plan of the same incident by its id. When left out: the plan that work followed before this one.'),
  kind: z.enum(PLAN_CHANGE_KINDS).optional(),
});

export const PublishPlanRevision = z
  .strictObject({ personId: uuid.describe('The lead who decides.') })
  .meta({ id: 'PublishPlanRevision', examples: [{ personId: id }] });
export type PublishPlanRevision = z.output<typeof PublishPlanRevision>;

const Tally = z.strictObject({ items: z.int(), weight: z.int() });

const revision = {
  id: z.string(),
  incidentId: z.string(),
  number: z.int(),
  madeAt: z.string(),
  /** `in-force`: work follows it; `proposal`: it waits for a coordinator; `past`: a later plan is in force, or nobody published it in time. */
  state: z.enum(['in-force', 'proposal', 'past']),
  publishedAt: z.string().nullable(),
  /** Null for what was published by itself, and for what was not. */
  publishedBy: z.strictObject({ id: z.string(), name: z.string() }).nullable(),
  /** Its assignments are still kept; of older plans only the figures are. */
  detailKept: z.boolean(),
  /** With the same rows these make the same plan. */
  seed: z.int(),
  iterations: z.int(),
  slotMinutes: z.int(),
  plannedItems: z.int(),
  unplannedItems: z.int(),
  inTime: Tally,
  notInTime: Tally,
};

const example = {
  id, incidentId: id, number: 5, madeAt: '2026-05-09T12:31:00.000Z', state: 'proposal' as const, publishedAt: null, publishedBy: null, detailKept: true, seed: 1, iterations: 200, slotMinutes: 5, plannedItems: 1840, unplannedItems: 390,
  inTime: { items: 1720, weight: 9200 }, notInTime: { items: 390, weight: 1800 },
};

export const PlanRevisionBody = z.strictObject(revision).meta({ id: 'PlanRevision', description: 'One numbered plan of an incident. All of them are kept.', examples: [example] });

export const PlanRevisionDetailBody = z
  .strictObject({ ...revision, ...planFigures, standing: z.string() })
  .meta({
    id: 'PlanRevisionDetail',
    description: 'One numbered plan with what it can and cannot do. Who does what in it is in the assignments, asked for by its number.',
    examples: [
      {
        ...example, from: '2026-05-09T12:30:00.000Z', to: '2026-05-12T12:30:00.000Z', inTimeBy: [{ disposition: 'treat', items: 1720, weight: 9200 }], late: { items: 12, weight: 60 }, lookOnly: { items: 5, weight: 40 }, followUp: { items: 120, weight: 700 },
        blocked: [], tight: [], standing: 'Advice, not a promise.',
      },
    ],
  });

const When = z.strictObject({ startsAt: z.string(), place: z.string().nullable() });

const change = {
  kind: 'moved' as const, itemId: id, tag: 'BBBC-BBB-47', weight: 24, step: 'rinse' as const, dispositionBefore: 'treat' as const, dispositionNow: 'treat' as const, before: { startsAt: '2026-05-09T13:00:00.000Z', place: 'RINSE' }, now: { startsAt: '2026-05-09T14:10:00.000Z', place: 'RINSE' },
  blockedBy: null, text: 'BBBC-BBB-47 (Wedding quilt): “Rinse” is planned at 2026-05-09 14:10 UTC at RINSE instead of at 2026-05-09 13:00 UTC at RINSE.',
};

export const PlanChangesBody = z
  .strictObject({
    now: z.strictObject({ revisionId: z.string(), number: z.int() }),
    /** Null for no plan before. */
    since: z.strictObject({ revisionId: z.string(), number: z.int() }).nullable(),
    /** Of the whole comparison, whatever the page and filter. */
    counts: z.strictObject({ inTime: Tally, fallenOut: Tally, otherWay: Tally, moved: Tally }),
    /** Items of the earlier plan that the later one has nothing to do for: done meanwhile, or gone. */
    settledItems: z.int(),
    /** The greatest weight first. */
    items: z.array(
      z.strictObject({
        /** `in-time`: it was not and is now; `fallen-out`: it was planned and is not, or not in time; `other-way`: it takes another way; `moved`: a step is at another place or more than 15 minutes off (our own calibration). */
        kind: z.enum(PLAN_CHANGE_KINDS),
        itemId: z.string(),
        tag: z.string(),
        weight: z.int(),
        /** The first step that moved, or that is new. */
        step: z.enum([...STEP_KINDS, 'carry']).nullable(),
        dispositionBefore: z.enum(DISPOSITIONS).nullable(),
        dispositionNow: z.enum(DISPOSITIONS).nullable(),
        before: When.nullable(),
        now: When.nullable(),
        blockedBy: z.strictObject({ kind: z.enum(BLOCKER_KINDS), what: z.string() }).nullable(),
        text: z.string(),
      }),
    ),
    nextCursor: z.string().nullable(),
  })
  .meta({
    id: 'PlanChanges',
    description: 'What a plan has otherwise than an earlier one, item by item and in words.',
    examples: [{ now: { revisionId: id, number: 5 }, since: { revisionId: id, number: 4 }, counts: { inTime: { items: 20, weight: 100 }, fallenOut: { items: 2, weight: 8 }, otherWay: { items: 1, weight: 6 }, moved: { items: 31, weight: 140 } }, settledItems: 14, items: [change], nextCursor: null }],
  });
