import { z } from 'zod';

export const MARKS = ['published', 'common-practice', 'from-memory', 'own-calibration'] as const;

/** What a sentence rests on. */
export const SourceBody = z.strictObject({ mark: z.enum(MARKS), cite: z.string() });

/** A sentence for people with the rule that says it. */
export const StatementBody = z.strictObject({ ruleId: z.string(), text: z.string() });

/** A rule that closes a way. */
export const BarBody = z.strictObject({ ruleId: z.string(), text: z.string(), source: SourceBody, floor: z.boolean() });
