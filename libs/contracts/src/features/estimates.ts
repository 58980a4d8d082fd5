import { z } from 'zod';
import { DAMAGE_KINDS, ORDER_CRITERIA, RELEASES, SIGNIFICANCES, STEP_KINDS } from '#care';
import { airTempC, instant, text, uuid } from '../primitives.js';
import { triageResultExample, triageResultMembers } from './care.js';
import { ColourTests, ConsentsEntry, OBSERVATIONS } from './observations.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const { parts, colours, wettedPlace, soil, detachedParts, oldRepairs, ...always } = OBSERVATIONS;

/** What is left out is not known, which counts on the cautious side. */
const EstimatedAssessment = z.strictObject({
  materialClass: always.materialClass.default('unknown'),
  fibre: always.fibre.default('unknown'),
  count: z.int().min(1).max(100_000).default(1),
  wetState: always.wetState.default('unknown'),
  wettedAt: always.wettedAt.default(null),
  water: always.water.default('unknown'),
  mould: always.mould.default('unknown'),
  fragility: always.fragility.default('unknown'),
  colourTests: ColourTests.default([]),
  allColoursTested: z.boolean().default(false),
  alreadyBled: always.alreadyBled.default(null),
  hazards: always.hazards.default([]),
  significance: always.significance.default('valued'),
  onlyCopy: always.onlyCopy.default(null),
  highMarketValue: always.highMarketValue.default(null),
  consents: ConsentsEntry.prefault({}),
  ...z.strictObject({ parts, colours, wettedPlace, soil, detachedParts, oldRepairs }).partial().shape,
});
export type EstimatedAssessment = z.output<typeof EstimatedAssessment>;

const Moment = {
  /** The present time when left out. */
  now: instant.nullable().default(null),
  /** When the water came; counts where nobody knows when the thing got wet. */
  floodAt: instant,
  /** Air where it waits; the rule book takes warm air where nobody knows. */
  airTempC: airTempC.nullable().default(null),
  /** Another release of the rule book, as the network would follow it; the one in force when left out. */
  release: z.enum(RELEASES).nullable().default(null),
};
const doneSteps = z.array(z.enum(STEP_KINDS)).max(STEP_KINDS.length).default([]);

export const EstimateTriage = z
  .strictObject({ assessment: EstimatedAssessment, ...Moment, doneSteps })
  .meta({
    id: 'EstimateTriage',
    description: 'A thing as somebody describes it. What is left out of the assessment is not known and counts on the cautious side. `doneSteps` are steps of the present round of work.',
    examples: [{ assessment: { materialClass: 'textile-quilt-padded', fibre: 'cotton', wetState: 'dripping', water: 'black', alreadyBled: true, significance: 'irreplaceable' }, floodAt: '2026-05-08T18:00:00Z', airTempC: 24 }],
  });
export type EstimateTriage = z.output<typeof EstimateTriage>;

export const TriageEstimateBody = z
  .strictObject({ ...triageResultMembers, estimatedAt: z.string() })
  .meta({
    id: 'TriageEstimate',
    description: 'What the rule book of the network says of the thing, as the triage of an item on record says it, with the questions whose answers could change it. Nothing is stored.',
    examples: [{ ...triageResultExample, estimatedAt: '2026-05-09T08:10:00.000Z' }],
  });

export const EstimateOrder = z
  .strictObject({
    items: z
      .array(
        z.strictObject({
          /** A name for the answer; its place in the list, from 1, when left out. */
          id: text(60).nullable().default(null),
          assessment: EstimatedAssessment,
          /** The present time when left out. */
          arrivedAt: instant.nullable().default(null),
          doneSteps,
        }),
      )
      .min(1)
      .max(50),
    ...Moment,
  })
  .check((context) => {
    const names = context.value.items.map((item, index) => item.id ?? String(index + 1));
    names.forEach((name, index) => {
      if (names.indexOf(name) !== index) context.issues.push({ code: 'custom', message: 'is the name of another item of the list', path: ['items', index, 'id'], input: context.value });
    });
  })
  .meta({
    id: 'EstimateOrder',
    description: 'Things as somebody describes them, to be put in order for scarce hands.',
    examples: [{ items: [{ id: 'quilt', assessment: { materialClass: 'textile-quilt-padded', wetState: 'wet' } }, { id: 'letters', assessment: { materialClass: 'paper-soluble-media', wetState: 'wet', count: 40 } }], floodAt: '2026-05-08T18:00:00Z' }],
  });
export type EstimateOrder = z.output<typeof EstimateOrder>;

const rankMembers = {
  startBy: z.string(),
  /** The same, seen from now: a moment that has passed is called late. */
  startByInWords: z.string(),
  /** Minutes until its handling must start; negative when that is past. */
  slackMin: z.int(),
  binding: z.enum(DAMAGE_KINDS).nullable(),
  /** How hard the damage that threatens first is to undo, 6 the hardest, 0 for none; our own ranking. */
  irreversibility: z.int(),
  significance: z.enum(SIGNIFICANCES),
  onlyCopy: z.boolean().nullable(),
  arrivedAt: z.string(),
};
const decidedBy = z.enum(ORDER_CRITERIA);
const rankExample = { startBy: '2026-05-09T12:00:00.000Z', startByInWords: 'Start within 4 hours.', slackMin: 230, binding: 'dye-migration' as const, irreversibility: 4, significance: 'irreplaceable' as const, onlyCopy: null, arrivedAt: '2026-05-09T07:10:00.000Z' };

export const OrderEstimateBody = z
  .strictObject({
    estimatedAt: z.string(),
    ruleBookVersion: z.string(),
    /** First things first. */
    items: z.array(z.strictObject({ id: z.string(), ...rankMembers, beforeNext: z.strictObject({ decidedBy, inWords: z.string() }).nullable() })),
  })
  .meta({
    id: 'OrderEstimate',
    description: 'Things in the order in which scarce hands take them: by the time that is left (in stretches of an hour), how hard the damage is to undo, what it means to its family, whether it is the only copy, arrival. `beforeNext` says why each stands before the next. Things are ranked, never people.',
    examples: [{ estimatedAt: '2026-05-09T08:10:00.000Z', ruleBookVersion: '2026.2', items: [{ id: 'quilt', ...rankExample, beforeNext: null }] }],
  });

export const PrecedenceQuery = z.strictObject({ over: uuid });

export const PrecedenceBody = z
  .strictObject({
    at: z.string(),
    /** What decides between the two. */
    decidedBy,
    inWords: z.string(),
    first: z.strictObject({ itemId: z.string(), tag: z.string(), ...rankMembers }),
    second: z.strictObject({ itemId: z.string(), tag: z.string(), ...rankMembers }),
  })
  .meta({
    id: 'Precedence',
    description: 'Why one item comes before another when hands are scarce, by their latest triage.',
    examples: [
      {
        at: '2026-05-09T08:10:00.000Z', decidedBy: 'slack', inWords: 'BBBC-BBB-47 comes before BBBD-BBB-17: its handling must start 90 minutes sooner.',
        first: { itemId: id, tag: 'BBBC-BBB-47', ...rankExample }, second: { itemId: '0198b7a0-0000-7000-8000-000000000002', tag: 'BBBD-BBB-17', ...rankExample, startBy: '2026-05-09T13:30:00.000Z', startByInWords: 'Start within 5 hours.', slackMin: 320 },
      },
    ],
  });
