import { z } from 'zod';
import { instant, optionalText, PageQuery, text, uuid } from '../primitives.js';
import { KeeperRef } from './custody.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const containerKind = z.enum(['box', 'bag', 'tub', 'crate']);

export const ContainerParams = z.strictObject({ containerId: uuid });

export const RegisterContainer = z
  .strictObject({
    siteId: uuid, tag: text(40), kind: containerKind, description: optionalText(300),
    /** Where it stands; the first waiting area of the site when left out. */
    to: KeeperRef.nullable().default(null),
  })
  .meta({ id: 'RegisterContainer', examples: [{ siteId: id, tag: 'CBBB-BBB-12', kind: 'tub', description: 'Blue tub, holds about 60 L' }] });

export const ContainerBody = z
  .strictObject({
    id: z.string(), incidentId: z.string(), siteId: z.string(), tag: z.string(), kind: containerKind, description: z.string(),
    /** Null for one from before containers had records. */
    keeper: KeeperRef.nullable(),
    /** What keeps the outermost container around it, or the container itself. */
    standsAt: KeeperRef.nullable(),
    /** The containers around it, innermost first. */
    insideContainers: z.array(z.string()),
    /** With what lies in containers inside it. */
    contents: z.strictObject({ items: z.int(), pieces: z.int(), containers: z.int(), volumeL: z.int() }),
    custodySeq: z.int(),
    openHandOver: z.strictObject({ id: z.string(), to: KeeperRef }).nullable(),
    locationDisputed: z.boolean(),
    missing: z.boolean(),
    lastSeenAt: z.string(),
    version: z.int(),
  })
  .meta({
    id: 'Container',
    description: 'A box, bag, tub or crate with a record of its own. What is inside keeps it as its keeper and moves with it; its volume counts toward the place where the container stands.',
    examples: [{
      id, incidentId: id, siteId: id, tag: 'CBBB-BBB-12', kind: 'tub', description: '', keeper: { kind: 'holding', id }, standsAt: { kind: 'holding', id }, insideContainers: [], contents: { items: 3, pieces: 3, containers: 0, volumeL: 41 },
      custodySeq: 1, openHandOver: null, locationDisputed: false, missing: false, lastSeenAt: '2026-05-09T07:10:00.000Z', version: 1,
    }],
  });

export const RecordContainerPassing = z
  .strictObject({
    kind: z.enum(['moved', 'reported-missing', 'found-again', 'location-settled', 'correction']),
    /** Who the sender believes holds it; null only for one that has no record yet. */
    from: KeeperRef.nullable(),
    to: KeeperRef,
    personId: uuid.nullable().default(null),
    occurredAt: instant.nullable().default(null),
    reason: optionalText(500),
    corrects: z.strictObject({ seq: z.int().min(1), reason: text(200) }).nullable().default(null),
  })
  .meta({ id: 'RecordContainerPassing', examples: [{ kind: 'moved', from: { kind: 'holding', id }, to: { kind: 'vehicle', id }, personId: id }] });

export const ContainerContentsQuery = PageQuery.extend({
  /** `false`: only what lies in the container itself. */
  nested: z.enum(['true', 'false']).default('true'),
});

export const ContainedBody = z
  .strictObject({ thing: z.enum(['item', 'container']), id: z.string(), tag: z.string(), description: z.string(), containerId: z.string(), depth: z.int() })
  .meta({ id: 'Contained', description: 'One thing in a container. `containerId` is the container that keeps it; `depth` is 1 in the container that was asked about.', examples: [{ thing: 'item', id, tag: 'BBBC-BBB-47', description: 'Wedding quilt', containerId: id, depth: 1 }] });
