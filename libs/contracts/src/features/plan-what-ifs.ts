import { z } from 'zod';
import { DISPOSITIONS, RESTRICTIONS, SKILLS, STEP_KINDS } from '#care';
import { airTempC, instant, relativeHumidityPct, uuid } from '../primitives.js';
import { freezerVolumeL, restriction, ShiftInput, skill } from './incident-document.js';
import { BLOCKER_KINDS } from './plans.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const UNITS = 50;
const notNothing = { message: 'changes nothing; give a number above or below 0' };
const span = <T extends { from: string; to: string }>({ from, to }: T) => Date.parse(from) < Date.parse(to);
const ordered = { message: 'ends before it begins', path: ['to'] };

/** One change, as people speak of it. */
export const PlanWhatIfChange = z
  .discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('people'),
      siteId: uuid,
      count: z.int().min(1).max(UNITS),
      skills: z.array(skill).max(SKILLS.length).default([]),
      restrictions: z.array(restriction).max(RESTRICTIONS.length).default([]),
      /** Whether the fit of their respirators is valid. */
      respiratorFit: z.boolean().default(false),
      shifts: z.array(ShiftInput.refine(({ startsAt, endsAt }) => Date.parse(startsAt) < Date.parse(endsAt), { message: 'ends before it begins', path: ['endsAt'] })).min(1).max(30),
    }),
    z.strictObject({ kind: z.literal('person-leaves'), personId: uuid, at: instant }),
    z.strictObject({ kind: z.literal('station-units'), stationId: uuid, units: z.int().min(-UNITS).max(UNITS).refine((units) => units !== 0, notNothing) }),
    z.strictObject({ kind: z.literal('station-open'), stationId: uuid, from: instant, to: instant }).refine(span, ordered),
    z.strictObject({ kind: z.literal('station-closed'), stationId: uuid, from: instant, to: instant }).refine(span, ordered),
    z.strictObject({ kind: z.literal('drying-area'), dryingRoomId: uuid, areaM2: z.number().min(-1000).max(1000).refine((area) => Math.abs(area) >= 0.01, notNothing) }),
    z.strictObject({ kind: z.literal('dehumidifier'), dryingRoomId: uuid, ratedLPerDay: z.number().positive().max(5_000), ratedTempC: airTempC, ratedRelativeHumidityPct: relativeHumidityPct, at: instant.optional() }),
    z.strictObject({ kind: z.literal('dehumidifier-fails'), dehumidifierId: uuid, at: instant.optional() }),
    z.strictObject({ kind: z.literal('freezer'), siteId: uuid, volumeL: freezerVolumeL, at: instant.optional() }),
    z.strictObject({ kind: z.literal('freezer-fails'), freezerId: uuid, at: instant.optional() }),
    /** More or fewer things on the bench of a specialist at once. */
    z.strictObject({ kind: z.literal('specialist-units'), specialistId: uuid, units: z.int().min(-UNITS).max(UNITS).refine((units) => units !== 0, notNothing) }),
  ])
  .meta({
    id: 'PlanWhatIfChange',
    description: 'More of something, or less. Without `at` it holds from now on. A dehumidifier is told by its label; what it would take from this air is reckoned by the physics of the room.',
    examples: [{ kind: 'people', siteId: id, count: 1, skills: ['colour-testing'], restrictions: [], respiratorFit: false, shifts: [{ startsAt: '2026-05-10T06:00:00.000Z', endsAt: '2026-05-10T14:00:00.000Z' }] }],
  });
export type PlanWhatIfChange = z.output<typeof PlanWhatIfChange>;

export const RequestPlanWhatIf = z
  .strictObject({
    /** Tried one by one; what is usually asked for where the plan is short, when left out. */
    changes: z.array(PlanWhatIfChange).min(1).max(12).optional(),
    /** Made all together instead: another bath saves nothing without the hands for it. */
    together: z.boolean().default(false),
    /** What would get this item in. */
    itemId: uuid.optional(),
  })
  .meta({ id: 'RequestPlanWhatIf', examples: [{ changes: [{ kind: 'freezer', siteId: id, volumeL: 500 }, { kind: 'station-units', stationId: id, units: 1 }], together: false }] });
export type RequestPlanWhatIf = z.output<typeof RequestPlanWhatIf>;

export const PlanWhatIfParams = z.strictObject({ planWhatIfId: uuid });

const Band = z.strictObject({ least: z.int(), middle: z.int(), greatest: z.int() });
/** `runs`: how many of the plans agree on it. */
const TurnedItem = z.strictObject({ itemId: z.string(), tag: z.string(), description: z.string(), weight: z.int(), runs: z.int() });

const WhatIfValue = z.strictObject({
  changes: z.array(PlanWhatIfChange),
  /** The changes in words. */
  inWords: z.string(),
  /** Weight in time with it and not without it, less what is not in time any more; below 0 when it costs. */
  weightSaved: Band,
  savedItems: z.int(),
  lostItems: z.int(),
  /** The greatest weight first; the first hundred. */
  saved: z.array(TurnedItem),
  lost: z.array(TurnedItem),
  valueInWords: z.string(),
  /** What it asks of people, power and places. */
  cautions: z.array(z.string()),
});

const WhatIfItem = z.strictObject({
  itemId: z.string(),
  tag: z.string(),
  /** Plans of `seeds` in which it is in time although nothing changes. */
  unchangedRuns: z.int(),
  /** The same for each of `values`. */
  changedRuns: z.array(z.int()),
  /** The first of `values` with which it is in time in every plan; null when there is none, or none is needed. */
  smallest: z.int().nullable(),
  inWords: z.string(),
});

const doneExample = {
  id, incidentId: id, state: 'done' as const, requestedAt: '2026-05-09T12:02:00.000Z', startedAt: '2026-05-09T12:02:01.000Z', finishedAt: '2026-05-09T12:02:20.000Z', plansDone: 6, plansInAll: 6, itemId: null, failure: null,
  result: {
    asOf: '2026-05-09T12:02:01.000Z', revisionId: id, revisionNumber: 4, seeds: [1, 2, 3], iterations: 200, weightNotInTimeInForce: 1900, weightNotInTime: { least: 1880, middle: 1885, greatest: 1893 },
    values: [{
      changes: [{ kind: 'freezer' as const, siteId: id, volumeL: 500 }], inWords: 'a freezer of 500 L more at Weir Lane hall', weightSaved: { least: 96, middle: 104, greatest: 104 }, savedItems: 11, lostItems: 0,
      saved: [{ itemId: id, tag: 'BBBC-BBB-47', description: 'Box of letters', weight: 24, runs: 3 }], lost: [],
      valueInWords: 'It would save a weight of 96 to 104, as the search goes.', cautions: ['Check the power and the floor before a machine or a freezer is set up.'],
    }],
    item: null, standing: 'Reckoned, not promised.',
  },
};

export const PlanWhatIfBody = z
  .strictObject({
    id: z.string(),
    incidentId: z.string(),
    state: z.enum(['queued', 'running', 'done', 'failed']),
    requestedAt: z.string(),
    startedAt: z.string().nullable(),
    finishedAt: z.string().nullable(),
    /** Plans made so far, and in all; null before it is known. */
    plansDone: z.int(),
    plansInAll: z.int().nullable(),
    itemId: z.string().nullable(),
    failure: z.string().nullable(),
    result: z
      .strictObject({
        /** The rows were read then. */
        asOf: z.string(),
        /** The plan that was in force then. */
        revisionId: z.string(),
        revisionNumber: z.int(),
        seeds: z.array(z.int()),
        iterations: z.int(),
        /** By the plan in force, as it was stored. */
        weightNotInTimeInForce: z.int(),
        /** The same when the unchanged rows are planned anew: what the changes are measured against. */
        weightNotInTime: Band,
        values: z.array(WhatIfValue),
        item: WhatIfItem.nullable(),
        standing: z.string(),
      })
      .nullable(),
  })
  .meta({
    id: 'PlanWhatIf',
    description: 'What changes would save, by planning the incident as it stood with and without them, over the same seeds and rounds. The plan in force is never touched. `weight` is the planning weight, our own calibration.',
    examples: [doneExample],
  });

export const PlanExplanationQuery = z.strictObject({ before: uuid.optional() });

const Blocked = z.strictObject({ kind: z.enum(BLOCKER_KINDS), what: z.string(), text: z.string() });
const place = { id: z.string(), code: z.string() };
const Place = z.strictObject({ kind: z.enum(['station', 'drying-place', 'freezer', 'specialist']), ...place });

const ExplainedStep = z.strictObject({
  position: z.int(),
  step: z.enum([...STEP_KINDS, 'carry']),
  startsAt: z.string(),
  endsAt: z.string(),
  places: z.array(Place),
  /** Minutes between the end of the step before and this one. */
  waitMinutes: z.int(),
  waitsFor: Blocked.nullable(),
  /** What it waits for is closed or in use; without one it lies frozen, is pinned, keeps to the plan before, or goes together with others; null when it would no longer have to wait. */
  because: z.enum(['closed', 'in-use', 'frozen', 'pinned', 'kept', 'together']).nullable(),
  /** What else on the site does such a step, and why not then; `free` when it would do as well. */
  alternatives: z.array(z.strictObject({ kind: z.enum(['station', 'drying-place', 'freezer']), ...place, because: z.enum(['barred', 'too-small', 'closed', 'in-use', 'company', 'room-air', 'free']) })),
});

const Before = z.strictObject({
  otherItemId: z.string(),
  otherTag: z.string(),
  /** Null when both begin at the same time, or neither is planned. */
  firstItemId: z.string().nullable(),
  reasons: z.array(z.enum(['pinned', 'asked-first', 'not-planned', 'not-there-yet', 'together', 'shared', 'nothing-shared', 'safe-already', 'due-sooner', 'heavier', 'although-due-sooner', 'although-heavier', 'search'])),
  inWords: z.array(z.string()),
});

export const PlanExplanationBody = z
  .strictObject({
    itemId: z.string(),
    tag: z.string(),
    revisionId: z.string(),
    revisionNumber: z.int(),
    /** All of this is as things stood when the plan was made. */
    madeAt: z.string(),
    /** `left-out`: it waits for people; `not-in-plan`: it came later, or nothing was left to be done. */
    state: z.enum(['planned', 'unplanned', 'left-out', 'not-in-plan']),
    disposition: z.enum(DISPOSITIONS).nullable(),
    steps: z.array(ExplainedStep),
    stabilisedAt: z.string().nullable(),
    /** Minutes to spare before its deadline; below 0 when it is late. */
    slackMinutes: z.int().nullable(),
    blockedBy: Blocked.nullable(),
    passedOver: z.array(z.strictObject({ disposition: z.enum(DISPOSITIONS), blockedBy: Blocked.nullable() })),
    inWords: z.array(z.string()),
    /** What would get it in, by the newest what-if about it on this revision; null when none was asked for. */
    wouldHelp: z.strictObject({ planWhatIfId: z.string(), asOf: z.string(), inWords: z.string() }).nullable(),
    before: Before.nullable(),
    standing: z.string(),
  })
  .meta({
    id: 'PlanExplanation',
    description: 'Why the plan in force has an item when and where it has it, from the problem that the plan was made from.',
    examples: [{
      itemId: id, tag: 'BBBC-BBB-47', revisionId: id, revisionNumber: 4, madeAt: '2026-05-09T12:02:00.000Z', state: 'planned', disposition: 'treat',
      steps: [{ position: 0, step: 'rinse', startsAt: '2026-05-09T12:45:00.000Z', endsAt: '2026-05-09T13:00:00.000Z', places: [{ kind: 'station', id, code: 'RINSE' }], waitMinutes: 45, waitsFor: { kind: 'station', what: 'rinse', text: 'no free station for “rinse”' }, because: 'in-use', alternatives: [] }],
      stabilisedAt: '2026-05-09T14:00:00.000Z', slackMinutes: 600, blockedBy: null, passedOver: [], inWords: ['Before “rinse” it waits 45 minutes and begins at 2026-05-09 12:45 UTC: no free station for “rinse” (in use).'],
      wouldHelp: null, before: null, standing: 'Advice, not a promise.',
    }],
  });
