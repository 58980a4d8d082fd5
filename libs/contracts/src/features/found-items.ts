import { z } from 'zod';
import { MATERIAL_CLASSES } from '#care';
import { day, optionalText, PageQuery, text, uuid } from '../primitives.js';
import { TakeInItem } from './items.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const STATES = ['open', 'granted', 'declined', 'withdrawn'] as const;
const DECLINES = ['not-enough-agreed', 'cannot-be-told'] as const;
const REASONS = [...DECLINES, 'another-claim-accepted', 'taken-back', 'household-erased'] as const;

export const OwnershipClaimParams = z.strictObject({ ownershipClaimId: uuid });

const Mark = z.strictObject({ question: text(300), answer: text(500) });

export const TakeInFoundItem = TakeInItem.omit({ householdId: true, familyWords: true })
  .extend({
    foundOn: day,
    foundPlace: text(500),
    finder: optionalText(500).meta({ description: 'Who found or brought it and how to reach them, if they said so.' }),
    personId: uuid,
    marks: z.array(Mark).max(10).default([]),
  })
  .meta({
    id: 'TakeInFoundItem',
    examples: [{ siteId: id, tag: 'BBBC-BBB-47', description: 'Quilt, red and white', materialClass: 'textile-quilt-padded', sizeClass: 'double-quilt', foundOn: '2026-05-08', foundPlace: 'In the hedge below the weir', finder: '', personId: id, marks: [{ question: 'What is sewn into the hem?', answer: 'Two small bells' }] }],
  });

export const FoundItemBody = z
  .strictObject({ id: z.string(), itemId: z.string(), incidentId: z.string(), tag: z.string(), foundOn: z.string(), questions: z.int(), ownerKnown: z.boolean() })
  .meta({ id: 'FoundItem', description: 'A thing whose owner was not known when it came. Read the item itself for where it is and what comes next.', examples: [{ id, itemId: id, incidentId: id, tag: 'BBBC-BBB-47', foundOn: '2026-05-08', questions: 1, ownerKnown: false }] });

const FOUND_STATES = ['unclaimed', 'claimed', 'decided', 'ended'] as const;
export const FoundItemListQuery = PageQuery.extend({ state: z.enum(FOUND_STATES).optional() });

export const FoundListItemBody = z
  .strictObject({
    id: z.string(), itemId: z.string(), incidentId: z.string(), tag: z.string(), description: z.string(), materialClass: z.enum(MATERIAL_CLASSES), count: z.int(), foundOn: z.string(), recordedAt: z.string(),
    state: z.enum(FOUND_STATES),
    /** How many questions are on record; without one it cannot be claimed. */
    questions: z.int(),
    openClaims: z.int(),
    /** The newest dated path of it. */
    uncollectedId: z.string().nullable(),
  })
  .meta({
    id: 'FoundListItem',
    description: 'A found thing as our people may see it in a list. Nothing of where and by whom it was found, and no question or answer is in it. `claimed`: a household says that it is theirs; `decided`: its owner is known, or two people have said what becomes of it; `ended`: it has left us.',
    examples: [{ id, itemId: id, incidentId: id, tag: 'BBBC-BBB-47', description: 'Quilt, red and white', materialClass: 'textile-quilt-padded', count: 1, foundOn: '2026-05-08', recordedAt: '2026-05-09T07:10:00.000Z', state: 'unclaimed', questions: 2, openClaims: 0, uncollectedId: null }],
  });

export const OwnershipClaimBody = z
  .strictObject({
    id: z.string(),
    itemId: z.string(),
    householdId: z.string(),
    state: z.enum(STATES),
    reason: z.enum(REASONS).nullable(),
    acceptances: z.int(),
    toTell: z.string(),
    takenBy: z.string(),
    takenAt: z.string(),
    endedAt: z.string().nullable(),
    version: z.int(),
  })
  .meta({
    id: 'OwnershipClaim',
    description: 'A household says that a found thing is theirs. `toTell` is what may be said to the family; which answers fitted is told to nobody. Answers are in no answer of ours but the comparison.',
    examples: [{ id, itemId: id, householdId: id, state: 'open', reason: null, acceptances: 0, toTell: 'Two people who did not take down these answers will decide. Until then it stays with us and is given to nobody.', takenBy: id, takenAt: '2026-05-09T07:10:00.000Z', endedAt: null, version: 1 }],
  });

export const FoundRecordBody = z
  .strictObject({
    id: z.string(),
    itemId: z.string(),
    incidentId: z.string(),
    foundOn: z.string(),
    foundPlace: z.string(),
    finder: z.string(),
    recordedBy: z.string(),
    recordedAt: z.string(),
    ownerKnown: z.boolean(),
    questions: z.array(z.strictObject({ markId: z.string(), question: z.string() })),
    claims: z.array(OwnershipClaimBody),
  })
  .meta({
    id: 'FoundRecord',
    description: 'Where and by whom it was found, what a claimant is asked, and how claims stand. Never with an answer.',
    examples: [{ id, itemId: id, incidentId: id, foundOn: '2026-05-08', foundPlace: 'In the hedge below the weir', finder: '', recordedBy: id, recordedAt: '2026-05-09T07:10:00.000Z', ownerKnown: false, questions: [{ markId: id, question: 'What is sewn into the hem?' }], claims: [] }],
  });

export const RecordOwnerMark = Mark.extend({ personId: uuid }).meta({ id: 'RecordOwnerMark', examples: [{ question: 'What is sewn into the hem?', answer: 'Two small bells', personId: id }] });

export const OwnerMarkBody = z
  .strictObject({ id: z.string(), itemId: z.string(), recordedBy: z.string(), recordedAt: z.string() })
  .meta({ id: 'OwnerMark', description: 'A question that only the owner can answer is on record. Neither question nor answer is told back.', examples: [{ id, itemId: id, recordedBy: id, recordedAt: '2026-05-09T07:10:00.000Z' }] });

export const FoundNoticeBody = z
  .strictObject({ itemId: z.string(), en: z.string(), es: z.string() })
  .meta({
    id: 'FoundNotice',
    description: 'All that may be told in public, in both languages: a broad kind of thing, the place of the incident, the week. Put no photograph and no word beside it.',
    examples: [{ itemId: id, en: 'A thing of cloth was found. Area: Elmsford Reach. Week that began on 2026-05-04.', es: 'Se encontró un objeto de tela. Zona: Elmsford Reach. Semana que comenzó el 2026-05-04.' }],
  });

export const ClaimFoundItem = z
  .strictObject({
    householdId: uuid,
    takenBy: uuid,
    statement: optionalText(2_000).meta({ description: 'What the family says of the thing in its own words.' }),
    answers: z.array(z.strictObject({ markId: uuid, answer: text(500) })).max(10).default([]),
  })
  .meta({ id: 'ClaimFoundItem', examples: [{ householdId: id, takenBy: id, statement: 'It lay on my mother\u2019s bed.', answers: [{ markId: id, answer: 'Little bells' }] }] });

export const ComparisonQuery = z.strictObject({ personId: uuid });

export const ClaimComparisonBody = z
  .strictObject({
    ownershipClaimId: z.string(),
    itemId: z.string(),
    statement: z.string(),
    rows: z.array(z.strictObject({ markId: z.string(), question: z.string(), onRecord: z.string(), said: z.string() })),
    caution: z.string(),
  })
  .meta({
    id: 'ClaimComparison',
    description: 'Both sides of an open claim, for one who will decide it.',
    examples: [{ ownershipClaimId: id, itemId: id, statement: 'It lay on my mother\u2019s bed.', rows: [{ markId: id, question: 'What is sewn into the hem?', onRecord: 'Two small bells', said: 'Little bells' }], caution: 'Compare in your own mind.' }],
  });

export const DecideOwnershipClaim = z
  .strictObject({ personId: uuid, accepts: z.boolean(), reason: z.enum(DECLINES).nullable().default(null) })
  .refine(({ accepts, reason }) => accepts === (reason === null), { path: ['reason'], message: 'goes with a no, and is needed there' })
  .meta({ id: 'DecideOwnershipClaim', examples: [{ personId: id, accepts: true, reason: null }] });

export const WithdrawOwnershipClaim = z.strictObject({}).meta({ id: 'WithdrawOwnershipClaim', examples: [{}] });

export const LookUpHouseholds = z
  .strictObject({ name: optionalText(200), phone: optionalText(60), email: optionalText(200) })
  .meta({ id: 'LookUpHouseholds', examples: [{ name: 'Contact of household 42', phone: '', email: '' }] });

export const HouseholdLookupBody = z
  .strictObject({
    items: z.array(z.strictObject({ id: z.string(), code: z.string(), language: z.string(), matched: z.array(z.enum(['name', 'phone', 'email'])) })),
    more: z.boolean(),
    how: z.string(),
  })
  .meta({ id: 'HouseholdLookup', description: 'Households whose contact has what was asked for, those that match in most first; at most 20. Contacts are read one by one.', examples: [{ items: [{ id, code: 'HH-0042', language: 'en', matched: ['name'] }], more: false, how: 'Whole values only.' }] });
