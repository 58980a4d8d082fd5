import { z } from 'zod';
import { COMPARED, DISPOSITIONS, MATERIAL_CLASSES } from '#care';
import { PageQuery, text, uuid } from '../primitives.js';
import { MARKS, SourceBody } from './rule-words.js';
import { DifferenceBody } from './triage-change.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const source = { mark: 'published' as const, cite: 'Mold (fact sheet), FEMA, 2023' };

/** Option by choice. More members than there are choices can only be faults. */
const Choices = z.record(text(60), text(60)).refine((choices) => Object.keys(choices).length <= 100, { message: 'name at most 100 choices' });

export const ChooseRuleBook = z
  .strictObject({
    /** Complete: a choice that is left out stands at its default. */
    choices: Choices,
    reason: text(2_000, 3),
    /** The lead who answers for it; of any incident of the network. */
    personId: uuid,
  })
  .meta({ id: 'ChooseRuleBook', examples: [{ choices: { 'mould-clock': '24h' }, reason: 'The halls stay above 28 C this week.', personId: id }] });
export type ChooseRuleBook = z.output<typeof ChooseRuleBook>;

export const CompareRuleBooks = z
  .strictObject({ choices: Choices, incidentId: uuid })
  .meta({ id: 'CompareRuleBooks', examples: [{ choices: { 'mould-clock': '24h' }, incidentId: id }] });
export type CompareRuleBooks = z.output<typeof CompareRuleBooks>;

const LeadBody = z.strictObject({ id: z.string(), name: z.string() });

export const RuleBookDecisionBody = z
  .strictObject({
    id: z.string(),
    number: z.int(),
    /** Only what differs from the default. */
    choices: z.record(z.string(), z.string()),
    version: z.string(),
    reason: z.string(),
    /** Null for a key that is limited to another incident than the lead's. */
    decidedBy: LeadBody.nullable(),
    decidedAt: z.string(),
  })
  .meta({
    id: 'RuleBookDecision',
    description: 'One decision of a network about the marked choices of the rule book.',
    examples: [{ id, number: 1, choices: { 'mould-clock': '24h' }, version: '2026.2+mould-clock=24h', reason: 'The halls stay above 28 C this week.', decidedBy: { id, name: 'Lead one' }, decidedAt: '2026-05-09T09:00:00.000Z' }],
  });

const ChoiceBody = z.strictObject({
  id: z.string(),
  text: z.string(),
  /** A safety floor is shown with both sides and is not a network's to switch. */
  floor: z.boolean(),
  default: z.string(),
  inForce: z.string(),
  options: z.array(z.strictObject({ id: z.string(), text: z.string(), source: SourceBody })),
});

export const RuleBookBody = z
  .strictObject({
    /** Version of the rules with the choices that differ from the default; triage results record it. */
    version: z.string(),
    rulesVersion: z.string(),
    /** Number of the decision in force, 0 for none; also the ETag. */
    number: z.int(),
    /** Null while everything stands at its default. */
    decision: RuleBookDecisionBody.nullable(),
    /** Choices of the decision that are none any more and stand at their default. */
    lapsed: z.array(z.string()),
    choices: z.array(ChoiceBody),
    rules: z.strictObject({ total: z.int(), floors: z.int(), byMark: z.strictObject({ published: z.int(), 'common-practice': z.int(), 'from-memory': z.int(), 'own-calibration': z.int() }) }),
  })
  .meta({
    id: 'RuleBook',
    description: 'The rule book that the network follows: its version, every marked choice with all sides and their sources, which side is in force and who decided so, and how many rules rest on what.',
    examples: [
      {
        version: '2026.2+mould-clock=24h', rulesVersion: '2026.2', number: 1, lapsed: [],
        decision: { id, number: 1, choices: { 'mould-clock': '24h' }, version: '2026.2+mould-clock=24h', reason: 'The halls stay above 28 C this week.', decidedBy: { id, name: 'Lead one' }, decidedAt: '2026-05-09T09:00:00.000Z' },
        choices: [{ id: 'mould-clock', text: 'How long before mould must be expected', floor: false, default: '48h', inForce: '24h', options: [{ id: '48h', text: 'Drying or freezing begins within 48 hours, with a warning at 24.', source }, { id: '24h', text: 'Begins within 24 hours, the short end of the band.', source }] }],
        rules: { total: 259, floors: 83, byMark: { published: 160, 'common-practice': 40, 'from-memory': 10, 'own-calibration': 49 } },
      },
    ],
  });

export const RuleListQuery = PageQuery.extend({
  /** Only rules that may apply to a thing handled as this. */
  materialClass: z.enum(MATERIAL_CLASSES).optional(),
  mark: z.enum(MARKS).optional(),
});

export const RuleBody = z
  .strictObject({
    id: z.string(),
    text: z.string(),
    /** What it concludes, in plain words. */
    conclusions: z.array(z.string()),
    /** Observations that it looks at. */
    because: z.array(z.string()),
    source: SourceBody,
    /** Never switched off, never overridden silently. */
    floor: z.boolean(),
    /** The marked choice that it embodies. */
    choiceId: z.string().nullable(),
    /** Where sources disagree: what this book does, and what the others say. */
    choice: z.string().nullable(),
    alternative: z.string().nullable(),
  })
  .meta({
    id: 'Rule',
    description: 'One rule of the book that the network follows, with what it rests on.',
    examples: [{ id: 'mould.clock', text: 'Drying or freezing begins within 48 hours of wetting.', conclusions: ['Mould is to be expected 48 hours after the wetting; a warning comes at 24.'], because: ['wettedAtMs'], source, floor: false, choiceId: 'mould-clock', choice: null, alternative: null }],
  });

export const RuleBookComparisonBody = z
  .strictObject({
    versions: z.strictObject({ before: z.string(), after: z.string() }),
    /** Things of the incident, and how many of them were compared: at most 3,000, those looked at last. */
    items: z.int(),
    compared: z.int(),
    /** Things judged differently in any way. */
    changed: z.int(),
    /** Things that would be started later, or lose a prohibition, protection or condition; they stand first in `differing`. */
    laxer: z.int(),
    /** How many differ in what. */
    counts: z.record(z.enum(COMPARED), z.int()),
    firstDispositions: z.array(z.strictObject({ before: z.enum(DISPOSITIONS), after: z.enum(DISPOSITIONS), count: z.int() })),
    /** The first 100 of the changed things. */
    differing: z.array(z.strictObject({ itemId: z.string(), tag: z.string(), laxer: z.boolean(), differences: z.array(DifferenceBody) })),
    /** Changed things beyond those. */
    more: z.int(),
  })
  .meta({
    id: 'RuleBookComparison',
    description: 'How the book in force and another one judge the same things. Nothing is stored. Things that have left are judged as of the day they were last looked at.',
    examples: [
      {
        versions: { before: '2026.2', after: '2026.2+mould-clock=24h' }, items: 2_600, compared: 2_600, changed: 1, laxer: 0,
        counts: Object.fromEntries(COMPARED.map((what) => [what, what === 'startBy' ? 1 : 0])) as Record<(typeof COMPARED)[number], number>, firstDispositions: [],
        differing: [{ itemId: id, tag: 'BBBC-BBB-47', laxer: false, differences: [{ what: 'startBy', before: ['2026-05-10T18:00:00.000Z'], after: ['2026-05-09T18:00:00.000Z'] }] }], more: 0,
      },
    ],
  });
