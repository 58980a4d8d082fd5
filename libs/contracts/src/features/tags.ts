import { z } from 'zod';
import { optionalText, text, uuid } from '../primitives.js';
import { ItemBody } from './items.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

export const TagParams = z.strictObject({ tag: z.string().min(1).max(40) });

export const ReserveTags = z
  .strictObject({ kind: z.enum(['item', 'container']), count: z.int().min(1).max(5_000), reservedFor: text(120) })
  .meta({ id: 'ReserveTags', examples: [{ kind: 'item', count: 200, reservedFor: 'Doorway team A' }] });

export const TagBlockBody = z
  .strictObject({ id: z.string(), kind: z.enum(['item', 'container']), reservedFor: z.string(), tags: z.array(z.string()) })
  .meta({ id: 'TagBlock', description: 'Tags that belong to one team; they can be printed and used without a network.', examples: [{ id, kind: 'item', reservedFor: 'Doorway team A', tags: ['BBBC-BBB-47'] }] });

export const TagLookUpBody = z
  .strictObject({ tag: z.string(), kind: z.enum(['item', 'container']), containerId: z.string().nullable(), item: ItemBody.nullable() })
  .meta({ id: 'TagLookUp', examples: [{ tag: 'BBBC-BBB-47', kind: 'item', containerId: null, item: null }] });

export const RegisterContainer = z
  .strictObject({ siteId: uuid, tag: text(40), kind: z.enum(['box', 'bag', 'tub', 'crate']), description: optionalText(300) })
  .meta({ id: 'RegisterContainer', examples: [{ siteId: id, tag: 'CBBB-BBB-12', kind: 'tub', description: 'Blue tub, holds about 60 L' }] });

export const ContainerBody = z
  .strictObject({ id: z.string(), incidentId: z.string(), siteId: z.string(), tag: z.string(), kind: z.enum(['box', 'bag', 'tub', 'crate']), description: z.string() })
  .meta({ id: 'Container', examples: [{ id, incidentId: id, siteId: id, tag: 'CBBB-BBB-12', kind: 'tub', description: '' }] });
