import { z } from 'zod';
import { STOCK_TAKE_RESOLUTIONS } from '#custody';
import { instant, text, uuid } from '../primitives.js';
import { KeeperRef } from './custody.js';
import { ScanProblemBody } from './scans.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const shelf = { kind: 'shelf' as const, id };
const kind = z.enum(['misplaced', 'missing', 'foreign']);
const resolution = z.enum(STOCK_TAKE_RESOLUTIONS);
const standing = z.enum(['ours', 'left', 'unknown', 'retired', 'not-tied', 'other-incident']);

export const StockTakeParams = z.strictObject({ stockTakeId: uuid });
export const StockTakeDifferenceParams = z.strictObject({ stockTakeId: uuid, differenceId: uuid });

export const StartStockTake = z
  .strictObject({
    siteId: uuid.nullable().default(null).describe('A whole site: all its places, with what is in the containers there. Or name single places in `places`.'),
    places: z.array(KeeperRef).max(200).default([]),
    personId: uuid.describe('Who answers for it.'),
  })
  .meta({ id: 'StartStockTake', examples: [{ places: [shelf], personId: id }] });

export const StockTakeScanInput = z.strictObject({
  scanId: uuid.describe('Made by the device. The same scan sent again counts once.'),
  itemTag: text(40),
  placeTag: text(40).nullable().default(null).describe('The tag of the place or container where it was seen; or name the place itself in `place`.'),
  place: KeeperRef.nullable().default(null),
  seenAt: instant,
  personId: uuid.describe('Who saw it.'),
});
export const RecordStockTakeScans = z.strictObject({ scans: z.array(StockTakeScanInput).min(1).max(200) }).meta({ id: 'RecordStockTakeScans', examples: [{ scans: [{ scanId: id, itemTag: 'BBBC-BBB-47', place: shelf, seenAt: '2026-05-09T09:12:00Z', personId: id }] }] });
export type RecordStockTakeScans = z.output<typeof RecordStockTakeScans>;

export const StockTakeScansBody = z
  .strictObject({ results: z.array(z.strictObject({ scanId: z.string(), verdict: z.enum(['counted', 'again', 'refused']), standing: standing.nullable(), itemId: z.string().nullable(), problem: ScanProblemBody.nullable() })) })
  .meta({ id: 'StockTakeScans', description: 'One result for each scan, in the order in which they were sent. What is not `ours` is counted all the same and becomes a difference.', examples: [{ results: [{ scanId: id, verdict: 'counted', standing: 'ours', itemId: id, problem: null }] }] });

export const ResolveDifference = z
  .strictObject({ resolution, personId: uuid, reason: text(500) })
  .meta({ id: 'ResolveDifference', examples: [{ resolution: 'move-on-record', personId: id, reason: 'Stood on the shelf below' }] });

const resolutionMembers = { id: z.string(), differenceId: z.string(), kind, resolution, personId: z.string(), reason: z.string(), resolvedAt: z.string(), eventSeq: z.int().nullable() };
const resolutionExample = { id, differenceId: id, kind: 'misplaced' as const, resolution: 'move-on-record' as const, personId: id, reason: 'Stood on the shelf below', resolvedAt: '2026-05-09T10:00:00.000Z', eventSeq: 5 };
export const StockTakeResolutionBody = z
  .strictObject(resolutionMembers)
  .meta({ id: 'StockTakeResolution', description: 'How a difference was worked off. `eventSeq` is the custody event of the item that it made.', examples: [resolutionExample] });

const count = z.int();
export const StockTakeBody = z
  .strictObject({
    id: z.string(), incidentId: z.string(), siteId: z.string().nullable(), places: z.array(KeeperRef), state: z.enum(['open', 'closed']),
    startedAt: z.string(), startedBy: z.string(), closedAt: z.string().nullable(), closedBy: z.string().nullable(), version: count,
    expected: count, seen: count, inPlace: count, movedMeanwhile: count, misplaced: count, missing: count, foreign: count, openDifferences: count,
    resolutions: z.array(StockTakeResolutionBody),
  })
  .meta({
    id: 'StockTake',
    description: 'How far a stock-take is. `expected` is what was on record there when it began: `inPlace` + `movedMeanwhile` (by ordinary events) + `misplaced` + `missing`, which are those that nobody has seen yet. `foreign` things are none of them.',
    examples: [{ id, incidentId: id, siteId: null, places: [shelf], state: 'open', startedAt: '2026-05-09T09:00:00.000Z', startedBy: id, closedAt: null, closedBy: null, version: 1, expected: 40, seen: 38, inPlace: 37, movedMeanwhile: 0, misplaced: 1, missing: 2, foreign: 1, openDifferences: 4, resolutions: [resolutionExample] }],
  });

export const StockTakeDifferenceBody = z
  .strictObject({
    id: z.string(), kind, state: z.enum(['open', 'settled']), itemId: z.string().nullable(), tag: z.string(), standing: standing.nullable(), recorded: KeeperRef.nullable(), seenPlace: KeeperRef.nullable(), seenAt: z.string().nullable(),
    words: z.string(), resolutions: z.array(resolution), settledBy: StockTakeResolutionBody.nullable(),
  })
  .meta({
    id: 'StockTakeDifference',
    description: 'What differs between the record and what was seen. `recorded` is where the record has it now, `seenPlace` where it was last seen; `resolutions` are those that go with it.',
    examples: [{ id, kind: 'misplaced', state: 'open', itemId: id, tag: 'BBBC-BBB-47', standing: 'ours', recorded: shelf, seenPlace: { kind: 'holding', id }, seenAt: '2026-05-09T09:12:00.000Z', words: 'It lies where the record does not have it. Put it back, or put it on record where it is.', resolutions: ['move-on-record', 'put-back', 'recount'], settledBy: null }],
  });

export const CloseStockTake = z.strictObject({ personId: uuid }).meta({ id: 'CloseStockTake', examples: [{ personId: id }] });
