import { z } from 'zod';
import { DISPOSITIONS, STEP_KINDS } from '#care';
import { instant, uuid } from '../primitives.js';
import { RESOURCE_KINDS } from './plans.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

/** The time that a chart shows: from the present hour on when `from` is left out. */
const window = (hours: { most: number; usual: number }) => ({
  from: instant.optional().describe('The present hour when left out.'),
  hours: z.coerce.number().min(1).max(hours.most).default(hours.usual),
});
/** Minutes by which a beginning may be later than planned and counts as on time. Own calibration. */
export const toleranceMinutes = z.coerce.number().int().min(0).max(240).default(15).describe('Minutes by which a beginning may be later than planned and still counts as on time. 15 is our own calibration.');

export const StationPlanQuery = z.strictObject({ ...window({ most: 48, usual: 8 }), toleranceMinutes });

const STATES = ['planned', 'in-work', 'done', 'late', 'dropped'] as const;
const Span = z.strictObject({ from: z.string(), to: z.string() });
const Revision = z.strictObject({ id: z.string(), number: z.int(), madeAt: z.string() });

const bar = {
  lane: 0, step: 'rinse' as const, stepInWords: 'rinse', state: 'late' as const, startsAt: '2026-05-09T12:15:00.000Z', endsAt: '2026-05-09T12:45:00.000Z', batchId: null, origin: 'plan' as const,
  items: [{ itemId: id, tag: 'BBBC-BBB-47', disposition: 'treat' as const, state: 'late' as const, startedAt: null, finishedAt: null }],
};

export const StationPlanBody = z
  .strictObject({
    station: z.strictObject({ id: z.string(), code: z.string(), name: z.string(), siteId: z.string() }),
    at: z.string(),
    /** The plan in force; null when the incident has none. */
    revision: Revision.nullable(),
    /** False where what the plan was made from is not kept: then only what is in work now is told. */
    detailKept: z.boolean(),
    from: z.string(),
    to: z.string(),
    /** Things that the station takes at once by the plan; null when the plan does not know it. */
    capacity: z.int().nullable(),
    /** Rows of the chart: the capacity, and more where more is in work at once. */
    lanes: z.int(),
    /** By beginning. */
    bars: z.array(
      z.strictObject({
        /** From 0. A row of the chart and no number of a bath: the plan says only that there are enough. */
        lane: z.int(),
        step: z.enum(STEP_KINDS),
        stepInWords: z.string(),
        /** `done`: its end was reported, with or without a finding; `late`: it should have begun, by more than `toleranceMinutes`; `dropped`: it goes another way by now, or has left. */
        state: z.enum(STATES),
        startsAt: z.string(),
        endsAt: z.string(),
        /** Done together in one bath; null for alone. */
        batchId: z.string().nullable(),
        /** `plan`; `in-hand`: begun before the plan was made; `beside`: in work here although the plan has it elsewhere or not at all, its end is not foreseen. */
        origin: z.enum(['plan', 'in-hand', 'beside']),
        items: z.array(z.strictObject({ itemId: z.string(), tag: z.string(), disposition: z.enum(DISPOSITIONS).nullable(), state: z.enum(STATES), startedAt: z.string().nullable(), finishedAt: z.string().nullable() })),
      }),
    ),
    /** Bars that one answer does not hold; ask for fewer hours. */
    leftOut: z.int(),
    /** Closed hours, as the plan knew them, as far as it places work. */
    closed: z.array(Span),
    inWords: z.array(z.string()),
    standing: z.string(),
  })
  .meta({
    id: 'StationPlan',
    description: 'The work of a station over time by the plan in force, and how each piece of it stands by what was reported.',
    examples: [{
      station: { id, code: 'RINSE', name: 'Rinse baths', siteId: id }, at: '2026-05-09T12:40:00.000Z', revision: { id, number: 4, madeAt: '2026-05-09T12:02:00.000Z' }, detailKept: true, from: '2026-05-09T12:00:00.000Z', to: '2026-05-09T20:00:00.000Z', capacity: 2, lanes: 2,
      bars: [bar], leftOut: 0, closed: [{ from: '2026-05-09T18:00:00.000Z', to: '2026-05-09T20:00:00.000Z' }], inWords: ['1 piece of work is shown: 0 done, 0 in work, 1 late, 0 still to come.'], standing: 'Advice to a trained lead.',
    }],
  });

export const PlanLoadQuery = z
  .strictObject({
    resource: z.enum(RESOURCE_KINDS),
    what: z.string().max(60).default('').describe('The step of stations, a skill of people (all of them when left out), or the id of a drying room, freezer or service.'),
    siteId: uuid.optional().describe('Needed for stations and people.'),
    ...window({ most: 120, usual: 24 }),
  })
  .superRefine(({ resource, siteId, what }, context) => {
    if ((resource === 'station' || resource === 'crew') && siteId === undefined) context.addIssue({ code: 'custom', path: ['siteId'], message: 'is needed for stations and people' });
    if (resource !== 'crew' && what === '') context.addIssue({ code: 'custom', path: ['what'], message: 'is needed: a step, or the id of a drying room, freezer or service' });
  });

const NamedThing = z.strictObject({ id: z.string(), code: z.string(), name: z.string() });

export const PlanLoadBody = z
  .strictObject({
    revision: Revision,
    at: z.string(),
    resource: z.enum(RESOURCE_KINDS),
    what: z.string(),
    inWords: z.string(),
    site: NamedThing.nullable(),
    /** The drying room, freezer or courier; null for the other kinds. */
    thing: NamedThing.nullable(),
    unit: z.enum(['stations', 'people', 'm2', 'g-per-h', 'L', 'pieces']),
    from: z.string(),
    to: z.string(),
    /** Stretches of equal load, in order of time, as far as the plan reaches. `used` above `available` is an overload: what had begun before the plan was made. */
    steps: z.array(z.strictObject({ from: z.string(), to: z.string(), used: z.number(), available: z.number() })),
    told: z.array(z.string()),
    standing: z.string(),
  })
  .meta({
    id: 'PlanLoad',
    description: 'What the plan in force uses of one resource over time, against what there is. Things done together count once; what dries gives the air less and less water; what lies frozen takes its volume until it is thawed by the plan.',
    examples: [{
      revision: { id, number: 4, madeAt: '2026-05-09T12:02:00.000Z' }, at: '2026-05-09T12:40:00.000Z', resource: 'drying-area', what: id, inWords: 'Drying area in room ROOM', site: { id, code: 'HALL', name: 'Weir Lane hall' }, thing: { id, code: 'ROOM', name: 'Drying room' }, unit: 'm2',
      from: '2026-05-09T12:00:00.000Z', to: '2026-05-10T12:00:00.000Z', steps: [{ from: '2026-05-09T12:00:00.000Z', to: '2026-05-09T15:30:00.000Z', used: 12.4, available: 40 }], told: ['By plan 4.', 'The most is used on 9 May, 12:00: 12.4, where there are 40 (square metres).'], standing: 'Advice to a trained lead.',
    }],
  });
