import { z } from 'zod';
import { STEP_KINDS } from '#care';
import { KeeperRef } from './custody.js';
import { StatementBody } from './rule-words.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

/** `limit` counts things, the first to leave first. */
export const CarryListQuery = z.strictObject({ limit: z.coerce.number().int().min(1).max(200).default(200) });

const Named = z.strictObject({ id: z.string(), code: z.string(), name: z.string() });

const CarriedItemBody = z.strictObject({
  itemId: z.string(),
  /** Of the item; for `If-Match`. */
  itemVersion: z.int(),
  tag: z.string(),
  description: z.string(),
  count: z.int(),
  /** Where it waits. */
  keeper: KeeperRef.extend({ code: z.string().nullable(), name: z.string().nullable() }),
  /** The whole lot, as wet as it was last seen, rounded up: reckoned from its dry weight and not weighed. Null where nothing is known of such a weight. */
  kgReckoned: z.int().nullable(),
  /** Who lifts one piece of it. */
  lift: z.strictObject({
    /** People together; null where it takes an aid, or its weight is not known. */
    peopleNeeded: z.int().nullable(),
    liftingAid: z.boolean(),
    inWords: z.array(z.string()),
  }),
  /** What is to be done with it before it goes; null when it is ready. */
  firstStep: z.enum(STEP_KINDS).nullable(),
  startBy: z.string().nullable(),
  /** The same, seen from now. Null when none presses. */
  startByInWords: z.string().nullable(),
  never: z.array(StatementBody),
});

export const CarryListBody = z
  .strictObject({
    incidentId: z.string(),
    at: z.string(),
    /** Null when the incident has no plan yet. */
    revision: z.strictObject({ number: z.int(), madeAt: z.string() }).nullable(),
    /** In the order of leaving. */
    departures: z.array(
      z.strictObject({
        vehicle: Named,
        from: Named,
        to: Named,
        leavesAt: z.string(),
        arrivesAt: z.string(),
        /** The moment of leaving has passed, and these are still here. */
        overdue: z.boolean(),
        kgReckoned: z.int(),
        maxLoadKg: z.int().nullable(),
        inWords: z.string(),
        items: z.array(CarriedItemBody),
      }),
    ),
    standing: z.string(),
  })
  .meta({
    id: 'CarryList',
    description: 'What the plan in force has vehicles take to other sites next: only what still waits where the ride begins and still goes that way. The plan moves nothing: make a manifest, load it, and let it depart.',
    examples: [{
      incidentId: id, at: '2026-05-09T12:05:00.000Z', revision: { number: 4, madeAt: '2026-05-09T12:02:00.000Z' },
      departures: [{
        vehicle: { id, code: 'VAN1', name: 'White van of the school' }, from: { id, code: 'HALL', name: 'Old dye works' }, to: { id, code: 'SCHOOL', name: 'School by the mill' }, leavesAt: '2026-05-09T13:00:00.000Z', arrivesAt: '2026-05-09T13:25:00.000Z', overdue: false,
        kgReckoned: 14, maxLoadKg: 900, inWords: 'VAN1 leaves HALL at 2026-05-09 13:00 UTC for SCHOOL with 1 thing, about 14 kg as reckoned.',
        items: [{
          itemId: id, itemVersion: 3, tag: 'BBBC-BBB-47', description: 'Box of letters', count: 1, keeper: { kind: 'holding', id, code: 'HOLD-dirty', name: 'Waiting area, dirty zone' }, kgReckoned: 14, lift: { peopleNeeded: 2, liftingAid: false, inWords: ['About 13.6 kg are lifted at once: 2 people together, or a trolley, board or hoist.'] },
          firstStep: null, startBy: '2026-05-10T06:00:00.000Z', startByInWords: 'Start within 18 hours.', never: [{ ruleId: 'drying.no-heat', text: 'Never dry it with a hair dryer, oven, heater or iron.' }],
        }],
      }],
      standing: 'Advice to the coordinator.',
    }],
  });
