import { z } from 'zod';
import { DISPOSITIONS } from '#care';
import { STAGES } from '#custody';
import { BarBody } from './rule-words.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

export const DispositionOverrideBody = z
  .strictObject({
    id: z.string(),
    itemId: z.string(),
    tag: z.string(),
    disposition: z.enum(DISPOSITIONS),
    /** What the rule book put first when it was decided, and by which version; null for what was decided before that was kept. */
    insteadOf: z.enum(DISPOSITIONS).nullable(),
    ruleBookVersion: z.string().nullable(),
    /** What the chosen way still lacked when it was chosen; null as above. */
    openNeeds: z.array(z.string()).nullable(),
    reason: z.string(),
    decidedBy: z.strictObject({ id: z.string(), name: z.string() }),
    decidedAt: z.string(),
    /** It is in force: no later choice, and nothing was found or done that ends it. */
    stands: z.boolean(),
    ruleBookNow: z.strictObject({
      /** `agrees`: it puts this way first too. `differs`: it allows it and puts another first. `barred`: it does not allow it. */
      verdict: z.enum(['agrees', 'differs', 'barred']),
      firstDisposition: z.enum(DISPOSITIONS),
      version: z.string(),
      barredBy: z.array(BarBody),
    }),
    /** What became of the item. */
    item: z.strictObject({ stage: z.enum(STAGES), disposition: z.enum(DISPOSITIONS).nullable(), stabilisedAt: z.string().nullable() }),
  })
  .meta({
    id: 'DispositionOverride',
    description: 'A lead chose another way than the rule book put first: who, when and why, what the rule book says of the item now, and what became of it. Items that have left are judged as of the day they were last looked at.',
    examples: [
      {
        id, itemId: id, tag: 'BBBC-BBB-47', disposition: 'hold-frozen', insteadOf: 'treat', ruleBookVersion: '2026.2', openNeeds: [], reason: 'The tables are full until tomorrow noon and it will not keep that long.',
        decidedBy: { id, name: 'Lead one' }, decidedAt: '2026-05-09T09:00:00.000Z', stands: true,
        ruleBookNow: { verdict: 'differs', firstDisposition: 'treat', version: '2026.2', barredBy: [] }, item: { stage: 'waiting', disposition: 'hold-frozen', stabilisedAt: null },
      },
    ],
  });
