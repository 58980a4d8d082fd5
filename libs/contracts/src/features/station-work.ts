import { z } from 'zod';
import { DISPOSITIONS, STEP_KINDS, STEP_OUTCOMES, SUITABILITY_CODES } from '#care';
import { instant, optionalText, text, uuid } from '../primitives.js';
import { CareStepBody, SuitabilityOverride } from './care.js';
import { KeeperRef } from './custody.js';
import { ItemBody } from './items.js';
import { TriageChangeBody } from './triage-change.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const SourceBody = z.strictObject({ mark: z.enum(['published', 'common-practice', 'from-memory', 'own-calibration']), cite: z.string() });
const item = {
  id, incidentId: id, householdId: id, siteId: id, tag: 'BBBC-BBB-47', kind: 'item' as const, count: 1, splitFromId: null, description: 'Wedding quilt', familyWords: '', photographRef: '', photographedOn: null,
  materialClass: 'textile-quilt-padded' as const, sizeClass: 'double-quilt', dryingAreaM2: 5.5, freezerVolumeL: 32, dryMassKg: 2.1, significance: 'irreplaceable' as const, arrivedAt: '2026-05-09T07:10:00.000Z', wettedAt: null,
  keeper: { kind: 'holding' as const, id }, stage: 'waiting' as const, custodySeq: 3, openHandOver: null, locationDisputed: false, missing: false, lastSeenAt: '2026-05-09T07:10:00.000Z', urgency: 'within-a-day' as const, startBy: '2026-05-10T06:00:00.000Z', disposition: 'treat' as const, nextStep: 'blot' as const, waitingForOwner: false, stabilisedAt: null, version: 7,
};

export const RecordStepResult = z
  .strictObject({
    step: z.enum(STEP_KINDS),
    outcome: z.enum(STEP_OUTCOMES),
    /** The way on whose route the step stood, as the plan or the work list says; leave it out for the item's own way. */
    disposition: z.enum(DISPOSITIONS).nullable().default(null),
    personId: uuid,
    /** Others who did it together with that person: what is heavy takes more than one. */
    withPersonIds: z.array(uuid).max(20).default([]),
    /** A trolley, board or hoist carried the weight. */
    liftingAid: z.boolean().default(false),
    /** The station that did it; the one that has the item in hand when left out. */
    stationId: uuid.nullable().default(null),
    startedAt: instant.nullable().default(null),
    finishedAt: instant.nullable().default(null),
    /** Minutes of rest between the two, as heat asks for; they do not count as worked. */
    restMinutes: z.int().min(0).max(1_440).default(0),
    note: optionalText(1_000),
    /** Where it was put down; the waiting area of the zone where it goes on when left out. A freezer is always named. */
    to: KeeperRef.nullable().default(null),
    /** A lead who answers for work that was done by somebody who should not have done it; it is then recorded, and listed. */
    override: SuitabilityOverride,
  })
  .meta({ id: 'RecordStepResult', examples: [{ step: 'rinse', outcome: 'done', personId: id, stationId: id, startedAt: '2026-05-09T09:00:00Z', finishedAt: '2026-05-09T09:25:00Z' }] });
export type RecordStepResult = z.output<typeof RecordStepResult>;

export const StepReportBody = z
  .strictObject({
    stepResultId: z.string(),
    item: ItemBody,
    /** The next step with how it is done; null when nothing is left to do or its route is not known before a look. */
    next: CareStepBody.nullable(),
    /** What changed, in plain words. */
    changes: z.array(z.string()),
    /** What the new triage changed; null where the step taught nothing that is triaged anew. */
    change: TriageChangeBody.nullable(),
    /** The plan run that was asked for, if one was. */
    planRunId: z.string().nullable(),
  })
  .meta({
    id: 'StepReport',
    description: 'The item as it is after the step, and what comes next.',
    examples: [
      {
        stepResultId: id, item, planRunId: null, change: null,
        next: { step: 'blot', zone: 'clean', minutesPerPiece: 10, crew: 2, skill: 'blotting', barredRestrictions: [], ppe: ['nitrile or other waterproof gloves'], cautions: [], stabilises: false },
        changes: ['The step “rinse” is done.', 'It is on record at Waiting area, on the clean side.', 'Next comes “blot”, on the clean side.'],
      },
    ],
  });

export const UnsuitedStepBody = z
  .strictObject({
    id: z.string(),
    itemId: z.string(),
    /** Null, as the outcome is, for a look that leaves no step result, such as a colour test that is not complete. */
    stepResultId: z.string().nullable(),
    step: z.enum(STEP_KINDS),
    /** How it ended; only a look finds that a thing was wetted again. */
    outcome: z.enum([...STEP_OUTCOMES, 'wetted-again']).nullable(),
    people: z.array(
      z.strictObject({
        personId: z.string(),
        reasons: z.array(z.strictObject({ code: z.enum(SUITABILITY_CODES), text: z.string(), source: SourceBody })),
        /** Steps of the item that the person could have done. */
        instead: z.array(z.enum(STEP_KINDS)),
      }),
    ),
    /** The lead who answers for it; null for what was found or failed, which is taken from everybody. */
    override: z.strictObject({ personId: z.string(), reason: z.string() }).nullable(),
    recordedAt: z.string(),
  })
  .meta({
    id: 'UnsuitedStep',
    description: 'A step that was done by somebody who should not do it, with the reasons and with the lead who answers for it. Reasons are advice with sources and marks; restrictions are declared by the person and never a diagnosis.',
    examples: [
      {
        id, itemId: id, stepResultId: id, step: 'surface-clean', outcome: 'done', recordedAt: '2026-05-09T09:30:00.000Z',
        people: [{ personId: id, reasons: [{ code: 'respirator_fit_missing', text: 'The step surface-clean asks for a respirator. For this person no day is on record until which medical fitness and fit test are valid.', source: { mark: 'published', cite: '29 CFR 1910.134(c)(2), US OSHA' } }], instead: ['check'] }],
        override: { personId: id, reason: 'Fit-tested at work this spring; the paper comes tomorrow.' },
      },
    ],
  });

export const ReferItem = z
  .strictObject({ specialistId: uuid, reason: text(2_000, 3), personId: uuid.nullable().default(null), sentAt: instant.nullable().default(null), quoteId: uuid.nullable().default(null).describe('The approved offer by which it goes out.'),
    ownerUnknown: z.strictObject({ decidedBy: uuid, payer: text(200).nullable().default(null) }).nullable().default(null).describe('For a found thing whose owner nobody knows and that must be made stable: the lead who answers for it, and who pays. Nobody pays where `payer` is left out, and never an owner.'),
  })
  .meta({ id: 'ReferItem', examples: [{ specialistId: id, reason: 'The red dye moves; a conservator decides on water.' }] });
export type ReferItem = z.output<typeof ReferItem>;

export const ReturnFromReferral = z
  .strictObject({ to: KeeperRef, returnedAt: instant.nullable().default(null) })
  .meta({ id: 'ReturnFromReferral', examples: [{ to: { kind: 'holding', id } }] });
export type ReturnFromReferral = z.output<typeof ReturnFromReferral>;

export const ReferralBody = z
  .strictObject({ id: z.string(), itemId: z.string(), specialistId: z.string(), consentId: z.string().nullable(), decidedBy: z.string().nullable(), payer: z.string().nullable(), reason: z.string(), quoteId: z.string().nullable(), sentAt: z.string(), returnedAt: z.string().nullable(), item: ItemBody })
  .meta({
    id: 'Referral',
    description: 'One stay with a specialist, by the consent that allowed it; or, where nobody knows the owner, by the lead in `decidedBy`.',
    examples: [{ id, itemId: id, specialistId: id, consentId: id, decidedBy: null, payer: null, reason: 'The red dye moves.', quoteId: null, sentAt: '2026-05-09T11:00:00.000Z', returnedAt: null, item: { ...item, stage: 'referred-out', keeper: { kind: 'specialist', id }, disposition: 'refer', nextStep: null } }],
  });

export const ReleaseItem = z
  .strictObject({
    /** `household` when the family takes it and lets it go itself; `authority` for a found thing about which two people have decided so. */
    to: z.enum(['disposed', 'household', 'authority']),
    personId: uuid,
    releasedAt: instant.nullable().default(null),
  })
  .meta({ id: 'ReleaseItem', examples: [{ to: 'disposed', personId: id }] });
export type ReleaseItem = z.output<typeof ReleaseItem>;
