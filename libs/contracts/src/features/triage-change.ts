import { z } from 'zod';
import { COMPARED } from '#care';

export const DifferenceBody = z.strictObject({ what: z.enum(COMPARED), before: z.array(z.string()), after: z.array(z.string()) });

const RuleChangeBody = z.strictObject({ ruleId: z.string(), because: z.array(z.string()) });

export const TriageChangeBody = z
  .strictObject({
    /** What changed and why, in plain words; empty when nothing did. */
    inWords: z.array(z.string()),
    differences: z.array(DifferenceBody),
    /** Observations that are not what they were. */
    observations: z.array(z.string()),
    /** Rules that apply now and did not before, with the changed observations they look at. */
    rulesGained: z.array(RuleChangeBody),
    rulesLost: z.array(RuleChangeBody),
    /** Nothing was observed anew: the hours, the air or the steps done made the change. */
    byTimeAlone: z.boolean(),
    /** Versions of the rule book, where another one was in force. */
    ruleBook: z.strictObject({ before: z.string(), after: z.string() }).nullable(),
  })
  .meta({
    id: 'TriageChange',
    description: 'What a triage changed against the one before it, and which observations and rules made it change. Codes and sentences stand in `differences` as they stand in the triage.',
    examples: [
      {
        inWords: ['The first way is now to refer it to a specialist; before it was to treat it here.', 'Told anew: whether colour has run.'],
        differences: [{ what: 'firstDisposition', before: ['treat'], after: ['refer'] }], observations: ['alreadyBled'],
        rulesGained: [{ ruleId: 'textile.bleeding.refer-always', because: ['alreadyBled'] }], rulesLost: [], byTimeAlone: false, ruleBook: null,
      },
    ],
  });
