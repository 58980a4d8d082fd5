/** What every estimate of the climate says beside its numbers: warnings, and on what each number rests. */
import { z } from 'zod';

export const ESTIMATE_MARKS = ['published', 'common-practice', 'from-memory', 'own-calibration'] as const;

/** A warning or advice: as code and numbers, and in the reader's language. */
export const EstimateNote = z.strictObject({ code: z.string(), values: z.record(z.string(), z.union([z.number(), z.string()])), text: z.string() });

/** A constant used, with its mark and its source. */
export const EstimateBasis = z.strictObject({
  /** Stable name of the constant, table or formula. */
  what: z.string(),
  /** Null for a table or a formula. */
  value: z.number().nullable(),
  unit: z.string(),
  mark: z.enum(ESTIMATE_MARKS),
  source: z.string(),
});

export const estimateMembers = {
  notes: z.array(EstimateNote),
  /** Every constant used, with its mark: published, common practice, from memory, or our own calibration as the network has set it. */
  basis: z.array(EstimateBasis),
  /** What the whole answer is worth. */
  standing: z.string(),
  estimatedAt: z.string(),
};
