import { z } from 'zod';
import { uuid } from '../primitives.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const KINDS = ['contacts', 'photographs', 'voices', 'words', 'messages', 'signatures', 'import-rows', 'records', 'refused-rows', 'staff-notes'] as const;
const REASONS = ['legal-hold', 'things-held', 'incident-open', 'question-open', 'matter-open', 'claim-open', 'import-under-way', 'not-yet-due'] as const;

export const RetentionRunParams = z.strictObject({ retentionRunId: uuid });

const Policy = z.strictObject({
  countsFrom: z.enum(['closing', 'last-thing-left']),
  days: z.record(z.enum(KINDS), z.int()),
  /** When the worker does it by itself, in the time zone of the network; null: a lead starts each run. */
  schedule: z.strictObject({ everyDays: z.int(), hour: z.int() }).nullable(),
});
const Counts = z.partialRecord(z.enum(KINDS), z.int());
const Verdict = {
  countsFrom: z.string().nullable(),
  goes: z.array(z.strictObject({ kind: z.enum(KINDS), count: z.int() })),
  stays: z.array(z.strictObject({ kind: z.enum(KINDS), count: z.int(), reasons: z.array(z.enum(REASONS)), dueAt: z.string().nullable() })),
};

const policy = {
  countsFrom: 'closing' as const,
  days: { contacts: 365, photographs: 180, voices: 90, words: 365, messages: 180, signatures: 365, 'import-rows': 90, records: 730, 'refused-rows': 90, 'staff-notes': 365 },
  schedule: null,
};

export const RetentionPreviewBody = z
  .strictObject({
    incidentId: z.string(),
    /** The moment at which a run would do this. */
    asOf: z.string(),
    /** For starting the run: number of the newest decision about the numbers of the network. */
    policyRevision: z.int(),
    policy: Policy,
    mark: z.literal('own-calibration'),
    notice: z.string(),
    ofIncident: z.strictObject(Verdict),
    totals: z.strictObject({ households: z.int(), touched: z.int(), erased: z.int(), going: Counts, staying: Counts, heldBack: z.partialRecord(z.enum(REASONS), z.int()) }).nullable(),
    items: z.array(z.strictObject({ householdId: z.string(), ...Verdict })),
    nextCursor: z.string().nullable(),
  })
  .meta({
    id: 'RetentionPreview',
    description: 'What a run at this moment would take, household by household, and why the rest stays; nothing was changed. `records` is everything that is left of a household, and ends with its key. `ofIncident` is what belongs to no single household. Counts are of rows, files or texts. `totals` is of the whole incident and stands on the first page alone; `heldBack` counts households, and what belongs to none as one, by reason.',
    examples: [{
      incidentId: id, asOf: '2027-06-01T09:00:00.000Z', policyRevision: 3, policy, mark: 'own-calibration', notice: 'These periods are numbers of ours, not of a law.',
      ofIncident: { countsFrom: '2026-08-01T09:00:00.000Z', goes: [{ kind: 'refused-rows', count: 4 }], stays: [{ kind: 'staff-notes', count: 2, reasons: ['not-yet-due'], dueAt: '2027-08-01T09:00:00.000Z' }] },
      totals: { households: 1, touched: 1, erased: 0, going: { photographs: 12, 'refused-rows': 4 }, staying: { contacts: 3, records: 1, 'staff-notes': 2 }, heldBack: { 'not-yet-due': 2 } },
      items: [{ householdId: id, countsFrom: '2026-08-01T09:00:00.000Z', goes: [{ kind: 'photographs', count: 12 }], stays: [{ kind: 'contacts', count: 3, reasons: ['not-yet-due'], dueAt: '2027-08-01T09:00:00.000Z' }, { kind: 'records', count: 1, reasons: ['not-yet-due'], dueAt: '2028-07-31T09:00:00.000Z' }] }],
      nextCursor: null,
    }],
  });

export const StartRetention = z
  .strictObject({
    personId: uuid.meta({ description: 'The lead who decides it.' }),
    policyRevision: z.int().min(0).meta({ description: 'Of the dry run that the lead has read.' }),
  })
  .meta({ id: 'StartRetention', examples: [{ personId: id, policyRevision: 3 }] });

export const RetentionRunBody = z
  .strictObject({
    id: z.string(), incidentId: z.string(), state: z.enum(['running', 'done', 'stopped']), startedBy: z.enum(['person', 'schedule']), personId: z.string().nullable(), principalId: z.string(), asOf: z.string(), policyRevision: z.int(), policy: Policy,
    lookedAt: z.int(), touched: z.int(), erased: z.int(), gone: Counts, endedAt: z.string().nullable(),
  })
  .meta({
    id: 'RetentionRun',
    description: 'Who let go what had its time (a lead, or the schedule of the network, which names no person), when, by which periods, and how much of each kind; numbers alone. `lookedAt`, `touched` and `erased` count households. `stopped`: it was given up on the way; what was done stays done, and a new run goes on.',
    examples: [{ id, incidentId: id, state: 'done', startedBy: 'person', personId: id, principalId: id, asOf: '2027-06-01T09:00:00.000Z', policyRevision: 3, policy, lookedAt: 40, touched: 31, erased: 0, gone: { photographs: 412, 'refused-rows': 4 }, endedAt: '2027-06-01T09:00:07.000Z' }],
  });
