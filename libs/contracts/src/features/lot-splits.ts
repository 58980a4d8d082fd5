import { z } from 'zod';
import { IncidentParams, instant, text, uuid } from '../primitives.js';
import { ItemBody } from './items.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const partId = '0198b7a0-0000-7000-8000-000000000002';

const side = {
  id, incidentId: id, householdId: id, siteId: id, tag: 'BBBC-BBB-47', kind: 'lot' as const, count: 160, splitFromId: null, description: 'Loose colour prints', familyWords: '', photographRef: '', photographedOn: null,
  materialClass: 'photo-colour-print' as const, sizeClass: 'print-10x15', dryingAreaM2: 3.2, freezerVolumeL: 2, dryMassKg: 0.64, significance: 'treasured' as const, arrivedAt: '2026-05-09T07:10:00.000Z', wettedAt: null,
  keeper: { kind: 'holding' as const, id }, stage: 'waiting' as const, custodySeq: 2, openHandOver: null, locationDisputed: false, missing: false, lastSeenAt: '2026-05-09T07:10:00.000Z', urgency: 'within-a-day' as const, startBy: '2026-05-10T06:00:00.000Z', disposition: 'treat' as const, nextStep: 'stabilise' as const, waitingForOwner: false, stabilisedAt: null, version: 5,
};

export const LotParams = IncidentParams.extend({ itemId: uuid });

export const SplitLot = z
  .strictObject({
    /** Pieces that are taken out; at least one stays. */
    count: z.int().min(1).max(100_000),
    /** A reserved tag for the part; case, spaces and hyphens do not matter. */
    tag: text(40),
    /** Who split it. */
    personId: uuid.nullable().default(null),
    splitAt: instant.nullable().default(null),
  })
  .meta({ id: 'SplitLot', examples: [{ count: 80, tag: 'BBBD-BBB-17' }] });
export type SplitLot = z.output<typeof SplitLot>;

export const LotSplitBody = z
  .strictObject({
    /** The new item; it lies where the lot lies. */
    part: ItemBody,
    /** The lot as it is now, under its old tag. */
    lot: ItemBody,
    planRunId: z.string(),
  })
  .meta({
    id: 'LotSplit',
    description: 'A lot and the part that was taken out of it. `count`, `dryingAreaM2`, `freezerVolumeL` and `dryMassKg` of both add up to what the lot was; `splitFromId` of the part names the lot.',
    examples: [{ part: { ...side, id: partId, tag: 'BBBD-BBB-17', count: 80, splitFromId: id, dryingAreaM2: 1.6, freezerVolumeL: 1, dryMassKg: 0.32, custodySeq: 1, version: 2 }, lot: side, planRunId: id }],
  });
