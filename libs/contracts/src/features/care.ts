import { z } from 'zod';
import {
  COLOUR_TEST_READINGS, DAMAGE_KINDS, DISPOSITIONS, FIBRES, FRAGILITIES, HAZARDS, MATERIAL_CLASSES, MOULD_STATES, RESTRICTIONS, SHARED_PLACES, SIGNIFICANCES, SKILLS, SOILS, STEP_KINDS, URGENCIES, WATER_KINDS, WET_STATES, ZONES,
} from '#care';
import { instant, text, uuid } from '../primitives.js';
import { ColourTests, OBSERVATIONS } from './observations.js';
import { SourceBody, StatementBody } from './rule-words.js';
import { TriageChangeBody } from './triage-change.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

/** A lead who answers for work that was done by somebody who should not have done it. */
export const SuitabilityOverride = z.strictObject({ personId: uuid, reason: text(2_000, 3) }).nullable().default(null);

export const AssessItem = z
  .strictObject({
    /** The person who looked. */
    personId: uuid,
    assessedAt: instant.nullable().default(null),
    ...z.strictObject(OBSERVATIONS).partial().shape,
    /** Needed where this look says something else than an earlier one about what cannot change by itself; kept with it. */
    seenAgain: z.strictObject({ reason: text(2_000, 3) }).nullable().default(null),
    /** A lead who answers for a look by somebody who should not have looked; it is then recorded, and listed. */
    override: SuitabilityOverride,
  })
  .meta({
    id: 'AssessItem',
    description: 'What a person saw. A member that is left out stays as it was known; `unknown` and null say that nobody knows, which counts on the cautious side. Dye that has run and mould that was seen stay until somebody says otherwise. What cannot all be true is refused, all of it at once; so is what contradicts an earlier look about something that cannot change by itself (another material, fewer hazards, a later wetting, wetter than before), unless `seenAgain` says why. A thing that was dried and is wet again begins a new round of work: with a `wettedAt` after its drying, or with `seenAgain`; steps done before it count no longer, its clocks run again, and the choice of a lead that was made before it is over. What is only still damp after drying is dried again. `change.inWords` of the answer says what is undone. Consents and colour tests are recorded by routes of their own.',
    examples: [{ personId: id, wetState: 'wet', fibre: 'cotton', mould: 'none', fragility: 'sound', alreadyBled: false }],
  });
export type AssessItem = z.output<typeof AssessItem>;

export const RecordColourTest = z
  .strictObject({
    personId: uuid,
    testedAt: instant.nullable().default(null),
    tests: ColourTests.min(1),
    /** Every colour, repair fabric and thread is tested, together with the tests recorded before. */
    allColoursTested: z.boolean(),
    /** A lead who answers for a test by somebody who should not have tested; it is then recorded, and listed. */
    override: SuitabilityOverride,
  })
  .meta({
    id: 'RecordColourTest',
    description: 'One reading for each colour. Any transfer on the swab, or grade 4 and worse, counts as bleeding; the mapping of grades is our own and stands in the reasons of the triage.',
    examples: [{ personId: id, tests: [{ colour: 'red border thread', solution: 'water', method: 'swab', reading: 'no-transfer' }], allColoursTested: true }],
  });
export type RecordColourTest = z.output<typeof RecordColourTest>;

export const OverrideDisposition = z
  .strictObject({
    disposition: z.enum(DISPOSITIONS),
    /** Why; it stays on record beside the advice it departs from. */
    reason: text(2_000, 3),
    /** The lead who decides. */
    personId: uuid,
    decidedAt: instant.nullable().default(null),
  })
  .meta({ id: 'OverrideDisposition', examples: [{ disposition: 'hold-frozen', reason: 'The tables are full until tomorrow noon and it will not keep that long.', personId: id }] });
export type OverrideDisposition = z.output<typeof OverrideDisposition>;

export const CareStepBody = z
  .strictObject({
    step: z.enum(STEP_KINDS),
    zone: z.enum(ZONES),
    minutesPerPiece: z.number(),
    crew: z.int(),
    skill: z.enum(SKILLS).nullable(),
    /** People who declared one of these are not assigned. */
    barredRestrictions: z.array(z.enum(RESTRICTIONS)),
    ppe: z.array(z.string()),
    cautions: z.array(StatementBody),
    /** The item counts as stabilised with this step. */
    stabilises: z.boolean(),
  })
  .meta({
    id: 'CareStep',
    description: 'One step of a care route with where and how it is done. Minutes and crew are our own calibration.',
    examples: [{ step: 'rinse', zone: 'dirty', minutesPerPiece: 20, crew: 2, skill: 'rinsing', barredRestrictions: ['no-wet-work'], ppe: ['waterproof rubber gloves'], cautions: [{ ruleId: 'textile.rinse.watch', text: 'If the water colours: out at once.' }], stabilises: false }],
  });

const ObservedBody = z.strictObject({
  materialClass: z.enum(MATERIAL_CLASSES),
  fibre: z.enum(FIBRES),
  count: z.int(),
  wetState: z.enum(WET_STATES),
  wettedAt: z.string().nullable(),
  water: z.enum(WATER_KINDS),
  mould: z.enum(MOULD_STATES),
  fragility: z.enum(FRAGILITIES),
  colourTests: z.array(z.strictObject({ colour: z.string(), solution: z.enum(['water', 'detergent']), method: z.enum(['swab', 'blotter', 'lab']), reading: z.enum(COLOUR_TEST_READINGS) })),
  allColoursTested: z.boolean(),
  alreadyBled: z.boolean().nullable(),
  hazards: z.array(z.enum(HAZARDS)),
  significance: z.enum(SIGNIFICANCES),
  onlyCopy: z.boolean().nullable(),
  highMarketValue: z.boolean().nullable(),
  consents: z.strictObject({ treat: z.boolean().nullable(), freeze: z.boolean().nullable(), refer: z.boolean().nullable(), release: z.boolean().nullable() }),
  /** These are left out where nobody has spoken of them. */
  parts: z.array(z.enum(MATERIAL_CLASSES)).optional(),
  colours: z.array(z.string()).optional(),
  soil: z.enum(SOILS).optional(),
  detachedParts: z.boolean().nullable().optional(),
  oldRepairs: z.boolean().nullable().optional(),
  wettedPlace: z.string().nullable().optional(),
});

/** What follows from an assessment, the same for a thing on record and for one that is only described. */
export const triageResultMembers = {
  urgency: z.enum(URGENCIES),
  startBy: z.string(),
  /** The same, seen from now: a moment that has passed is called late. Null when the thing is safe or has left. */
  startByInWords: z.string().nullable(),
  binding: z.enum(DAMAGE_KINDS).nullable(),
  clocks: z.array(z.strictObject({ damage: z.enum(DAMAGE_KINDS), warnAt: z.string(), deadlineAt: z.string(), ruleId: z.string() })),
  options: z.array(z.strictObject({ disposition: z.enum(DISPOSITIONS), needs: z.array(z.string()), ruleIds: z.array(z.string()), steps: z.array(CareStepBody) })),
  never: z.array(StatementBody),
  cautions: z.array(StatementBody),
  ppe: z.array(z.string()),
  consentNeeded: z.array(StatementBody),
  referral: z.array(StatementBody),
  bathGroup: z.string().nullable(),
  /** What it must not share a place with. */
  apartFrom: z.array(z.strictObject({ place: z.enum(SHARED_PLACES), ruleId: z.string(), text: z.string() })),
  /** How the freezer is set for it; null where freezing is not open. */
  freezer: z.strictObject({ freezeToC: z.number(), holdAtMostC: z.number(), notColderThanC: z.number().nullable() }).nullable(),
  /** How to keep it at home. */
  storage: z.array(StatementBody),
  /** The material whose ways are followed: of a mixed object its most vulnerable part. */
  treatedAs: z.enum(MATERIAL_CLASSES),
  reasons: z.array(
    z.strictObject({ ruleId: z.string(), text: z.string(), because: z.array(z.string()), source: SourceBody }),
  ),
  askNext: z
    .array(z.strictObject({ observation: z.string(), text: z.string(), couldBecome: z.array(z.strictObject({ answer: z.string(), inWords: z.string(), urgency: z.enum(URGENCIES), disposition: z.enum(DISPOSITIONS) })) }))
    .nullable(),
  ruleBookVersion: z.string(),
  standing: z.string(),
} as const;

/** An example of what follows from an assessment. */
export const triageResultExample: z.output<z.ZodObject<typeof triageResultMembers>> = {
  urgency: 'within-two-days', startBy: '2026-05-10T18:00:00.000Z', startByInWords: 'Start within 34 hours.', binding: 'mould',
  clocks: [{ damage: 'mould', warnAt: '2026-05-09T18:00:00.000Z', deadlineAt: '2026-05-10T18:00:00.000Z', ruleId: 'mould.clock' }],
  options: [{ disposition: 'treat', needs: [], ruleIds: ['textile.flat-small.route'], steps: [{ step: 'rinse', zone: 'dirty', minutesPerPiece: 4, crew: 1, skill: 'rinsing', barredRestrictions: ['no-wet-work'], ppe: ['waterproof rubber gloves'], cautions: [], stabilises: false }] }],
  never: [{ ruleId: 'textile.flat-small.route', text: 'Never wring or twist it.' }], cautions: [], ppe: ['waterproof rubber gloves'], consentNeeded: [], referral: [], bathGroup: null,
  apartFrom: [], freezer: null, storage: [{ ruleId: 'storage.textiles', text: 'Store it clean and dry, high up.' }], treatedAs: 'textile-flat-small',
  reasons: [{ ruleId: 'mould.clock', text: 'Drying or freezing begins within 48 hours of wetting.', because: ['wettedAtMs'], source: { mark: 'published', cite: 'Mold (fact sheet), FEMA, 2023' } }],
  askNext: [{ observation: 'onlyCopy', text: 'Is it the only copy?', couldBecome: [{ answer: 'yes', inWords: 'yes', urgency: 'within-two-days', disposition: 'treat' }] }],
  ruleBookVersion: '2026.2', standing: 'Advice to a trained lead.',
};

export const TriageBody = z
  .strictObject({
    itemId: z.string(),
    /** The way that is followed, and the step that comes next on it. */
    disposition: z.enum(DISPOSITIONS).nullable(),
    nextStep: z.enum(STEP_KINDS).nullable(),
    waitingForOwner: z.boolean(),
    ...triageResultMembers,
    /** What it changed against the triage before it; null for the first. */
    change: TriageChangeBody.nullable(),
    override: z.strictObject({ disposition: z.enum(DISPOSITIONS), reason: z.string(), decidedBy: z.string(), decidedAt: z.string() }).nullable(),
    observed: ObservedBody,
    origin: z.enum(['person', 'step-result', 'colour-test', 'consent']),
    assessedBy: z.string(),
    assessedAt: z.string(),
    /** Why the look that it rests on says something else than an earlier one. */
    seenAgain: z.strictObject({ reason: z.string() }).nullable(),
    triagedAt: z.string(),
  })
  .meta({
    id: 'Triage',
    description:
      'What follows from the observations: how soon, which ways are open and in what order, what never to do, what to wear, whom to ask, and why, each with its source. `mark` tells a published source from practice, memory and our own calibration. `askNext` is worked out when the triage is read and null in the answer of a command. Clocks are rules of practice, never promises.',
    examples: [
      {
        itemId: id, disposition: 'treat', nextStep: 'rinse', waitingForOwner: false, ...triageResultExample,
        override: null, change: null,
        observed: {
          materialClass: 'textile-flat-small', fibre: 'cotton', count: 1, wetState: 'wet', wettedAt: null, water: 'black', mould: 'none', fragility: 'sound', colourTests: [{ colour: 'blue', solution: 'water', method: 'swab', reading: 'no-transfer' }],
          allColoursTested: true, alreadyBled: false, hazards: [], significance: 'treasured', onlyCopy: null, highMarketValue: false, consents: { treat: true, freeze: true, refer: null, release: null },
        },
        origin: 'colour-test', assessedBy: id, assessedAt: '2026-05-09T08:10:00.000Z', seenAgain: null, triagedAt: '2026-05-09T08:10:00.000Z',
      },
    ],
  });
