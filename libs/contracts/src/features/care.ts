import { z } from 'zod';
import {
  COLOUR_TEST_READINGS, DAMAGE_KINDS, DISPOSITIONS, FIBRES, FRAGILITIES, HAZARDS, MATERIAL_CLASSES, MOULD_STATES, RESTRICTIONS, SIGNIFICANCES, SKILLS, STEP_KINDS, URGENCIES, WATER_KINDS, WET_STATES, ZONES,
} from '#care';
import { instant, text, uuid } from '../primitives.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

const ColourTestEntry = z.strictObject({
  /** The colour or thread in words. */
  colour: text(120),
  solution: z.enum(['water', 'detergent']).default('water'),
  method: z.enum(['swab', 'blotter', 'lab']).default('swab'),
  /** Grey scale for staining (ISO 105-A03), or what a swab shows. */
  reading: z.enum(COLOUR_TEST_READINGS),
});

export const AssessItem = z
  .strictObject({
    /** The person who looked. */
    personId: uuid,
    assessedAt: instant.nullable().default(null),
    materialClass: z.enum(MATERIAL_CLASSES).optional(),
    fibre: z.enum(FIBRES).optional(),
    wetState: z.enum(WET_STATES).optional(),
    wettedAt: instant.nullable().optional(),
    water: z.enum(WATER_KINDS).optional(),
    mould: z.enum(MOULD_STATES).optional(),
    fragility: z.enum(FRAGILITIES).optional(),
    alreadyBled: z.boolean().nullable().optional(),
    hazards: z.array(z.enum(HAZARDS)).max(HAZARDS.length).optional(),
    significance: z.enum(SIGNIFICANCES).optional(),
    onlyCopy: z.boolean().nullable().optional(),
    highMarketValue: z.boolean().nullable().optional(),
  })
  .meta({
    id: 'AssessItem',
    description: 'What a person saw. A member that is left out stays as it was known; `unknown` and null say that nobody knows, which counts on the cautious side. Dye that has run and mould that was seen stay until somebody says otherwise. Consents and colour tests are recorded by routes of their own.',
    examples: [{ personId: id, wetState: 'wet', fibre: 'cotton', mould: 'none', fragility: 'sound', alreadyBled: false }],
  });
export type AssessItem = z.output<typeof AssessItem>;

export const RecordColourTest = z
  .strictObject({
    personId: uuid,
    testedAt: instant.nullable().default(null),
    tests: z.array(ColourTestEntry).min(1).max(40),
    /** Every colour, repair fabric and thread is tested, together with the tests recorded before. */
    allColoursTested: z.boolean(),
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

const StatementBody = z.strictObject({ ruleId: z.string(), text: z.string() });

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
});

export const TriageBody = z
  .strictObject({
    itemId: z.string(),
    /** The way that is followed, and the step that comes next on it. */
    disposition: z.enum(DISPOSITIONS).nullable(),
    nextStep: z.enum(STEP_KINDS).nullable(),
    waitingForOwner: z.boolean(),
    urgency: z.enum(URGENCIES),
    startBy: z.string(),
    binding: z.enum(DAMAGE_KINDS).nullable(),
    clocks: z.array(z.strictObject({ damage: z.enum(DAMAGE_KINDS), warnAt: z.string(), deadlineAt: z.string(), ruleId: z.string() })),
    options: z.array(z.strictObject({ disposition: z.enum(DISPOSITIONS), needs: z.array(z.string()), ruleIds: z.array(z.string()), steps: z.array(CareStepBody) })),
    never: z.array(StatementBody),
    cautions: z.array(StatementBody),
    ppe: z.array(z.string()),
    consentNeeded: z.array(StatementBody),
    referral: z.array(StatementBody),
    bathGroup: z.string().nullable(),
    reasons: z.array(
      z.strictObject({ ruleId: z.string(), text: z.string(), because: z.array(z.string()), source: z.strictObject({ mark: z.enum(['published', 'common-practice', 'from-memory', 'own-calibration']), cite: z.string() }) }),
    ),
    askNext: z
      .array(z.strictObject({ observation: z.string(), text: z.string(), couldBecome: z.array(z.strictObject({ answer: z.string(), urgency: z.enum(URGENCIES), disposition: z.enum(DISPOSITIONS) })) }))
      .nullable(),
    override: z.strictObject({ disposition: z.enum(DISPOSITIONS), reason: z.string(), decidedBy: z.string(), decidedAt: z.string() }).nullable(),
    observed: ObservedBody,
    origin: z.enum(['person', 'step-result', 'colour-test', 'consent']),
    assessedBy: z.string(),
    assessedAt: z.string(),
    triagedAt: z.string(),
    ruleBookVersion: z.string(),
    standing: z.string(),
  })
  .meta({
    id: 'Triage',
    description:
      'What follows from the observations: how soon, which ways are open and in what order, what never to do, what to wear, whom to ask, and why, each with its source. `mark` tells a published source from practice, memory and our own calibration. `askNext` is worked out when the triage is read and null in the answer of a command. Clocks are rules of practice, never promises.',
    examples: [
      {
        itemId: id, disposition: 'treat', nextStep: 'rinse', waitingForOwner: false, urgency: 'within-two-days', startBy: '2026-05-10T18:00:00.000Z', binding: 'mould',
        clocks: [{ damage: 'mould', warnAt: '2026-05-09T18:00:00.000Z', deadlineAt: '2026-05-10T18:00:00.000Z', ruleId: 'mould.clock' }],
        options: [{ disposition: 'treat', needs: [], ruleIds: ['textile.flat-small.route'], steps: [{ step: 'rinse', zone: 'dirty', minutesPerPiece: 4, crew: 1, skill: 'rinsing', barredRestrictions: ['no-wet-work'], ppe: ['waterproof rubber gloves'], cautions: [], stabilises: false }] }],
        never: [{ ruleId: 'textile.flat-small.route', text: 'Never wring or twist it.' }], cautions: [], ppe: ['waterproof rubber gloves'], consentNeeded: [], referral: [], bathGroup: null,
        reasons: [{ ruleId: 'mould.clock', text: 'Drying or freezing begins within 48 hours of wetting.', because: ['wettedAtMs'], source: { mark: 'published', cite: 'Mold (fact sheet), FEMA, 2023' } }],
        askNext: [{ observation: 'onlyCopy', text: 'Is it the only copy?', couldBecome: [{ answer: 'yes', urgency: 'within-two-days', disposition: 'treat' }] }],
        override: null,
        observed: {
          materialClass: 'textile-flat-small', fibre: 'cotton', count: 1, wetState: 'wet', wettedAt: null, water: 'black', mould: 'none', fragility: 'sound', colourTests: [{ colour: 'blue', solution: 'water', method: 'swab', reading: 'no-transfer' }],
          allColoursTested: true, alreadyBled: false, hazards: [], significance: 'treasured', onlyCopy: null, highMarketValue: false, consents: { treat: true, freeze: true, refer: null, release: null },
        },
        origin: 'colour-test', assessedBy: id, assessedAt: '2026-05-09T08:10:00.000Z', triagedAt: '2026-05-09T08:10:00.000Z', ruleBookVersion: '2026.1', standing: 'Advice to a trained lead.',
      },
    ],
  });
