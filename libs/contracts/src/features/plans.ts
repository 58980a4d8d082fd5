import { z } from 'zod';
import { DISPOSITIONS, STEP_KINDS, SUITABILITY_CODES } from '#care';
import { STAGES } from '#custody';
import { optionalText, PageQuery, uuid } from '../primitives.js';
import { CareStepBody } from './care.js';
import { KeeperRef } from './custody.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

/** What can keep an item out of a plan: a resource, time, its routes, or people whose word it waits for or who have ruled out its ways. */
export const BLOCKER_KINDS = ['station', 'crew', 'respirator-fit', 'restriction', 'heat', 'drying-area', 'room-air', 'company', 'freezer', 'service', 'pin', 'time', 'route', 'owner', 'appointment', 'assessment', 'wish'] as const;
export const RESOURCE_KINDS = ['station', 'crew', 'drying-area', 'room-air', 'freezer', 'service'] as const;

export const PlanRunParams = z.strictObject({ planRunId: uuid });
export const WorkStationParams = z.strictObject({ stationId: uuid });
export const SiteParams = z.strictObject({ siteId: uuid });

export const RequestPlanRun = z
  .strictObject({
    /** Why, in a few words; the run shows it. */
    reason: optionalText(200),
  })
  .meta({ id: 'RequestPlanRun', examples: [{ reason: 'Two testers went home.' }] });
export type RequestPlanRun = z.output<typeof RequestPlanRun>;

export const PlanRunBody = z
  .strictObject({
    id: z.string(),
    incidentId: z.string(),
    state: z.enum(['queued', 'running', 'done', 'failed']),
    reason: z.string(),
    requestedAt: z.string(),
    startedAt: z.string().nullable(),
    finishedAt: z.string().nullable(),
    revisionId: z.string().nullable(),
    failure: z.string().nullable(),
    /** While it runs: rounds of improvement done, of those to do. A plan stands after the first; more make it better. */
    rounds: z.strictObject({ done: z.int(), inAll: z.int() }).nullable(),
  })
  .meta({
    id: 'PlanRun',
    description: 'One run of the planner. `done` means that its plan is stored, or the plan of a later run that had read all that this one was asked for; until then the plan before stays in force.',
    examples: [{ id, incidentId: id, state: 'queued', reason: 'Two testers went home.', requestedAt: '2026-05-09T12:02:00.000Z', startedAt: null, finishedAt: null, revisionId: null, failure: null, rounds: null }],
  });

const tally = { items: z.int(), weight: z.int() };
const Tally = z.strictObject(tally);

/** What a plan can and cannot do. */
export const planFigures = {
  /** The stretch in which work is placed. */
  from: z.string(),
  to: z.string(),
  slotMinutes: z.int(),
  plannedItems: z.int(),
  unplannedItems: z.int(),
  /** Not safe yet, and planned to be before the next deadline that can still be met. */
  inTime: Tally,
  inTimeBy: z.array(z.strictObject({ disposition: z.enum(DISPOSITIONS), ...tally })),
  notInTime: Tally,
  /** Of `notInTime`: planned all the same, although every deadline has passed. */
  late: Tally,
  /** Of `notInTime`: waits for the owner and is only looked at meanwhile. */
  lookOnly: Tally,
  /** Further steps of what is safe already. */
  followUp: Tally,
  /** What stands in the way, the greatest weight first. */
  blocked: z.array(z.strictObject({ siteId: z.string().nullable(), kind: z.enum(BLOCKER_KINDS), what: z.string(), text: z.string(), ...tally })),
  /** Resources used to more than 80 % in their tightest operational period; `inWords` says what more of would help. */
  tight: z.array(z.strictObject({ siteId: z.string(), siteName: z.string(), kind: z.enum(RESOURCE_KINDS), what: z.string(), inWords: z.string(), from: z.string(), to: z.string(), usedPct: z.number() })),
};

export const PlanBody = z
  .strictObject({
    incidentId: z.string(),
    revisionId: z.string(),
    number: z.int(),
    madeAt: z.string(),
    publishedAt: z.string(),
    /** A newer plan that nobody has published yet; work does not follow it. */
    proposal: z.strictObject({ revisionId: z.string(), number: z.int(), madeAt: z.string() }).nullable(),
    ...planFigures,
    openRunId: z.string().nullable(),
    standing: z.string(),
  })
  .meta({
    id: 'Plan',
    description: 'The plan in force, which is the newest one that was published: who does what is in the assignments, what it cannot do and why is here. A blocker says what stood in the way first, not how much one more of it would save. `weight` is the planning weight (significance, only copy, lot size), our own calibration.',
    examples: [
      {
        incidentId: id, revisionId: id, number: 4, madeAt: '2026-05-09T12:02:00.000Z', publishedAt: '2026-05-09T12:02:00.000Z', proposal: { revisionId: id, number: 5, madeAt: '2026-05-09T12:31:00.000Z' }, from: '2026-05-09T12:00:00.000Z', to: '2026-05-12T12:00:00.000Z', slotMinutes: 15, plannedItems: 1820, unplannedItems: 410,
        inTime: { items: 1700, weight: 9100 }, inTimeBy: [{ disposition: 'treat', items: 1500, weight: 8000 }, { disposition: 'hold-frozen', items: 200, weight: 1100 }], notInTime: { items: 410, weight: 1900 }, late: { items: 12, weight: 60 }, lookOnly: { items: 5, weight: 40 }, followUp: { items: 120, weight: 700 },
        blocked: [{ siteId: id, kind: 'crew', what: 'colour-testing', text: 'nobody free with the skill “colour testing”', items: 210, weight: 980 }],
        tight: [{ siteId: id, siteName: 'Weir Lane hall', kind: 'crew', what: 'colour-testing', inWords: 'people with the skill “colour testing”', from: '2026-05-09T12:00:00.000Z', to: '2026-05-10T00:00:00.000Z', usedPct: 98.4 }], openRunId: null, standing: 'Advice, not a promise.',
      },
    ],
  });

/** Number of a plan; the one in force when left out. */
const planNumber = z.coerce.number().int().min(1).max(2_147_483_647).optional();
export const AssignmentListQuery = PageQuery.extend({ stationId: uuid.optional(), itemId: uuid.optional(), revision: planNumber });
export const UnplannedListQuery = PageQuery.extend({ revision: planNumber });

const RidePart = z.strictObject({ id: z.string(), code: z.string(), name: z.string() });

export const PlanAssignmentBody = z
  .strictObject({
    itemId: z.string(),
    tag: z.string(),
    position: z.int(),
    step: z.enum([...STEP_KINDS, 'carry']),
    disposition: z.enum(DISPOSITIONS),
    stationId: z.string().nullable(),
    personIds: z.array(z.string()),
    dryingPlaceId: z.string().nullable(),
    freezerId: z.string().nullable(),
    /** The specialist it is to be with, or the ride it is to take; null for what is done on a site. */
    serviceId: z.string().nullable(),
    serviceName: z.string().nullable(),
    /** Of a step `carry`, as long as the vehicle makes that ride: it leaves at `startsAt` and is there by `endsAt`, as reckoned. */
    ride: z.strictObject({ vehicle: RidePart, from: RidePart, to: RidePart }).nullable(),
    startsAt: z.string(),
    endsAt: z.string(),
    /** Place of the chosen way among those that were open to the item, best first; null in plans from before this was kept. */
    option: z.int().nullable(),
    /** Steps with the same name are done together, such as in one bath; null for alone. */
    batchId: z.string().nullable(),
    /** How many things that are, this one included. */
    together: z.int(),
  })
  .meta({
    id: 'PlanAssignment',
    description: 'One planned step of one item: where, when, by whom. `position` counts the planned steps of the item.',
    examples: [{ itemId: id, tag: 'BBBC-BBB-47', position: 0, step: 'rinse', disposition: 'treat', stationId: id, personIds: [id], dryingPlaceId: null, freezerId: null, serviceId: null, serviceName: null, ride: null, startsAt: '2026-05-09T12:15:00.000Z', endsAt: '2026-05-09T12:45:00.000Z', option: 0, batchId: null, together: 1 }],
  });

export const UnplannedItemBody = z
  .strictObject({
    itemId: z.string(),
    tag: z.string(),
    description: z.string(),
    siteId: z.string(),
    keeper: KeeperRef,
    weight: z.int(),
    startBy: z.string().nullable(),
    /** The same, seen from now: a moment that has passed is called late. Null when none presses. */
    startByInWords: z.string().nullable(),
    /** Safe already: it only waits for its further steps. */
    stabilised: z.boolean(),
    blockedBy: z.strictObject({ kind: z.enum(BLOCKER_KINDS), what: z.string(), text: z.string() }),
  })
  .meta({
    id: 'UnplannedItem',
    description: 'An item that the plan has no place for, with what stands in its way.',
    examples: [{ itemId: id, tag: 'BBBC-BBB-47', description: 'Box of letters', siteId: id, keeper: { kind: 'holding', id }, weight: 24, startBy: '2026-05-10T06:00:00.000Z', startByInWords: 'Start within 18 hours.', stabilised: false, blockedBy: { kind: 'freezer', what: id, text: 'no free freezer volume, the largest freezer is F1' } }],
  });

export const WorkListQuery = z.strictObject({ limit: z.coerce.number().int().min(1).max(100).default(20) });

const NamedPlace = z.strictObject({ kind: z.enum(['station', 'drying-place', 'freezer', 'vehicle']), id: z.string(), code: z.string(), name: z.string() });
const Revision = z.strictObject({ number: z.int(), madeAt: z.string() });

const workOrder = {
  itemId: id, itemVersion: 6, tag: 'BBBC-BBB-47', description: 'Wedding quilt', familyWords: '', count: 1, keeper: { kind: 'holding' as const, id, code: 'HOLD-dirty', name: 'Waiting area, dirty zone' }, step: 'rinse' as const, disposition: 'treat' as const,
  plannedStart: '2026-05-09T12:15:00.000Z', plannedEnd: '2026-05-09T12:45:00.000Z', crew: [{ personId: id, name: 'Helper three' }], startBy: '2026-05-10T06:00:00.000Z', startByInWords: 'Start within 18 hours.', waitingForOwner: false,
  care: { step: 'rinse' as const, zone: 'dirty' as const, minutesPerPiece: 20, crew: 2, skill: 'rinsing' as const, barredRestrictions: ['no-wet-work' as const], ppe: ['waterproof rubber gloves'], cautions: [], stabilises: false },
  minutes: 20, never: [{ ruleId: 'drying.no-heat', text: 'Never dry it with a hair dryer, oven, heater or iron.' }], bathGroup: null, batchId: null, together: 1, goesTo: { kind: 'station' as const, id, code: 'BLOT', name: 'Blotting tables' },
  people: { needed: 2, liftingAid: false, workMinutesPerHour: 45, restMinutes: 7, inWords: ['About 9.8 kg are lifted at once: 2 people together, or a trolley, board or hoist.'], notFor: [{ personId: id, name: 'Helper four', codes: ['restriction_declared' as const], inWords: ['This person has declared not to lift, which the step “rinse” would ask for here. Nobody asks why.'] }] },
};

const WorkPeople = z.strictObject({
  /** People together: what the rule book asks for, and more where the lift takes more. */
  needed: z.int(),
  /** Too heavy for any number of people. */
  liftingAid: z.boolean(),
  /** Minutes of work in an hour that the heat leaves; 0 when nobody does it now, null when nobody has measured. An estimate. */
  workMinutesPerHour: z.number().nullable(),
  /** Minutes of rest in the heat that belong to it, beside `minutes`. */
  restMinutes: z.int(),
  inWords: z.array(z.string()),
  /** People of the site who are there by then with the skill, and should not do it. */
  notFor: z.array(z.strictObject({ personId: z.string(), name: z.string(), codes: z.array(z.enum(SUITABILITY_CODES)), inWords: z.array(z.string()) })),
});

export const WorkOrderBody = z
  .strictObject({
    itemId: z.string(),
    /** Of the item; for `If-Match`. */
    itemVersion: z.int(),
    tag: z.string(),
    description: z.string(),
    familyWords: z.string(),
    count: z.int(),
    /** Where it is now; code and name are null for what is neither a place nor a courier. */
    keeper: KeeperRef.extend({ code: z.string().nullable(), name: z.string().nullable() }),
    step: z.enum(STEP_KINDS),
    /** The way on whose route the step stands; send it with the step result. */
    disposition: z.enum(DISPOSITIONS),
    plannedStart: z.string().nullable(),
    plannedEnd: z.string().nullable(),
    crew: z.array(z.strictObject({ personId: z.string(), name: z.string() })),
    startBy: z.string().nullable(),
    /** The same, seen from now: a moment that has passed is called late. Null for what is safe, or in hand already. */
    startByInWords: z.string().nullable(),
    waitingForOwner: z.boolean(),
    /** How it is done and what to wear; null when the latest triage does not hold this step any more: ask a lead. */
    care: CareStepBody.nullable(),
    /** Hands-on minutes for the whole lot. */
    minutes: z.number().nullable(),
    /** What must never be done to it. */
    never: z.array(z.strictObject({ ruleId: z.string(), text: z.string() })),
    /** Items with the same key may share a bath; null shares with nothing. */
    bathGroup: z.string().nullable(),
    /** Planned together with the others of this name, in one bath; null for alone. */
    batchId: z.string().nullable(),
    /** How many things that are, this one included. */
    together: z.int(),
    /** The place that this step puts it into, or where the step after it is planned; the vehicle where it is carried to another site next. */
    goesTo: NamedPlace.nullable(),
    /** What it asks of people; null as `care` is. The report of it is judged by the same. */
    people: WorkPeople.nullable(),
  })
  .meta({ id: 'WorkOrder', description: 'One step for one item, with where it is, how to handle it and what to wear.', examples: [workOrder] });

export const WorkListBody = z
  .strictObject({
    station: z.strictObject({ id: z.string(), code: z.string(), name: z.string(), siteId: z.string() }),
    at: z.string(),
    /** Null when the incident has no plan yet. */
    revision: Revision.nullable(),
    /** In planned order. */
    next: z.array(WorkOrderBody),
    /** In work at this station now, longest first. */
    now: z.array(WorkOrderBody),
    standing: z.string(),
  })
  .meta({
    id: 'WorkList',
    description: 'What a station does next by the plan in force, and what it has in hand. Only steps that are next for their items now.',
    examples: [{ station: { id, code: 'RINSE', name: 'Rinse baths', siteId: id }, at: '2026-05-09T12:05:00.000Z', revision: { number: 4, madeAt: '2026-05-09T12:02:00.000Z' }, next: [workOrder], now: [], standing: 'Advice to a trained lead.' }],
  });

const HangingBody = z.strictObject({
  itemId: z.string(),
  itemVersion: z.int(),
  tag: z.string(),
  description: z.string(),
  count: z.int(),
  stage: z.enum(STAGES),
  place: NamedPlace,
  roomCode: z.string(),
  dryingSince: z.string(),
  /** Band in which it should be dry in the present air of its room; null where no formula knows (books) or the air is too damp. */
  earliestDryAt: z.string().nullable(),
  latestDryAt: z.string().nullable(),
  /** False: the room is too damp, nothing in it becomes dry. */
  dries: z.boolean(),
});

export const DryingListBody = z
  .strictObject({
    siteId: z.string(),
    at: z.string(),
    revision: Revision.nullable(),
    /** In planned order; `goesTo` is the drying place. */
    toHang: z.array(WorkOrderBody),
    /** Longest first. */
    hanging: z.array(HangingBody),
    standing: z.string(),
  })
  .meta({
    id: 'DryingList',
    description: 'What to hang where at a site, and what hangs there with the time in which it should be dry. Touch and weigh before taking anything down.',
    examples: [
      {
        siteId: id, at: '2026-05-09T16:00:00.000Z', revision: { number: 4, madeAt: '2026-05-09T12:02:00.000Z' }, toHang: [],
        hanging: [{ itemId: id, itemVersion: 9, tag: 'BBBC-BBB-47', description: 'Wedding quilt', count: 1, stage: 'drying', place: { kind: 'drying-place', id, code: 'R1', name: 'Rack 1' }, roomCode: 'ROOM', dryingSince: '2026-05-09T13:00:00.000Z', earliestDryAt: '2026-05-09T22:00:00.000Z', latestDryAt: '2026-05-11T17:00:00.000Z', dries: true }],
        standing: 'Touch and weigh before taking anything down.',
      },
    ],
  });
