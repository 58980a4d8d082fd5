import { z } from 'zod';
import { MATERIAL_CLASSES, SIGNIFICANCES, URGENCIES, WATER_KINDS } from '#care';
import { instant, PageQuery, text, uuid } from '../primitives.js';
import { KeeperRef } from './custody.js';
import { ItemBody } from './items.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

export const AidAgreementParams = z.strictObject({ agreementId: uuid });
export const AidOfferParams = z.strictObject({ offerId: uuid });

export const InviteToAid = z
  .strictObject({ partnerName: text(120), validTo: instant })
  .meta({ id: 'InviteToAid', examples: [{ partnerName: 'Upper Valley salvage', validTo: '2026-06-30T00:00:00Z' }] });
export type InviteToAid = z.output<typeof InviteToAid>;

export const JoinAid = z
  .strictObject({ invitation: text(200) })
  .meta({ id: 'JoinAid', examples: [{ invitation: 'wa_0198b7a000007000800000000000000a_0198b7a000007000800000000000000b_q2mV0cB6o1s7Yk9Wc3xZr8uNfT4hLpJdGvEaXiMbKeQ' }] });
export type JoinAid = z.output<typeof JoinAid>;

const agreement = z.strictObject({
  id: z.string(), incidentId: z.string(), role: z.enum(['giver', 'receiver']), state: z.enum(['invited', 'agreed', 'revoked']), partnerName: z.string(), householdId: z.string().nullable(),
  validTo: z.string(), createdAt: z.string(), agreedAt: z.string().nullable(), revokedAt: z.string().nullable(),
});
const agreementExample = { id, incidentId: id, role: 'giver' as const, state: 'invited' as const, partnerName: 'Upper Valley salvage', householdId: null, validTo: '2026-06-30T00:00:00.000Z', createdAt: '2026-05-09T08:00:00.000Z', agreedAt: null, revokedAt: null };

export const AidAgreementBody = agreement.meta({
  id: 'AidAgreement',
  description: 'What two networks agreed. `giver`: our things may go to the partner and come back; `receiver`: its things may come to us, and stand under `householdId`, a record without a family.',
  examples: [agreementExample],
});

export const NewAidAgreementBody = agreement
  .extend({ invitation: z.string().nullable() })
  .meta({ id: 'NewAidAgreement', description: 'As an agreement, with the invitation that is shown this once: send it to the coordinator of the partner, and to nobody else.', examples: [{ ...agreementExample, invitation: 'wa_0198b7a000007000800000000000000a_0198b7a000007000800000000000000b_q2mV0cB6o1s7Yk9Wc3xZr8uNfT4hLpJdGvEaXiMbKeQ' }] });

export const OfferToPartner = z
  .strictObject({ itemId: uuid, personId: uuid.nullable().default(null), expiresAt: instant.nullable().default(null) })
  .meta({ id: 'OfferToPartner', examples: [{ itemId: id, personId: id, expiresAt: null }] });
export type OfferToPartner = z.output<typeof OfferToPartner>;

export const ReturnToPartner = z
  .strictObject({ personId: uuid.nullable().default(null), expiresAt: instant.nullable().default(null) })
  .meta({ id: 'ReturnToPartner', examples: [{ personId: id, expiresAt: null }] });
export type ReturnToPartner = z.output<typeof ReturnToPartner>;

export const AcceptFromPartner = z
  .strictObject({ siteId: uuid, tag: text(40), to: KeeperRef.nullable().default(null) })
  .meta({ id: 'AcceptFromPartner', examples: [{ siteId: id, tag: 'KBCD-FGH-42', to: null }] });
export type AcceptFromPartner = z.output<typeof AcceptFromPartner>;

export const AcceptReturn = z.strictObject({ to: KeeperRef }).meta({ id: 'AcceptReturn', examples: [{ to: { kind: 'holding', id } }] });
export type AcceptReturn = z.output<typeof AcceptReturn>;

export const EmptyAidCommand = z.strictObject({}).meta({ id: 'EmptyAidCommand', examples: [{}] });

const facts = z.strictObject({
  tag: z.string(), lot: z.boolean(), count: z.int(), description: z.string(), materialClass: z.enum(MATERIAL_CLASSES), sizeClass: z.string(), significance: z.enum(SIGNIFICANCES), water: z.enum(WATER_KINDS),
  urgency: z.enum(URGENCIES).nullable(), wettedAt: z.string().nullable(), startBy: z.string().nullable(),
});

export const AidOfferBody = z
  .strictObject({
    id: z.string(), incidentId: z.string(), agreementId: z.string(), direction: z.enum(['out', 'in']), kind: z.enum(['hand-over', 'return']), state: z.enum(['open', 'accepted', 'declined', 'withdrawn']),
    itemId: z.string().nullable(), facts, offeredAt: z.string(), expiresAt: z.string(), answeredAt: z.string().nullable(),
  })
  .meta({
    id: 'AidOffer',
    description: 'A thing that one network offers to the other. Until it is accepted the giver keeps it. `itemId` is our own record of it. `facts` say nothing about its family.',
    examples: [{
      id, incidentId: id, agreementId: id, direction: 'out', kind: 'hand-over', state: 'open', itemId: id,
      facts: { tag: 'BBBC-BBB-47', lot: false, count: 1, description: 'Wedding quilt', materialClass: 'textile-quilt-padded', sizeClass: 'double-quilt', significance: 'irreplaceable', water: 'black', urgency: 'within-a-day', wettedAt: null, startBy: null },
      offeredAt: '2026-05-09T08:00:00.000Z', expiresAt: '2026-05-10T08:00:00.000Z', answeredAt: null,
    }],
  });

export const AcceptedFromPartnerBody = z.strictObject({ offer: AidOfferBody, item: ItemBody }).meta({ id: 'AcceptedFromPartner', description: 'The offer, and our record of the thing: we hold it now.' });

export const AidOfferListQuery = PageQuery.extend({ open: z.enum(['true', 'false']).transform((value) => value === 'true').optional() });
