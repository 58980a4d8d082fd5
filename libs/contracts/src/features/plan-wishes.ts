import { z } from 'zod';
import { DISPOSITIONS, STEP_KINDS } from '#care';
import { instant, PageQuery, text, uuid } from '../primitives.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

export const PLAN_WISH_KINDS = ['pin', 'first', 'not-before', 'bar-station', 'bar-way'] as const;
type Kind = (typeof PLAN_WISH_KINDS)[number];

export const PlanWishParams = z.strictObject({ planWishId: uuid });
export const PlanWishListQuery = PageQuery.extend({ state: z.enum(['stands', 'ended', 'all']).default('stands'), itemId: uuid.optional() });

/** Members that belong to one kind only, and whether it needs them. */
const OF_KIND = { notBefore: { kind: 'not-before', needed: true }, stationId: { kind: 'bar-station', needed: true }, step: { kind: 'bar-station', needed: false }, disposition: { kind: 'bar-way', needed: true } } as const;
type Member = keyof typeof OF_KIND;

/** What is missing for the kind, or belongs to another. */
function faults(wish: { kind: Kind } & Partial<Record<Member, unknown>>, members: readonly Member[]): { path: string[]; message: string }[] {
  return members.flatMap((member) => {
    const { kind, needed } = OF_KIND[member];
    const given = wish[member] !== undefined;
    if (wish.kind === kind && needed && !given) return [{ path: [member], message: `is needed for ${kind}` }];
    return wish.kind !== kind && given ? [{ path: [member], message: `belongs to ${kind}; leave it out` }] : [];
  });
}

const reason = text(2000, 3);
const personId = uuid.describe('The lead who decides.');

export const RecordPlanWish = z
  .strictObject({
    itemId: uuid,
    kind: z.enum(PLAN_WISH_KINDS).describe('`pin`: done just as the plan in force has it; `first`: before everything that nobody has put first; `not-before`: nothing of it begins before a moment; `bar-station`: not at a station; `bar-way`: not on a way.'),
    /** For `bar-station`. */
    stationId: uuid.optional(),
    /** For `bar-station`: only this step; all of them when left out. */
    step: z.enum(STEP_KINDS).optional(),
    /** For `bar-way`. */
    disposition: z.enum(DISPOSITIONS).optional(),
    /** For `not-before`. */
    notBefore: instant.optional(),
    reason,
    personId,
  })
  .superRefine((wish, context) => {
    for (const fault of faults(wish, ['notBefore', 'stationId', 'step', 'disposition'])) context.addIssue({ code: 'custom', ...fault });
  })
  .meta({ id: 'RecordPlanWish', examples: [{ itemId: id, kind: 'not-before', notBefore: '2026-05-10T09:00:00Z', reason: 'The owner wants to be there when it is unpacked.', personId: id }] });
export type RecordPlanWish = z.output<typeof RecordPlanWish>;

export const RecordStationWish = z
  .strictObject({
    itemId: uuid,
    kind: z.enum(['bar-station', 'not-before', 'first']).describe('`bar-station`: this station does not do it; `not-before`: not before a moment; `first`: before everything that nobody has put first.'),
    /** For `bar-station`: only this step; all of them when left out. */
    step: z.enum(STEP_KINDS).optional(),
    /** For `not-before`. */
    notBefore: instant.optional(),
    reason,
    personId,
  })
  .superRefine((wish, context) => {
    for (const fault of faults(wish, ['notBefore', 'step'])) context.addIssue({ code: 'custom', ...fault });
  })
  .meta({ id: 'RecordStationWish', examples: [{ itemId: id, kind: 'bar-station', step: 'rinse', reason: 'Our baths are too small for it.', personId: id }] });
export type RecordStationWish = z.output<typeof RecordStationWish>;

export const WithdrawPlanWish = z
  .strictObject({ personId, reason })
  .meta({ id: 'WithdrawPlanWish', examples: [{ personId: id, reason: 'The owner has been and gone.' }] });
export type WithdrawPlanWish = z.output<typeof WithdrawPlanWish>;

const Person = z.strictObject({ id: z.string(), name: z.string() });

export const PlanWishBody = z
  .strictObject({
    id: z.string(),
    incidentId: z.string(),
    itemId: z.string(),
    tag: z.string(),
    kind: z.enum(PLAN_WISH_KINDS),
    stationId: z.string().nullable(),
    stationCode: z.string().nullable(),
    step: z.enum(STEP_KINDS).nullable(),
    disposition: z.enum(DISPOSITIONS).nullable(),
    notBefore: z.string().nullable(),
    /** Of a pin: the steps as they were planned. */
    pinned: z.array(z.strictObject({ step: z.enum([...STEP_KINDS, 'carry']), disposition: z.enum(DISPOSITIONS), stationId: z.string().nullable(), personIds: z.array(z.string()), dryingPlaceId: z.string().nullable(), freezerId: z.string().nullable(), serviceId: z.string().nullable(), startsAt: z.string(), endsAt: z.string() })),
    inWords: z.string(),
    reason: z.string(),
    wishedBy: Person,
    wishedAt: z.string(),
    /** The station whose lead asked for it; null for a coordinator. */
    askedAtStationId: z.string().nullable(),
    state: z.enum(['stands', 'withdrawn', 'lapsed']),
    withdrawn: z.strictObject({ at: z.string(), by: Person, reason: z.string() }).nullable(),
    /** A pin ends by itself when it cannot hold any more; the planner says why. */
    lapsed: z.strictObject({ at: z.string(), why: z.string() }).nullable(),
  })
  .meta({
    id: 'PlanWish',
    description: 'What a coordinator or the lead of a station wants of the plan for one item. Every plan that is made while it stands heeds it; nothing of it is deleted.',
    examples: [
      {
        id, incidentId: id, itemId: id, tag: 'BBBC-BBB-47', kind: 'bar-station', stationId: id, stationCode: 'RINSE', step: 'rinse', disposition: null, notBefore: null, pinned: [], inWords: '“Rinse” of BBBC-BBB-47 is not done at RINSE.',
        reason: 'Our baths are too small for it.', wishedBy: { id, name: 'Lead one' }, wishedAt: '2026-05-09T12:00:00.000Z', askedAtStationId: id, state: 'stands', withdrawn: null, lapsed: null,
      },
    ],
  });
