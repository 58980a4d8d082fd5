import { z } from 'zod';
import { DAMAGE_KINDS, DISPOSITIONS, URGENCIES } from '#care';
import { PageQuery } from '../primitives.js';
import { TriageChangeBody } from './triage-change.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

/** A triage result holds every sentence that was said, so a page is short. */
export const TriageHistoryQuery = PageQuery.extend({ limit: z.coerce.number().int().min(1).max(50).default(20) });

export const TriageHistoryEntryBody = z
  .strictObject({
    triagedAt: z.string(),
    ruleBookVersion: z.string(),
    urgency: z.enum(URGENCIES),
    startBy: z.string(),
    binding: z.enum(DAMAGE_KINDS).nullable(),
    /** The way that the rule book put first. */
    firstDisposition: z.enum(DISPOSITIONS),
    /** What brought the assessment that it rests on. */
    origin: z.enum(['person', 'step-result', 'colour-test', 'consent']),
    assessedBy: z.string(),
    assessedAt: z.string(),
    /** Why that look said something else than an earlier one about what cannot change by itself. */
    seenAgain: z.strictObject({ reason: z.string() }).nullable(),
    /** Against the triage before it; null for the first one. */
    change: TriageChangeBody.nullable(),
  })
  .meta({
    id: 'TriageHistoryEntry',
    description: 'One triage of an item, with what it changed and why.',
    examples: [
      {
        triagedAt: '2026-05-09T08:10:00.000Z', ruleBookVersion: '2026.2', urgency: 'within-two-days', startBy: '2026-05-10T18:00:00.000Z', binding: 'mould', firstDisposition: 'treat',
        origin: 'person', assessedBy: id, assessedAt: '2026-05-09T08:10:00.000Z', seenAgain: { reason: 'Under the lamp it is cotton, not silk.' }, change: null,
      },
    ],
  });
