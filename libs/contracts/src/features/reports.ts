import { z } from 'zod';
import { DISPOSITIONS, URGENCIES } from '#care';
import { STAGES } from '#custody';
import { instant } from '../primitives.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const Tally = z.strictObject({ items: z.int(), weight: z.int() });

export const SituationQuery = z.strictObject({
  /** What is at risk until then; 12 hours from now when left out. */
  until: instant.optional(),
});

export const SituationReportBody = z
  .strictObject({
    incidentId: z.string(),
    at: z.string(),
    stages: z.array(z.strictObject({ stage: z.enum(STAGES), items: z.int(), pieces: z.int(), weight: z.int() })),
    urgencies: z.array(z.strictObject({ urgency: z.enum(URGENCIES).nullable(), items: z.int(), weight: z.int(), overdueItems: z.int() })),
    stabilised: Tally,
    overdue: Tally,
    atRisk: Tally.extend({ until: z.string() }),
    waitingForOwner: z.int(),
    openMatters: z.strictObject({ handOvers: z.int(), disputed: z.int(), missing: z.int() }).describe('Items with an open hand-over, with a disputed location, and missing; one may count in several.'),
    places: z.array(z.strictObject({ kind: z.enum(['freezer', 'drying-place']), id: z.string(), name: z.string(), unit: z.enum(['L', 'dm2']), capacity: z.int(), taken: z.int() })),
    rooms: z.array(
      z.strictObject({
        id: z.string(), name: z.string(), airTempC: z.number(), relativeHumidityPct: z.number(), humidityCapPct: z.number(), aboveCap: z.boolean(), measuredAt: z.string(), dehumidifiersRunning: z.int(), dehumidifiersStopped: z.int(),
      }),
    ),
    plan: z.strictObject({ number: z.int(), at: z.string(), plannedItems: z.int(), unplannedItems: z.int(), weightNotInTime: z.int(), summary: z.unknown() }).nullable(),
    standing: z.string(),
  })
  .meta({
    id: 'SituationReport',
    description: 'What is stabilised, waiting and at risk. `weight` is the planning weight (significance, only copy, lot size), our own calibration.',
    examples: [
      {
        incidentId: id, at: '2026-05-09T20:00:00.000Z', stages: [{ stage: 'drying', items: 210, pieces: 900, weight: 1200 }], urgencies: [{ urgency: 'within-a-day', items: 800, weight: 3000, overdueItems: 12 }],
        stabilised: { items: 900, weight: 4100 }, overdue: { items: 12, weight: 40 }, atRisk: { items: 130, weight: 600, until: '2026-05-10T08:00:00.000Z' }, waitingForOwner: 9, openMatters: { handOvers: 4, disputed: 1, missing: 2 }, places: [], rooms: [], plan: null, standing: 'Advice, not a promise.',
      },
    ],
  });

export const ReconciliationBody = z
  .strictObject({
    incidentId: z.string(),
    received: z.int(),
    byStage: z.record(z.enum(STAGES), z.int()),
    difference: z.int(),
    keepersOtherThanOne: z.array(z.string()),
    chainFaults: z.array(z.strictObject({ itemId: z.string(), seq: z.int(), fault: z.string() })),
    eventsVerified: z.int(),
    containers: z.strictObject({
      registered: z.int(), eventsVerified: z.int(),
      /** `itemId` is the id of the container. */
      chainFaults: z.array(z.strictObject({ itemId: z.string(), seq: z.int(), fault: z.string() })),
      insideThemselves: z.array(z.string()),
    }),
  })
  .meta({
    id: 'Reconciliation',
    description: 'Received must equal the sum over all stages; every item has exactly one keeper; every custody chain verifies.',
    examples: [{ incidentId: id, received: 3, byStage: { waiting: 1, 'in-work': 0, drying: 1, 'held-wet': 0, 'held-frozen': 0, 'referred-out': 0, released: 0, 'handed-back': 1, merged: 0 }, difference: 0, keepersOtherThanOne: [], chainFaults: [], eventsVerified: 14, containers: { registered: 1, eventsVerified: 2, chainFaults: [], insideThemselves: [] } }],
  });

export const HouseholdReportBody = z
  .strictObject({
    householdId: z.string(),
    code: z.string(),
    at: z.string(),
    items: z.array(
      z.strictObject({
        id: z.string(), tag: z.string(), description: z.string(), count: z.int(), stage: z.enum(STAGES), disposition: z.enum(DISPOSITIONS).nullable(), asksYou: z.boolean(), inWords: z.string(), changedAt: z.string(),
      }),
    ),
    standing: z.string(),
  })
  .meta({
    id: 'HouseholdReport',
    description: 'What a household may be told about its own things, in plain words.',
    examples: [{ householdId: id, code: 'HH-0042', at: '2026-05-09T20:00:00.000Z', items: [{ id, tag: 'BBBC-BBB-47', description: 'Wedding quilt', count: 1, stage: 'drying', disposition: 'treat', asksYou: false, inWords: 'It is drying.', changedAt: '2026-05-09T15:00:00.000Z' }], standing: 'We cannot promise an outcome.' }],
  });
