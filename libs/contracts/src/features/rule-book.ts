import { z } from 'zod';
import { COMPARED, DISPOSITIONS, MATERIAL_CLASSES, RELEASE_CHANGE_KINDS, RELEASES } from '#care';
import { PageQuery, text, uuid } from '../primitives.js';
import { MARKS, SourceBody } from './rule-words.js';
import { DifferenceBody } from './triage-change.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const source = { mark: 'published' as const, cite: 'Mold (fact sheet), FEMA, 2023' };

/** Option by choice. More members than there are choices can only be faults. */
const Choices = z.record(text(60), text(60)).refine((choices) => Object.keys(choices).length <= 100, { message: 'name at most 100 choices' });

const Release = z.enum(RELEASES);

export const ChooseRuleBook = z
  .strictObject({
    /** The release to follow; left out for the one that is followed now. */
    release: Release.optional(),
    /** Complete: a choice that is left out stands at its default. */
    choices: Choices,
    reason: text(2_000, 3),
    /** The lead who answers for it; of any incident of the network. */
    personId: uuid,
  })
  .meta({ id: 'ChooseRuleBook', examples: [{ release: '2026.11', choices: { 'mould-clock': '24h' }, reason: 'Compared over last week; the halls stay above 28 C this week.', personId: id }] });
export type ChooseRuleBook = z.output<typeof ChooseRuleBook>;

const BookToCompare = z.strictObject({
  /** The release that the network follows when left out. */
  release: Release.optional(),
  /** Complete: a choice that is left out stands at its default. */
  choices: Choices.default({}),
});

export const CompareRuleBooks = z
  .strictObject({
    /** The book in force when left out. */
    from: BookToCompare.optional(),
    to: BookToCompare,
    incidentId: uuid,
    /** Show only things that differ in one of these; all are counted. */
    only: z.array(z.enum(COMPARED)).min(1).max(COMPARED.length).optional(),
  })
  .meta({ id: 'CompareRuleBooks', examples: [{ to: { release: '2026.11', choices: { 'mould-clock': '24h' } }, incidentId: id }, { from: { release: '2026.2', choices: {} }, to: { release: '2026.11', choices: {} }, incidentId: id, only: ['never', 'ppe'] }] });
export type CompareRuleBooks = z.output<typeof CompareRuleBooks>;

export const RuleBookQuery = z.strictObject({
  /** Another release, as the network would follow it; the one in force when left out. */
  release: Release.optional(),
});

const LeadBody = z.strictObject({ id: z.string(), name: z.string() });

const decisionExample = { id, number: 1, release: '2026.11', choices: { 'mould-clock': '24h' }, version: '2026.11+mould-clock=24h', reason: 'The halls stay above 28 C this week.', decidedBy: { id, name: 'Lead one' }, decidedAt: '2026-05-09T09:00:00.000Z' };

export const RuleBookDecisionBody = z
  .strictObject({
    id: z.string(),
    number: z.int(),
    /** The release that the network follows from then on. */
    release: z.string(),
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
    description: 'One decision of a network about the rule book: a release, and the sides of its marked choices.',
    examples: [decisionExample],
  });

export const RuleBookChosenBody = z
  .strictObject({
    ...RuleBookDecisionBody.shape,
    /** What the decision changed; the things that are still here are triaged anew in the background. */
    changed: z.strictObject({
      /** Versions of the rule book. */
      before: z.string(),
      after: z.string(),
      /** Rules by their ids; GET /v1/rulebook/releases says why a release changed them. */
      rules: z.strictObject({ added: z.array(z.string()), withdrawn: z.array(z.string()), altered: z.array(z.string()) }),
      /** Null where a release does not have the choice. */
      choices: z.array(z.strictObject({ choiceId: z.string(), before: z.string().nullable(), after: z.string().nullable() })),
    }),
  })
  .meta({
    id: 'RuleBookChosen',
    description: 'The decision that is in force now, and which rules and choices are others than before.',
    examples: [
      {
        ...decisionExample,
        changed: { before: '2026.2', after: '2026.11+mould-clock=24h', rules: { added: ['people.generator'], withdrawn: [], altered: ['paper.framed.route'] }, choices: [{ choiceId: 'mould-clock', before: '48h', after: '24h' }] },
      },
    ],
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

const RuleCounts = z.strictObject({ total: z.int(), floors: z.int(), byMark: z.strictObject({ published: z.int(), 'common-practice': z.int(), 'from-memory': z.int(), 'own-calibration': z.int() }) });
const countsExample = { total: 327, floors: 99, byMark: { published: 171, 'common-practice': 39, 'from-memory': 30, 'own-calibration': 87 } };

export const RuleBookBody = z
  .strictObject({
    /** The release shown, with the choices that differ from the default; triage results record it. */
    version: z.string(),
    release: z.string(),
    /** The release that the network follows, whichever is shown, and the newest there is. */
    follows: z.string(),
    newest: z.string(),
    /** Number of the decision in force, 0 for none; also the ETag. */
    number: z.int(),
    /** Null while the network follows the release it began with, at the defaults. */
    decision: RuleBookDecisionBody.nullable(),
    /** Choices of the decision that the release shown does not have; they stand at their default. */
    lapsed: z.array(z.string()),
    /** A release that was decided on and that the program does not hold any more; the newest stands in its place. */
    lapsedRelease: z.string().nullable(),
    choices: z.array(ChoiceBody),
    rules: RuleCounts,
  })
  .meta({
    id: 'RuleBook',
    description: 'The rule book that the network follows: its version, every marked choice with all sides and their sources, which side is in force and who decided so, and how many rules rest on what.',
    examples: [
      {
        version: '2026.11+mould-clock=24h', release: '2026.11', follows: '2026.11', newest: '2026.11', number: 1, lapsed: [], lapsedRelease: null,
        decision: decisionExample,
        choices: [{ id: 'mould-clock', text: 'How long before mould must be expected', floor: false, default: '48h', inForce: '24h', options: [{ id: '48h', text: 'Drying or freezing begins within 48 hours, with a warning at 24.', source }, { id: '24h', text: 'Begins within 24 hours, the short end of the band.', source }] }],
        rules: countsExample,
      },
    ],
  });

export const RuleListQuery = PageQuery.extend({
  /** Another release, as the network would follow it; the one in force when left out. */
  release: Release.optional(),
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
    /** The release that first had it in these words. */
    since: z.string(),
  })
  .meta({
    id: 'Rule',
    description: 'One rule of the book that the network follows, with what it rests on.',
    examples: [{ id: 'mould.clock', text: 'Drying or freezing begins within 48 hours of wetting.', conclusions: ['Mould is to be expected 48 hours after the wetting; a warning comes at 24.'], because: ['wettedAtMs'], source, floor: false, choiceId: 'mould-clock', choice: null, alternative: null, since: '2026.2' }],
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
    /** The first 100 of the changed things, or of those that differ in what was asked for. */
    differing: z.array(z.strictObject({ itemId: z.string(), tag: z.string(), laxer: z.boolean(), differences: z.array(DifferenceBody) })),
    /** Such things beyond those. */
    more: z.int(),
  })
  .meta({
    id: 'RuleBookComparison',
    description: 'How two books judge the same things. Nothing is stored. Things that have left are judged as of the day they were last looked at.',
    examples: [
      {
        versions: { before: '2026.11', after: '2026.11+mould-clock=24h' }, items: 2_600, compared: 2_600, changed: 1, laxer: 0,
        counts: Object.fromEntries(COMPARED.map((what) => [what, what === 'startBy' ? 1 : 0])) as Record<(typeof COMPARED)[number], number>, firstDispositions: [],
        differing: [{ itemId: id, tag: 'BBBC-BBB-47', laxer: false, differences: [{ what: 'startBy', before: ['2026-05-10T18:00:00.000Z'], after: ['2026-05-09T18:00:00.000Z'] }] }], more: 0,
      },
    ],
  });

const RuleAsWas = z.strictObject({ text: z.string(), conclusions: z.array(z.string()), source: SourceBody });

const ReleaseChangeBody = z.strictObject({
  kind: z.enum(RELEASE_CHANGE_KINDS),
  ruleId: z.string(),
  /** Why the release changed it, in plain words. */
  why: z.string(),
  /** The rule in the release before, null where it came. */
  before: RuleAsWas.nullable(),
  /** The rule in this release, null where it went. */
  after: RuleAsWas.nullable(),
});

export const RuleBookReleasesBody = z
  .strictObject({
    follows: z.string(),
    newest: z.string(),
    /** Newest first. */
    releases: z.array(
      z.strictObject({
        release: z.string(),
        summary: z.string(),
        /** At the default of all choices. */
        rules: RuleCounts,
        /** Against the release before it; null for the oldest that is kept. */
        changes: z
          .strictObject({
            since: z.string(),
            rules: z.array(ReleaseChangeBody),
            /** Sides of marked choices that came or went. */
            sides: z.array(z.strictObject({ kind: z.enum(RELEASE_CHANGE_KINDS), choiceId: z.string(), optionId: z.string(), text: z.string(), why: z.string() })),
          })
          .nullable(),
      }),
    ),
  })
  .meta({
    id: 'RuleBookReleases',
    description: 'The releases of the rule book that are kept side by side, what each changed and why, and which one the network follows.',
    examples: [
      {
        follows: '2026.2', newest: '2026.11',
        releases: [
          {
            release: '2026.11', summary: 'A caution about generators is new.', rules: countsExample,
            changes: {
              since: '2026.2',
              rules: [{ kind: 'added', ruleId: 'people.generator', why: 'The book had no word about generators.', before: null, after: { text: 'A generator gives off carbon monoxide.', conclusions: ['A generator runs outdoors. (drying)'], source: { mark: 'published', cite: 'Flooded areas (worker safety), US OSHA' } } }],
              sides: [{ kind: 'added', choiceId: 'fan-direction', optionId: 'across', text: 'Across the surface of textiles; toward nothing else.', why: 'One of the sources that disagree had no side to be chosen.' }],
            },
          },
          { release: '2026.2', summary: 'The release with which this list begins.', rules: { ...countsExample, total: 320 }, changes: null },
        ],
      },
    ],
  });
