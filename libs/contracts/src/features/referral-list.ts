import { z } from 'zod';
import { STEP_KINDS } from '#care';
import { STAGES } from '#custody';
import { uuid } from '../primitives.js';
import { CareStepBody } from './care.js';
import { KeeperRef } from './custody.js';
import { WorkListQuery } from './plans.js';
import { StatementBody } from './rule-words.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

/** `specialistId`: only what goes to this one. */
export const ReferralListQuery = WorkListQuery.extend({ specialistId: uuid.optional() });

const PlannedReferralBody = z.strictObject({
  itemId: z.string(),
  /** Of the item; for `If-Match`. */
  itemVersion: z.int(),
  tag: z.string(),
  description: z.string(),
  count: z.int(),
  stage: z.enum(STAGES),
  /** Where it is now; code and name are null for what is no place of the hall. */
  keeper: KeeperRef.extend({ code: z.string().nullable(), name: z.string().nullable() }),
  specialist: z.strictObject({ id: z.string(), code: z.string(), name: z.string(), field: z.string() }),
  /** When the plan has it with them, and until when it takes a place on the bench. */
  withThemAt: z.string(),
  benchUntil: z.string(),
  startBy: z.string().nullable(),
  /** The same, seen from now. Null when none presses. */
  startByInWords: z.string().nullable(),
  /** Planned before it and not done yet. */
  stepsAhead: z.array(z.enum([...STEP_KINDS, 'carry'])),
  /** What the rules of a referral still ask for; while anything stands here it does not leave. */
  missing: z.array(z.strictObject({ code: z.enum(['consent-missing', 'consent-refused', 'lead-decides', 'owner-unknown']), text: z.string() })),
  /** How it is sent and what to wear. */
  care: CareStepBody.nullable(),
  never: z.array(StatementBody),
  /** What triage says about whom to ask, and how. */
  advice: z.array(StatementBody),
  inWords: z.string(),
});

export const ReferralListBody = z
  .strictObject({
    incidentId: z.string(),
    at: z.string(),
    /** Null when the incident has no plan yet. */
    revision: z.strictObject({ number: z.int(), madeAt: z.string() }).nullable(),
    /** By the moment when it should be with them. */
    items: z.array(PlannedReferralBody),
    standing: z.string(),
  })
  .meta({
    id: 'ReferralList',
    description: 'What the plan in force sends to specialists and is still here. The plan advises: nothing is sent by it, and whether they take a thing is theirs to say.',
    examples: [{
      incidentId: id, at: '2026-05-09T12:05:00.000Z', revision: { number: 4, madeAt: '2026-05-09T12:02:00.000Z' },
      items: [{
        itemId: id, itemVersion: 3, tag: 'BBBC-BBB-47', description: 'Box of letters', count: 1, stage: 'waiting', keeper: { kind: 'holding', id, code: 'HOLD-dirty', name: 'Waiting area, dirty zone' }, specialist: { id, code: 'SP1', name: 'Paper studio', field: 'paper' },
        withThemAt: '2026-05-09T14:00:00.000Z', benchUntil: '2026-05-09T20:00:00.000Z', startBy: '2026-05-10T06:00:00.000Z', startByInWords: 'Start within 18 hours.', stepsAhead: ['pack'],
        missing: [{ code: 'consent-missing', text: 'The owner has not agreed to a referral yet.' }],
        care: { step: 'refer', zone: 'clean', minutesPerPiece: 10, crew: 1, skill: null, barredRestrictions: [], ppe: [], cautions: [], stabilises: true }, never: [], advice: [], inWords: 'BBBC-BBB-47 (Box of letters) should be with Paper studio at 2026-05-09 14:00 UTC.',
      }],
      standing: 'Advice to the coordinator.',
    }],
  });
