import { CUSTODY_EVENT_KINDS } from '#custody';
import { z } from 'zod';
import { instant, text, uuid } from '../primitives.js';
import { KeeperRef } from './custody.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const tag = text(40).nullable().default(null);

export const ScanInput = z.strictObject({
  scanId: uuid.describe('Made by the device. The same scan sent again gets its first answer, for ever.'),
  itemTag: tag.describe('As typed or scanned. A scan names an item or a container, never both.'),
  containerTag: tag,
  placeTag: tag.describe('The tag of a place or of the container into which it was put; or name the place itself in `place`.'),
  place: KeeperRef.nullable().default(null),
  seenAt: instant.describe("The device's time, corrected by its known offset."),
  personId: uuid.nullable().default(null).describe('Who scanned it.'),
  baseSeq: z.int().min(1).max(2_147_483_647).nullable().default(null).describe('Number of the last custody event of the thing that the device knew when it scanned; null for a scanner that keeps no record.'),
});

export const RecordScans = z
  .strictObject({ scans: z.array(ScanInput).min(1).max(200) })
  .meta({ id: 'RecordScans', description: 'What one device scanned.', examples: [{ scans: [{ scanId: id, itemTag: 'BBBC-BBB-47', placeTag: 'PBBC-BBB-63', seenAt: '2026-05-09T09:12:00Z', personId: id, baseSeq: 3 }] }] });
export type RecordScans = z.output<typeof RecordScans>;

export const ScanProblemBody = z
  .looseObject({ code: z.string(), title: z.string(), status: z.int(), detail: z.string(), errors: z.array(z.object({ detail: z.string(), code: z.string(), pointer: z.string().optional() })).optional() })
  .meta({ id: 'ScanProblem', description: 'As a problem document of the same `code` would say it.', examples: [{ code: 'tag_unknown', title: 'The tag was never reserved for this incident', status: 422, detail: 'Nothing of this incident carries this tag.' }] });

export const ScanResultBody = z
  .strictObject({
    scanId: z.string(),
    verdict: z.enum(['applied', 'seen-again', 'seen-late', 'disputed', 'refused']),
    itemId: z.string().nullable(),
    containerId: z.string().nullable(),
    place: KeeperRef.nullable(),
    event: z.strictObject({ kind: z.enum(CUSTODY_EVENT_KINDS), seq: z.int() }).nullable(),
    problem: ScanProblemBody.nullable(),
  })
  .meta({ id: 'ScanResult', description: 'What became of one scan. `event` is what it put on record; its `seq` is the next `baseSeq`.', examples: [{ scanId: id, verdict: 'applied', itemId: id, containerId: null, place: { kind: 'shelf', id }, event: { kind: 'moved', seq: 4 }, problem: null }] });

export const ScanResultsBody = z
  .strictObject({ results: z.array(ScanResultBody) })
  .meta({ id: 'ScanResults', description: 'One result for each scan, in the order in which they were sent.', examples: [{ results: [{ scanId: id, verdict: 'seen-again', itemId: id, containerId: null, place: { kind: 'shelf', id }, event: null, problem: null }] }] });

export const SightingBody = z
  .strictObject({
    id: z.string(), place: KeeperRef, seenAt: z.string(), recordedAt: z.string(), personId: z.string().nullable(), actorId: z.string(),
    verdict: z.enum(['seen-again', 'seen-late', 'claims-elsewhere', 'found', 'left-the-network']), atSeq: z.int(), note: z.string(),
  })
  .meta({
    id: 'Sighting',
    description: 'Where somebody saw a thing, without anything being moved on record. `seenAt` is the time of the device, `recordedAt` ours; `atSeq` is the last custody event that was on record then. `claims-elsewhere` is kept as evidence of a disputed place.',
    examples: [{ id, place: { kind: 'shelf', id }, seenAt: '2026-05-09T09:12:00.000Z', recordedAt: '2026-05-09T09:12:04.000Z', personId: id, actorId: id, verdict: 'seen-again', atSeq: 3, note: '' }],
  });
