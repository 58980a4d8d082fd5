import { z } from 'zod';
import { instant, PageQuery, text, uuid } from '../primitives.js';
import { KeeperRef } from './custody.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const MOST_THINGS = 500;
const tags = z.array(text(40)).max(MOST_THINGS);
const exceptionKind = z.enum(['not-loaded', 'not-expected', 'missing', 'extra']);
const NamedExceptions = z.array(z.strictObject({
  tag: text(40), reason: text(500),
  /** Who works it off; who records it when left out. */
  ownerId: uuid.nullable().default(null),
})).max(MOST_THINGS).default([]);

export const ManifestParams = z.strictObject({ manifestId: uuid });
export const ManifestExceptionParams = z.strictObject({ exceptionId: uuid });

export const CreateManifest = z
  .strictObject({
    /** The vehicle or the container that carries it. */
    carrier: KeeperRef,
    fromSiteId: uuid, toSiteId: uuid,
    /** Who answers for it. */
    personId: uuid,
    /** Tags of what is to travel. */
    expected: tags.default([]),
  })
  .meta({ id: 'CreateManifest', examples: [{ carrier: { kind: 'vehicle', id }, fromSiteId: id, toSiteId: id, personId: id, expected: ['BBBC-BBB-47'] }] });

export const LoadManifest = z.strictObject({ personId: uuid, tags: tags.min(1), loadedAt: instant.nullable().default(null) }).meta({ id: 'LoadManifest', examples: [{ personId: id, tags: ['BBBC-BBB-47'] }] });

export const DepartManifest = z
  .strictObject({ personId: uuid, exceptions: NamedExceptions, departedAt: instant.nullable().default(null) })
  .meta({ id: 'DepartManifest', examples: [{ personId: id, exceptions: [{ tag: 'BBBD-BBB-17', reason: 'Still drips; goes tomorrow' }] }] });

export const ArriveManifest = z
  .strictObject({
    personId: uuid, tags,
    /** Where it is put down; needed for a vehicle. What came in a container may stay there. */
    to: KeeperRef.nullable().default(null),
    exceptions: NamedExceptions,
    /** `false` while more is to be scanned off. */
    complete: z.boolean().default(true),
    arrivedAt: instant.nullable().default(null),
  })
  .meta({ id: 'ArriveManifest', examples: [{ personId: id, tags: ['BBBC-BBB-47'], to: { kind: 'holding', id } }] });

export const SettleException = z.strictObject({ personId: uuid, settlement: text(1_000, 3) }).meta({ id: 'SettleException', examples: [{ personId: id, settlement: 'Found under the seat; scanned into the hall.' }] });

const exceptionMembers = {
  id: z.string(), manifestId: z.string(), thing: z.enum(['item', 'container']), thingId: z.string(), tag: z.string(), kind: exceptionKind, reason: z.string(),
  ownerId: z.string(), openedAt: z.string(), settledAt: z.string().nullable(), settledBy: z.string().nullable(), settlement: z.string(),
};
const exceptionExample = { id, manifestId: id, thing: 'item' as const, thingId: id, tag: 'BBBD-BBB-17', kind: 'not-loaded' as const, reason: 'Still drips; goes tomorrow', ownerId: id, openedAt: '2026-05-09T10:00:00.000Z', settledAt: null, settledBy: null, settlement: '' };

export const ManifestExceptionBody = z
  .strictObject({ ...exceptionMembers, ageMinutes: z.int() })
  .meta({ id: 'ManifestException', description: 'What differs, with somebody who answers for it and the time since it was found: until it is settled, or until now.', examples: [{ ...exceptionExample, ageMinutes: 95 }] });

const ids = z.array(z.string());
export const ManifestBody = z
  .strictObject({
    id: z.string(), incidentId: z.string(), carrier: KeeperRef, fromSiteId: z.string(), toSiteId: z.string(), personId: z.string(),
    state: z.enum(['loading', 'departed', 'arrived']), createdAt: z.string(),
    departedAt: z.string().nullable(), departedBy: z.string().nullable(), arrivedAt: z.string().nullable(), arrivedBy: z.string().nullable(), version: z.int(),
    lines: z.array(z.strictObject({ thing: z.enum(['item', 'container']), id: z.string(), tag: z.string(), expected: z.boolean(), loadedAt: z.string().nullable(), loadedBy: z.string().nullable(), unloadedAt: z.string().nullable(), unloadedBy: z.string().nullable() })),
    /** Every expected or scanned thing stands in exactly one list: `unaccounted` ones keep it from departing. */
    departure: z.strictObject({ asExpected: ids, excused: ids, unaccounted: ids, unexpected: ids }),
    /** Null before it has departed. Until all is scanned off, `missing` are those still to come off. */
    arrival: z.strictObject({ arrived: ids, missing: ids, extra: ids }).nullable(),
    exceptions: z.array(z.strictObject(exceptionMembers)),
  })
  .meta({
    id: 'Manifest',
    description: 'What travels on a vehicle or in a container: expected is scanned, or a named exception. Ids in `departure` and `arrival` are those of the lines.',
    examples: [{
      id, incidentId: id, carrier: { kind: 'vehicle', id }, fromSiteId: id, toSiteId: id, personId: id, state: 'departed', createdAt: '2026-05-09T09:30:00.000Z', departedAt: '2026-05-09T10:00:00.000Z', departedBy: id, arrivedAt: null, arrivedBy: null, version: 3,
      lines: [{ thing: 'item', id, tag: 'BBBD-BBB-17', expected: true, loadedAt: null, loadedBy: null, unloadedAt: null, unloadedBy: null }],
      departure: { asExpected: [], excused: [id], unaccounted: [], unexpected: [] }, arrival: { arrived: [], missing: [], extra: [] }, exceptions: [exceptionExample],
    }],
  });

export const ManifestExceptionQuery = PageQuery.extend({
  /** `true`: settled ones, too. */
  settled: z.enum(['true', 'false']).default('false'),
});
